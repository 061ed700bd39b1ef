/**
 * What nobody walks through: the edge of the floor and the things that stand on it for good. Touching is not walking
 * through, so points are tried a millimetre clear of every edge: then no way leads between a stage and the wall it
 * stands at, and no rounding decides.
 */
import type { FixedThing } from '../../domain/fixed-thing.ts'
import type { Floor, FloorPoint } from '../../domain/floor.ts'
import { fixedOutline, floorOutline } from '../geometry/index.ts'

/** How far from an edge a point is tried, and how near it may be to one. No hall is measured closer. */
const CLEAR_METRES = 0.001
const CLEAR_LEAST_METRES = 0.0005

/** A point that ways lead to, and where it is looked from: a millimetre into the open. */
export interface OpenPoint {
  readonly x: number
  readonly y: number
  readonly openX: number
  readonly openY: number
}

/** Corners in order, turning left, so that the inside is to the left of each side. */
interface Ring {
  readonly xs: Float64Array
  readonly ys: Float64Array
  readonly leftMetres: number
  readonly rightMetres: number
  readonly frontMetres: number
  readonly backMetres: number
  readonly isConvex: boolean
  /** A rectangle along the axes: as large as the box around it. */
  readonly isBox: boolean
}

export interface FloorBarriers {
  /** null: nobody knows where the floor ends. */
  readonly floor: Ring | null
  readonly things: readonly Ring[]
}

export const floorBarriers = (floor: Floor | null, fixedThings: readonly FixedThing[]): FloorBarriers => ({
  floor: floor && ringOf(floorOutline(floor)),
  things: fixedThings.map((thing) => ringOf(fixedOutline(thing.outline))),
})

function ringOf(corners: readonly FloorPoint[]): Ring {
  const turned = twiceAreaToTheLeft(corners) < 0 ? [...corners].reverse() : corners
  const xs = Float64Array.from(turned, ({ xMetres }) => xMetres)
  const ys = Float64Array.from(turned, ({ yMetres }) => yMetres)
  return {
    xs,
    ys,
    leftMetres: xs.reduce((least, x) => Math.min(least, x)),
    rightMetres: xs.reduce((most, x) => Math.max(most, x)),
    frontMetres: ys.reduce((least, y) => Math.min(least, y)),
    backMetres: ys.reduce((most, y) => Math.max(most, y)),
    isConvex: xs.every((_, index) => turnAt(xs, ys, index) >= 0),
    isBox:
      xs.length === 4 &&
      xs.every((x, index) => x === xs[(index + 1) % 4] || ys[index] === ys[(index + 1) % 4]),
  }
}

const twiceAreaToTheLeft = (corners: readonly FloorPoint[]): number =>
  corners.reduce((sum, a, index) => {
    const b = corners[(index + 1) % corners.length]!
    return sum + a.xMetres * b.yMetres - b.xMetres * a.yMetres
  }, 0)

/** Positive: the outline turns left at this corner. */
function turnAt(xs: Float64Array, ys: Float64Array, index: number): number {
  const before = index === 0 ? xs.length - 1 : index - 1
  const after = index + 1 === xs.length ? 0 : index + 1
  return sideOf(xs[before]!, ys[before]!, xs[index]!, ys[index]!, xs[after]!, ys[after]!)
}

/** Positive: the point lies to the left of the way from a to b. */
const sideOf = (ax: number, ay: number, bx: number, by: number, x: number, y: number): number =>
  (bx - ax) * (y - ay) - (by - ay) * (x - ax)

/**
 * The corners that a shortest way can bend around: those of things that stick out, and those of the floor that stick
 * into it; without those that are not in the open.
 */
export function bends(barriers: FloorBarriers): OpenPoint[] {
  const { floor, things } = barriers
  return [...things.flatMap((ring) => bendsOf(ring, 1)), ...(floor ? bendsOf(floor, -1) : [])].filter(
    ({ openX, openY }) => isOpen(barriers, openX, openY),
  )
}

