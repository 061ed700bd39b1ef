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
 * `count` pieces in proportion to `weights`: each part is its share rounded down, and those with the largest
 * remainders get one more, the first ones where remainders are alike. With whole weights that add up to at least
 * `count`, no part is larger than its weight.
 * @param weights  0 or more each, not empty; all 0: parts as equal as can be
 * @returns one number for each weight; they add up to `count`
 */
export function partsByWeight(count: number, weights: readonly number[]): number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0)
  if (sum <= 0) return evenParts(count, weights.length)
  const exact = weights.map((weight) => (count * weight) / sum)
  const parts = exact.map((share) => Math.floor(share + REMAINDER_NOISE))
  const left = count - parts.reduce((total, part) => total + part, 0)
  if (left <= 0) return parts
  const byRemainder = exact
    .map((share, index) => ({ index, remainder: Math.round((share - parts[index]!) / REMAINDER_NOISE) }))
    .sort((a, b) => b.remainder - a.remainder || a.index - b.index)
  for (const { index } of byRemainder.slice(0, left)) parts[index]! += 1
  return parts
}

/** Thirds of a floor are not thirds in binary: shares this near to each other are alike. */
const REMAINDER_NOISE = 1e-9

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
