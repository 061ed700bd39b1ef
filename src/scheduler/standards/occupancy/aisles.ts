/** Aisles beside rows of seats, and loose chairs that must be joined. */
import { count } from './checked-number.ts'
import type { CodeTables } from './code-tables.ts'

export interface AisleShape {
  readonly seatsOnBothSides: boolean
  /** Left out: level or a ramp. */
  readonly stepped?: boolean
}

/**
 * The width, in millimetres, of an aisle that serves so many seats: 0 for none, null where the tables have no figure.
 * @throws RangeError for seats that are not a whole number of 0 or more
 * @source IBC 1030.9.1
 */
export function aisleWidthNeededMillimetres(
  tables: CodeTables,
  input: AisleShape & { readonly seatsServed: number },
): number | null {
  const seats = count('seatsServed', input.seatsServed)
  if (!tables.aisles) return null
  if (seats === 0) return 0
  const { levelBothSides, levelOneSide, steppedBothSides, steppedOneSide } = tables.aisles
  const [bothSides, oneSide] = input.stepped
    ? [steppedBothSides, steppedOneSide]
    : [levelBothSides, levelOneSide]
  const width = input.seatsOnBothSides ? bothSides : oneSide
  return seats <= width.smallUpToSeats ? width.millimetresSmall : width.millimetres
}

/**
 * In groups of how many at least loose chairs must be joined: 1 when they may stand free, null without a figure.
 * @param looseChairs  chairs that are not fixed and not at tables
 * @throws RangeError for chairs that are not a whole number of 0 or more
 * @source IBC 1030.15
 */
export function chairsJoinedAtLeast(tables: CodeTables, looseChairs: number): number | null {
  const chairs = count('looseChairs', looseChairs)
  const rule = tables.looseChairs
  return rule && (chairs > rule.chairsFree ? rule.joinedAtLeast : 1)
}
