/**
 * Where a polygon meets itself. Corners are taken to the millimetre: with whole numbers the side of a line on which a
 * point lies is exact, and no hall is measured closer.
 */
import type { FloorPoint } from '../../domain/floor.ts'

/** Two sides that cross, touch or lie on one another though they do not follow each other; by index, from 0. */
export interface SelfCrossing {
  readonly side: number
  readonly otherSide: number
}

interface MillimetrePoint {
  readonly x: number
  readonly y: number
}

/**
 * @param corners  in order; at most 200, as each pair of sides is looked at
 * @returns the first pair in order of the sides; null when the outline meets itself nowhere but at its corners. A side
 *          that runs back along the one before it is a crossing too
 */
export function selfCrossing(corners: readonly FloorPoint[]): SelfCrossing | null {
  const points = corners.map(inMillimetres)
  const count = points.length
  const at = (index: number): MillimetrePoint => points[index % count]!
  for (let side = 0; side < count; side += 1) {
    for (let otherSide = side + 1; otherSide < count; otherSide += 1) {
      const follows = otherSide === side + 1
      const precedes = side === 0 && otherSide === count - 1
      const meet = follows
        ? runsBack(at(side), at(side + 1), at(otherSide + 1))
        : precedes
          ? runsBack(at(otherSide), at(side), at(side + 1))
          : sidesMeet(at(side), at(side + 1), at(otherSide), at(otherSide + 1))
      if (meet) return { side, otherSide }
    }
  }
  return null
}

/** The index of the first corner that repeats an earlier one, to the millimetre, and of that one; null: none does. */
export function repeatedCorner(corners: readonly FloorPoint[]): { corner: number; earlier: number } | null {
  const firstByPlace = new Map<string, number>()
  for (const [corner, point] of corners.entries()) {
    const { x, y } = inMillimetres(point)
    const earlier = firstByPlace.get(`${x} ${y}`)
    if (earlier !== undefined) return { corner, earlier }
    firstByPlace.set(`${x} ${y}`, corner)
  }
  return null
}

// Adding 0 makes one of the two zeros.
const inMillimetres = ({ xMetres, yMetres }: FloorPoint): MillimetrePoint => ({
  x: Math.round(xMetres * 1000) + 0,
  y: Math.round(yMetres * 1000) + 0,
})

/** Twice the area of the triangle; positive: the third point lies to the left of the way from the first to the second. */
const turnOf = (a: MillimetrePoint, b: MillimetrePoint, c: MillimetrePoint): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)

/** The way from `a` over the corner `b` to `c` goes back over itself. */
const runsBack = (a: MillimetrePoint, b: MillimetrePoint, c: MillimetrePoint): boolean =>
  turnOf(a, b, c) === 0 && (a.x - b.x) * (c.x - b.x) + (a.y - b.y) * (c.y - b.y) > 0

function sidesMeet(a: MillimetrePoint, b: MillimetrePoint, c: MillimetrePoint, d: MillimetrePoint): boolean {
  const [cTurn, dTurn, aTurn, bTurn] = [turnOf(a, b, c), turnOf(a, b, d), turnOf(c, d, a), turnOf(c, d, b)]
  if (opposite(cTurn, dTurn) && opposite(aTurn, bTurn)) return true
  return (
    (cTurn === 0 && isBetween(a, b, c)) ||
    (dTurn === 0 && isBetween(a, b, d)) ||
    (aTurn === 0 && isBetween(c, d, a)) ||
    (bTurn === 0 && isBetween(c, d, b))
  )
}

const opposite = (one: number, other: number): boolean => (one > 0 && other < 0) || (one < 0 && other > 0)

/** For a point on the line through both. */
const isBetween = (a: MillimetrePoint, b: MillimetrePoint, point: MillimetrePoint): boolean =>
  Math.min(a.x, b.x) <= point.x &&
  point.x <= Math.max(a.x, b.x) &&
  Math.min(a.y, b.y) <= point.y &&
  point.y <= Math.max(a.y, b.y)
