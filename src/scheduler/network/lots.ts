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
 * Into how many lots pieces are cut that stay in the room: none longer than about five minutes of a pair.
 * @param pieces             0 or more
 * @param personSecondsEach  work of one piece for this crew
 * @returns at most `pieces`; 0 for no pieces
 */
export function pieceLotCount(pieces: number, personSecondsEach: number, size: LotSize): number {
  const lotsByWork = Math.ceil((pieces * personSecondsEach) / (LOT_PERSON_SECONDS * size.growth))
  return Math.min(pieces, Math.max(1, lotsByWork))
}

/** Pieces that go between store and room, as loads and what they cost. */
export interface Loads {
  /** 0 or more. */
  readonly pieces: number
  /** 1 or more. */
  readonly piecesPerLoad: number
  readonly byTrolley: boolean
  /** Work of this crew on one piece, and on the way of one load. */
  readonly pieceSeconds: number
  readonly loadSeconds: number
}

/** A lot of pieces that go between store and room. */
export interface LoadLot {
  readonly pieces: number
  /** Trips that it pays: whole ones, or its part of one that several lots share. */
  readonly loads: number
  /** On the fullest of its loads. */
  readonly piecesOnALoad: number
}

/** How many lots `loadLots` would make. */
export function loadLotCount(pieces: Loads, size: LotSize): number {
  const { loads, smaller, larger, lotsPerLoad, loadsPerLot } = cutOfLoads(pieces, size)
  if (lotsPerLoad === 1) return Math.ceil(loads / loadsPerLot)
  return larger * Math.min(lotsPerLoad, smaller + 1) + (loads - larger) * Math.min(lotsPerLoad, smaller)
}

/**
 * Lots of whole loads: as few loads as there can be, as equally full as can be, and as many of them in a lot as about
 * five minutes of a pair allow; of trolley loads one. A load that alone takes much longer is shared by several lots,
 * each paying its part of the way, so that the trips paid are always those that are gone.
 * @returns with the larger ones first; empty for no pieces
 */
export function loadLots(pieces: Loads, size: LotSize): LoadLot[] {
  const { loads, smaller, larger, lotsPerLoad, loadsPerLot } = cutOfLoads(pieces, size)
  const piecesOn = (load: number) => smaller + (load < larger ? 1 : 0)
  if (lotsPerLoad > 1) {
    return Array.from({ length: loads }, (_, load) => {
      const piecesOnALoad = piecesOn(load)
      return evenParts(piecesOnALoad, Math.min(lotsPerLoad, piecesOnALoad)).map((part) => ({
        pieces: part,
        loads: part / piecesOnALoad,
        piecesOnALoad,
      }))
    }).flat()
  }
  let from = 0
  return evenParts(loads, Math.ceil(loads / loadsPerLot)).map((count) => {
    const fuller = Math.max(0, Math.min(from + count, larger) - from)
    const lot = { pieces: count * smaller + fuller, loads: count, piecesOnALoad: piecesOn(from) }
    from += count
    return lot
  })
}

/** A load is shared only where it takes half as long again as a lot should. */
const SHARED_LOAD_GROWTH = 1.5

function cutOfLoads(
  { pieces, piecesPerLoad, byTrolley, pieceSeconds, loadSeconds }: Loads,
  { growth }: LotSize,
) {
  const loads = Math.ceil(pieces / piecesPerLoad)
  if (loads === 0) return { loads, smaller: 0, larger: 0, lotsPerLoad: 1, loadsPerLot: 1 }
  const smaller = Math.floor(pieces / loads)
  const seconds = Math.ceil(pieces / loads) * pieceSeconds + loadSeconds
  const lotSeconds = LOT_PERSON_SECONDS * growth
  const loadsMost = byTrolley ? Math.floor(growth) : loads
  return {
    loads,
    smaller,
    /** Loads that have one piece more than the others. */
    larger: pieces - smaller * loads,
    lotsPerLoad: seconds > lotSeconds * SHARED_LOAD_GROWTH ? Math.ceil(seconds / lotSeconds) : 1,
    loadsPerLot: Math.max(1, Math.min(loadsMost, Math.floor(lotSeconds / seconds))),
  }
}

/** Into how many equal lots an area's cleaning is cut; 1 or more. */
export const areaLotCount = (personSeconds: number, size: LotSize): number =>
  Math.max(1, Math.ceil(personSeconds / (LOT_PERSON_SECONDS * size.growth)))
