/** Divisible work in lots: small enough to share out, large enough that the list stays readable. */

/** Five minutes of a pair. */
const LOT_PERSON_SECONDS = 600

/** How coarsely work is cut: 1 is the usual; larger where there would be too many tasks. */
export interface LotSize {
  readonly growth: number
}

/**
 * `count` pieces in `parts` as equal as can be, the larger ones first.
 * @returns `parts` numbers, 0 among them where there are fewer pieces than parts; they add up to `count`
 */
export function evenParts(count: number, parts: number): number[] {
  const least = Math.floor(count / parts)
  const larger = count - least * parts
  return Array.from({ length: parts }, (_, index) => least + (index < larger ? 1 : 0))
}

/**
 * Into how many lots pieces are cut: none longer than about five minutes of a pair, none larger than a trolley.
 * @param pieces               0 or more
 * @param personSecondsEach    work of one piece for this crew
 * @param trolleyCapacity      pieces on one trolley; null: no trolley is used
 * @returns at most `pieces`; 0 for no pieces
 */
export function pieceLotCount(
  pieces: number,
  personSecondsEach: number,
  trolleyCapacity: number | null,
  size: LotSize,
): number {
  const lotsByWork = Math.ceil((pieces * personSecondsEach) / (LOT_PERSON_SECONDS * size.growth))
  const lotsByTrolley = trolleyCapacity === null ? 1 : Math.ceil(pieces / (trolleyCapacity * size.growth))
  return Math.min(pieces, Math.max(1, lotsByWork, lotsByTrolley))
}

/** Into how many equal lots an area's cleaning is cut; 1 or more. */
export const areaLotCount = (personSeconds: number, size: LotSize): number =>
  Math.max(1, Math.ceil(personSeconds / (LOT_PERSON_SECONDS * size.growth)))
