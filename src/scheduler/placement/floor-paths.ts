/**
 * How far it is along the floor: straight where nothing stands in between, else around corners. A shortest way between
 * obstacles with straight sides bends at their corners only, so the ways between those are enough.
 * @source T. Lozano-Pérez, M. A. Wesley, "An algorithm for planning collision-free paths among polyhedral obstacles",
 *         Communications of the ACM 22 (1979), the visibility graph; E. W. Dijkstra, "A note on two problems in
 *         connexion with graphs", Numerische Mathematik 1 (1959). Both from memory
 */
import type { FixedThing } from '../../domain/fixed-thing.ts'
import type { Floor, FloorPoint } from '../../domain/floor.ts'
import {
  bends,
  type FloorBarriers,
  floorBarriers,
  isStraightWay,
  nearestOpen,
  type OpenPoint,
  thingUnder,
} from './floor-barriers.ts'

export interface FloorPaths {
  /**
   * From each of some points to each of others, row after row. Who stands on a thing leaves it where its edge is
   * nearest, or goes straight to somebody on the same thing. Infinite where no way leads, and straight where
   * nothing around is open. The width of what is carried is left out.
   */
  readonly metresBetween: (from: readonly FloorPoint[], to: readonly FloorPoint[]) => Float64Array
}

/** @param floor  null: nobody knows where it ends */
export function floorPaths(floor: Floor | null, fixedThings: readonly FixedThing[]): FloorPaths {
  const barriers = floorBarriers(floor, fixedThings)
  const corners = bends(barriers)
  let ways: Float64Array | null = null
  const waysBetweenCorners = (): Float64Array => {
    ways ??= straightMetres(barriers, corners, corners)
    return ways
  }
  return {
    metresBetween: (from, to) => allMetres(barriers, corners, waysBetweenCorners, from, to),
  }
}

/** Somebody who stands somewhere, and where they come into the open. */
interface Stand {
  readonly x: number
  readonly y: number
  readonly onThing: number
  /** null: nowhere. */
  readonly open: OpenPoint | null
  readonly metresToOpen: number
}

function standAt(barriers: FloorBarriers, { xMetres: x, yMetres: y }: FloorPoint): Stand {
  const open = nearestOpen(barriers, x, y)
  return {
    x,
    y,
    onThing: thingUnder(barriers, x, y),
    open,
    metresToOpen: open ? metresApart({ x, y }, open) : 0,
  }
}

function allMetres(
  barriers: FloorBarriers,
  corners: readonly OpenPoint[],
  waysBetweenCorners: () => Float64Array,
  from: readonly FloorPoint[],
  to: readonly FloorPoint[],
): Float64Array {
  const all = new Float64Array(from.length * to.length)
  const ends = to.map((point) => standAt(barriers, point))
  const seenFromEnds: (Seen | undefined)[] = []
  for (let row = 0; row < from.length; row += 1) {
    const start = standAt(barriers, from[row]!)
    let reach: Float64Array | null = null
    for (let column = 0; column < ends.length; column += 1) {
      const end = ends[column]!
      const at = row * ends.length + column
      all[at] = metresApart(start, end)
      if (!start.open || !end.open || (start.onThing >= 0 && start.onThing === end.onThing)) continue
      const onThings = start.metresToOpen + end.metresToOpen
      if (isStraightWay(barriers, start.open, end.open)) {
        all[at] = onThings + metresApart(start.open, end.open)
        continue
      }
      reach ??= reachOfCorners(seenFrom(barriers, corners, start.open), corners.length, waysBetweenCorners())
      const seen = seenFromEnds[column] ?? seenFrom(barriers, corners, end.open)
      seenFromEnds[column] = seen
      all[at] = onThings + metresAround(reach, seen)
    }
  }
  return all
}

/** Over the best of the corners in sight of the end; infinite where none can be reached. */
function metresAround(reach: Float64Array, { corners, metres }: Seen): number {
  let around = Number.POSITIVE_INFINITY
  for (let place = 0; place < corners.length; place += 1) {
    const over = reach[corners[place]!]! + metres[place]!
    if (over < around) around = over
  }
  return around
}

interface Point {
  readonly x: number
  readonly y: number
}

// Not `Math.hypot`: it takes care of numbers far beyond any floor, and ten times as long.
const metresApart = (a: Point, b: Point): number => Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2)

/** Corners by index that are in sight, and how far they are. */
interface Seen {
  readonly corners: readonly number[]
  readonly metres: readonly number[]
}

function seenFrom(barriers: FloorBarriers, corners: readonly OpenPoint[], point: OpenPoint): Seen {
  const seen: number[] = []
  const metres: number[] = []
  for (const [index, corner] of corners.entries()) {
    if (!isStraightWay(barriers, point, corner)) continue
    seen.push(index)
    metres.push(metresApart(point, corner))
  }
  return { corners: seen, metres }
}

/** Row after row; infinite where no straight way leads. */
function straightMetres(
  barriers: FloorBarriers,
  from: readonly OpenPoint[],
  to: readonly OpenPoint[],
): Float64Array {
  const metres = new Float64Array(from.length * to.length).fill(Number.POSITIVE_INFINITY)
  for (const [row, a] of from.entries()) {
    for (const [column, b] of to.entries()) {
      if (isStraightWay(barriers, a, b)) metres[row * to.length + column] = metresApart(a, b)
    }
  }
  return metres
}

/** The shortest way to each corner; infinite where none leads. */
function reachOfCorners({ corners, metres }: Seen, count: number, ways: Float64Array): Float64Array {
  const reach = new Float64Array(count).fill(Number.POSITIVE_INFINITY)
  for (const [place, corner] of corners.entries()) reach[corner] = metres[place]!
  const isSettled = new Uint8Array(count)
  for (let round = 0; round < count; round += 1) {
    let nearest = -1
    for (let corner = 0; corner < count; corner += 1) {
      if (!isSettled[corner] && (nearest < 0 || reach[corner]! < reach[nearest]!)) nearest = corner
    }
    if (reach[nearest] === Number.POSITIVE_INFINITY) return reach
    isSettled[nearest] = 1
    for (let corner = 0; corner < count; corner += 1) {
      const through = reach[nearest]! + ways[nearest * count + corner]!
      if (through < reach[corner]!) reach[corner] = through
    }
  }
  return reach
}