/** @param turn  1: corners that turn left, looked from outside; -1: those that turn right, looked from inside */
function bendsOf({ xs, ys }: Ring, turn: 1 | -1): OpenPoint[] {
  const points: OpenPoint[] = []
  for (let index = 0; index < xs.length; index += 1) {
    if (turnAt(xs, ys, index) * turn <= 0) continue
    const before = index === 0 ? xs.length - 1 : index - 1
    // Along both sides at once beyond the corner: away from what is enclosed.
    const [inX, inY] = unit(xs[index]! - xs[before]!, ys[index]! - ys[before]!)
    const after = index + 1 === xs.length ? 0 : index + 1
    const [outX, outY] = unit(xs[index]! - xs[after]!, ys[index]! - ys[after]!)
    const [x, y] = unit(inX + outX, inY + outY)
    const metres = CLEAR_METRES * Math.SQRT2
    points.push({
      x: xs[index]!,
      y: ys[index]!,
      openX: xs[index]! + x * metres,
      openY: ys[index]! + y * metres,
    })
  }
  return points
}

/** Of a corner that is next to none the direction does not matter: it bends nothing. */
function unit(x: number, y: number): [number, number] {
  const length = Math.hypot(x, y)
  return length === 0 ? [0, 0] : [x / length, y / length]
}

/** Whether somebody can stand there: on the floor, on no thing, and clear of every edge. */
export function isOpen({ floor, things }: FloorBarriers, x: number, y: number): boolean {
  if (floor && !(isInside(floor, x, y) && isClearOfEdges(floor, x, y))) return false
  return things.every(
    (ring) => isFarFrom(ring, x, y) || (!isInside(ring, x, y) && isClearOfEdges(ring, x, y)),
  )
}

/** The thing, by index, that a point is on; -1: none. What only touches its edge is beside it. */
export const thingUnder = ({ things }: FloorBarriers, x: number, y: number): number =>
  things.findIndex((ring) => !isFarFrom(ring, x, y) && isInside(ring, x, y) && isClearOfEdges(ring, x, y))

const isFarFrom = ({ leftMetres, rightMetres, frontMetres, backMetres }: Ring, x: number, y: number) =>
  x < leftMetres - CLEAR_METRES ||
  x > rightMetres + CLEAR_METRES ||
  y < frontMetres - CLEAR_METRES ||
  y > backMetres + CLEAR_METRES

/** Even and odd: a ray to the right crosses the outline an odd number of times. */
function isInside({ xs, ys }: Ring, x: number, y: number): boolean {
  let inside = false
  for (let index = 0, before = xs.length - 1; index < xs.length; before = index, index += 1) {
    if (ys[before]! > y === ys[index]! > y) continue
    const crossing =
      xs[before]! + ((y - ys[before]!) / (ys[index]! - ys[before]!)) * (xs[index]! - xs[before]!)
    if (x < crossing) inside = !inside
  }
  return inside
}

function isClearOfEdges(ring: Ring, x: number, y: number): boolean {
  for (let index = 0; index < ring.xs.length; index += 1) {
    const [footX, footY] = footOn(ring, index, x, y)
    if (Math.hypot(x - footX, y - footY) < CLEAR_LEAST_METRES) return false
  }
  return true
}

/** The place of the side that begins at a corner which is nearest to a point. */
function footOn({ xs, ys }: Ring, index: number, x: number, y: number): [number, number] {
  const after = index + 1 === xs.length ? 0 : index + 1
  const [alongX, alongY] = [xs[after]! - xs[index]!, ys[after]! - ys[index]!]
  const length = alongX * alongX + alongY * alongY
  const share = length === 0 ? 0 : ((x - xs[index]!) * alongX + (y - ys[index]!) * alongY) / length
  const within = Math.min(1, Math.max(0, share))
  return [xs[index]! + alongX * within, ys[index]! + alongY * within]
}

/** In the corner between two edges the open is a little along one of them. */
const SLIDES_METRES = [0, 0.002, -0.002, 0.01, -0.01] as const

/**
 * Where somebody who stands on a thing, at an edge or off the floor comes into the open: the nearest place of any edge
 * with room beside it.
 * @returns null: there is none
 */
