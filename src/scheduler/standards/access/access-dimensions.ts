/** Clear floor, heights and widths for people in wheelchairs, in millimetres. */
import { amount, count } from '../occupancy/checked-number.ts'
import { metresFromFeet, millimetresFromInches } from '../occupancy/imperial-units.ts'
import type { SourcedFigure, SourceStatus } from '../occupancy/sourced.ts'

const inches = (value: number, section: string, status: SourceStatus): SourcedFigure => ({
  value: millimetresFromInches(value),
  source: `2010 ADA Standards ${section}`,
  status,
})

export const ACCESS_DIMENSIONS = {
  /** One space by itself. It overlaps no way and no other space (802.1.4 and 802.1.5). */
  spaceWidthAlone: inches(36, '802.1.2', 'second-hand'),
  /** Each of two or more side by side. */
  spaceWidthBeside: inches(33, '802.1.2', 'second-hand'),
  spaceDepthFromFrontOrRear: inches(48, '802.1.3', 'from memory'),
  spaceDepthFromSide: inches(60, '802.1.3', 'from memory'),
  /** At an accessible dining place, approached forward, with knee and toe room. */
  diningFloorWidth: inches(30, '902.2, 305.3', 'second-hand'),
  diningFloorDepth: inches(48, '902.2, 305.3, 306', 'second-hand'),
  diningHeightLeast: inches(28, '902.3 (California text of the same number)', 'second-hand'),
  diningHeightMost: inches(34, '902.3 (California text of the same number)', 'second-hand'),
  toeRoomLeast: inches(17, '306.2', 'second-hand'),
  toeRoomMost: inches(25, '306.2', 'second-hand'),
  /** From the edge of the table to a way behind it: the clear floor less the toe room. */
  tableEdgeToWay: inches(31, '902.2 and 306.2 (48 − 17 in)', 'second-hand'),
  routeWidth: inches(36, '403.5.1', 'second-hand'),
  narrowRouteWidth: inches(32, '403.5.1', 'from memory'),
  /** No longer than this may a route be narrow. */
  narrowRouteLength: inches(24, '403.5.1', 'from memory'),
  passingWidth: inches(60, '403.5.3', 'from memory'),
  /** A place to pass at least every so far. */
  passingEvery: {
    value: metresFromFeet(200) * 1000,
    source: '2010 ADA Standards 403.5.3',
    status: 'from memory',
  },
  turningCircle: inches(60, '304.3', 'from memory'),
} as const satisfies Record<string, SourcedFigure>

/**
 * Width, in millimetres, of so many wheelchair spaces side by side; 0 for none.
 * @throws RangeError for spaces that are not a whole number of 0 or more
 * @source 2010 ADA Standards 802.1.2
 */
export function spacesWidthMillimetres(spaces: number): number {
  if (count('spaces', spaces) === 1) return ACCESS_DIMENSIONS.spaceWidthAlone.value
  return spaces * ACCESS_DIMENSIONS.spaceWidthBeside.value
}

/**
 * Whether a route is wide enough: 36 in, or 32 in where it is narrow for at most 24 in.
 * @param narrowForMillimetres  how long the narrow part is, 0 or more
 * @throws RangeError for a negative or unbounded measure
 */
export function routeIsWideEnough(clearWidthMillimetres: number, narrowForMillimetres: number): boolean {
  // A micrometre for the last binary digit: 36 in are 36 in.
  const width = amount('clearWidthMillimetres', clearWidthMillimetres) + 1e-3
  const length = amount('narrowForMillimetres', narrowForMillimetres) - 1e-3
  const { routeWidth, narrowRouteWidth, narrowRouteLength } = ACCESS_DIMENSIONS
  return width >= routeWidth.value || (width >= narrowRouteWidth.value && length <= narrowRouteLength.value)
}
