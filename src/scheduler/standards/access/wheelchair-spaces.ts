/**
 * Wheelchair spaces among seats. The table is written for fixed seats; for loose chairs the same numbers are taken as
 * the least (common practice, no source).
 */
import { count } from '../occupancy/checked-number.ts'
import type { Sourced } from '../occupancy/sourced.ts'

export interface WheelchairRow extends Sourced {
  readonly seatsAtMost: number | null
  /** Spaces for the row, and one more for each so many seats, or part of it, over `countedOver`. */
  readonly spaces: number
  readonly seatsForEachMore: number | null
  readonly countedOver: number
}

const row = (
  seatsAtMost: number | null,
  spaces: number,
  seatsForEachMore: number | null = null,
  countedOver = 0,
): WheelchairRow => ({
  seatsAtMost,
  spaces,
  seatsForEachMore,
  countedOver,
  source: '2010 ADA Standards, Table 221.2.1.1 (quoted by a memorandum)',
  status: 'second-hand',
})

/** Rising. The table says "501 through 5000"; counted over 500, 5,000 seats give the 36 that the last row starts from. */
export const WHEELCHAIR_SPACES: readonly WheelchairRow[] = [
  row(3, 0),
  row(25, 1),
  row(50, 2),
  row(150, 4),
  row(300, 5),
  row(500, 6),
  row(5000, 6, 150, 500),
  row(null, 36, 200, 5000),
]

/**
 * Wheelchair spaces for so many seats: 0 for fewer than four, never fewer for more seats.
 * @throws RangeError for seats that are not a whole number of 0 or more
 * @source 2010 ADA Standards, Table 221.2.1.1; fractions up, 104.2
 */
export function wheelchairSpaces(seats: number): number {
  count('seats', seats)
  const { spaces, seatsForEachMore, countedOver } = WHEELCHAIR_SPACES.find(
    ({ seatsAtMost }) => seatsAtMost === null || seats <= seatsAtMost,
  )!
  return spaces + (seatsForEachMore === null ? 0 : Math.ceil((seats - countedOver) / seatsForEachMore))
}

/**
 * Companion seats: at least one beside each wheelchair space.
 * @throws RangeError for seats that are not a whole number of 0 or more
 * @source 2010 ADA Standards 221.3 (from memory)
 */
export const companionSeats = (seats: number): number => wheelchairSpaces(seats)
