/** What can be wrong with the outline of a floor or of a part of it. */
import type { FloorPoint } from '../../domain/floor.ts'
import { polygonArea, repeatedCorner, selfCrossing } from '../../scheduler/geometry/index.ts'
import { bodyFault, type Fault } from '../problems.ts'

/** A square decimetre: less is no floor. */
const AREA_LEAST_SQUARE_METRES = 0.01

/**
 * Of several things that are wrong the one that is to be mended first.
 * @param at    pointer of the list of corners
 * @param what  `the floor`, `zone Stage`
 */
export function outlineFaults(at: string, corners: readonly FloorPoint[], what: string): Fault[] {
  const repeat = repeatedCorner(corners)
  if (repeat) {
    const { corner, earlier } = repeat
    const message = `corner ${corner + 1} of ${what} repeats corner ${earlier + 1}; list each corner once, the last one joins the first by itself`
    return [bodyFault(`${at}/${corner}`, message)]
  }
  if (corners.length > 2 && isOnOneLine(corners)) {
    return [bodyFault(at, `${what} has no area: its corners lie on one line`)]
  }
  const crossing = selfCrossing(corners)
  if (crossing) {
    const side = (from: number) => `the side from corner ${from + 1} to ${((from + 1) % corners.length) + 1}`
    const message = `${what} crosses itself: ${side(crossing.side)} meets ${side(crossing.otherSide)}; list the corners in order around it`
    return [bodyFault(at, message)]
  }
  return polygonArea(corners) < AREA_LEAST_SQUARE_METRES
    ? [bodyFault(at, `${what} has no area: its corners lie on one line`)]
    : []
}

/** To the millimetre. */
function isOnOneLine(corners: readonly FloorPoint[]): boolean {
  const [first, second] = corners
  return corners.every((corner) => polygonArea([first!, second!, corner]) < 1e-6)
}