export function nearestOpen(barriers: FloorBarriers, x: number, y: number): OpenPoint | null {
  if (isOpen(barriers, x, y)) return { x, y, openX: x, openY: y }
  const { floor, things } = barriers
  let best: OpenPoint | null = null
  let bestMetres = Number.POSITIVE_INFINITY
  for (const ring of floor ? [...things, floor] : things) {
    // To the right of a side is outside a thing; of the floor the inside is wanted.
    const away = ring === floor ? -CLEAR_METRES : CLEAR_METRES
    for (let index = 0; index < ring.xs.length; index += 1) {
      const [footX, footY] = footOn(ring, index, x, y)
      const metres = Math.hypot(x - footX, y - footY)
      if (metres >= bestMetres) continue
      const after = index + 1 === ring.xs.length ? 0 : index + 1
      const [alongX, alongY] = unit(ring.xs[after]! - ring.xs[index]!, ring.ys[after]! - ring.ys[index]!)
      for (const slide of SLIDES_METRES) {
        const openX = footX + alongX * slide + alongY * away
        const openY = footY + alongY * slide - alongX * away
        if (!isOpen(barriers, openX, openY)) continue
        best = { x: footX, y: footY, openX, openY }
        bestMetres = metres
        break
      }
    }
  }
  return best
}

/** Whether one walks straight from one point in the open to another. Asked for every pair of pieces: no list is made. */
export function isStraightWay({ floor, things }: FloorBarriers, a: OpenPoint, b: OpenPoint): boolean {
  const { openX: ax, openY: ay } = a
  const { openX: bx, openY: by } = b
  const leftMetres = Math.min(ax, bx)
  const rightMetres = Math.max(ax, bx)
  const frontMetres = Math.min(ay, by)
  const backMetres = Math.max(ay, by)
  for (let index = 0; index < things.length; index += 1) {
    const ring = things[index]!
    if (
      rightMetres >= ring.leftMetres &&
      leftMetres <= ring.rightMetres &&
      backMetres >= ring.frontMetres &&
      frontMetres <= ring.backMetres &&
      meetsBox(ring, ax, ay, bx, by) &&
      (ring.isBox || meetsEdge(ring, ax, ay, bx, by))
    ) {
      return false
    }
  }
  // From within to within of a floor that has no corner sticking in, nothing is in the way.
  return floor === null || floor.isConvex || !meetsEdge(floor, ax, ay, bx, by)
}

/** Whether the line through both points meets the box around a ring: not all of its corners are on one side of it. */
function meetsBox(ring: Ring, ax: number, ay: number, bx: number, by: number): boolean {
  const { leftMetres, rightMetres, frontMetres, backMetres } = ring
  const dx = bx - ax
  const dy = by - ay
  const middle = dx * ((frontMetres + backMetres) / 2 - ay) - dy * ((leftMetres + rightMetres) / 2 - ax)
  const reach = Math.abs(dx) * (backMetres - frontMetres) + Math.abs(dy) * (rightMetres - leftMetres)
  return Math.abs(middle) <= reach / 2
}

function meetsEdge({ xs, ys }: Ring, ax: number, ay: number, bx: number, by: number): boolean {
  let fromX = xs[xs.length - 1]!
  let fromY = ys[ys.length - 1]!
  let fromSide = sideOf(ax, ay, bx, by, fromX, fromY)
  for (let index = 0; index < xs.length; index += 1) {
    const toX = xs[index]!
    const toY = ys[index]!
    const toSide = sideOf(ax, ay, bx, by, toX, toY)
    const isAside = (fromSide > 0 && toSide > 0) || (fromSide < 0 && toSide < 0)
    if (!isAside) {
      const aSide = sideOf(fromX, fromY, toX, toY, ax, ay)
      const bSide = sideOf(fromX, fromY, toX, toY, bx, by)
      const isBeside = (aSide > 0 && bSide > 0) || (aSide < 0 && bSide < 0)
      const isAllOnOneLine = fromSide === 0 && toSide === 0
      if (!isBeside && (!isAllOnOneLine || overlap(ax, ay, bx, by, fromX, fromY, toX, toY))) return true
    }
    fromX = toX
    fromY = toY
    fromSide = toSide
  }
  return false
}

/** Of two stretches on one line. */
const overlap = (
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean =>
  Math.max(ax, bx) >= Math.min(cx, dx) &&
  Math.max(cx, dx) >= Math.min(ax, bx) &&
  Math.max(ay, by) >= Math.min(cy, dy) &&
  Math.max(cy, dy) >= Math.min(ay, by)
