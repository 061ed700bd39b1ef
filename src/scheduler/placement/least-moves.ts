/** Which piece goes where, so that all of them together go the least: of one furnishing any piece is as good as another. */
import type { FloorPoint } from '../../domain/floor.ts'
import { cheapestTransport } from './cheapest-transport.ts'
import type { FloorPaths } from './floor-paths.ts'

/** A piece that goes from one place on the floor to another. */
export interface FloorMove {
  /** Index among those that have to go. */
  readonly from: number
  /** Index among the places that are wanted. */
  readonly to: number
  /** Along the floor; 0 where it is only turned; where no way leads along it, around by outside. */
  readonly metres: number
}

export interface LeastMoves {
  /** In the order of `from`. */
  readonly onFloor: readonly FloorMove[]
  /** Pieces that are left over, ascending: they go to the store. */
  readonly toStore: readonly number[]
  /** Places that are left over, ascending: their pieces come from the store. */
  readonly fromStore: readonly number[]
}

/** Of more pieces the work would grow with the third power of their number; so many take about a tenth of a second. */
const EXACT_MOST = 600

/** Costs are whole millimetres, so that sums are exact and ties are ties. */
const MILLIMETRES = 1000

/**
 * As many pieces as there are places for stay in the room: on the way to the store and back a piece would pass the door,
 * and from door to place is never a shorter way than the direct one. The rest goes to the store or comes from it, those
 * nearest to the door if that is known. More than 600 pieces or places are shared over strips across the longer side of
 * the floor, each with as many of both: then it is the least in each strip only.
 * @param doorAt  where the way to the store leaves the floor; null: as far from everywhere
 */
export function leastMoves(
  from: readonly FloorPoint[],
  to: readonly FloorPoint[],
  paths: FloorPaths,
  doorAt: FloorPoint | null,
): LeastMoves {
  const parts = stripsOf(from, to).map((strip) => leastMovesOfStrip(strip, from, to, paths, doorAt))
  const onFloor = parts.flatMap((part) => part.onFloor)
  const ascending = (a: number, b: number) => a - b
  return {
    onFloor: onFloor.sort((a, b) => a.from - b.from),
    toStore: parts.flatMap((part) => part.toStore).sort(ascending),
    fromStore: parts.flatMap((part) => part.fromStore).sort(ascending),
  }
}

/** Indexes of pieces and places that are looked at together. */
interface Strip {
  readonly from: readonly number[]
  readonly to: readonly number[]
}

function leastMovesOfStrip(
  strip: Strip,
  from: readonly FloorPoint[],
  to: readonly FloorPoint[],
  paths: FloorPaths,
  doorAt: FloorPoint | null,
): LeastMoves {
  const rows = heaps(strip.from, from)
  const columns = heaps(strip.to, to)
  const starts = rows.map(({ point }) => point)
  const ends = columns.map(({ point }) => point)
  const metres = outsideWhereCutOff(paths.metresBetween(starts, ends), starts, ends)
  const doors = doorAt === null ? [] : [doorAt]
  // What stays in the room saves the way between its place and the door.
  const toDoors = (points: readonly FloorPoint[]) =>
    outsideWhereCutOff(paths.metresBetween(points, doors), points, doors)
  const rowSaves = strip.from.length > strip.to.length ? toDoors(starts) : []
  const columnSaves = strip.to.length > strip.from.length ? toDoors(ends) : []
  const costs = new Float64Array(metres.length)
  for (let row = 0, at = 0; row < rows.length; row += 1) {
    for (let column = 0; column < columns.length; column += 1, at += 1) {
      const saved = (rowSaves[row] ?? 0) + (columnSaves[column] ?? 0)
      costs[at] = Math.round(MILLIMETRES * (metres[at]! - saved))
    }
  }
  const flow = cheapestTransport({
    supplies: rows.map(({ indexes }) => indexes.length),
    demands: columns.map(({ indexes }) => indexes.length),
    costs,
  })
  const onFloor: FloorMove[] = []
  for (const [row, { indexes: pieces }] of rows.entries()) {
    for (const [column, { indexes: places }] of columns.entries()) {
      const at = row * columns.length + column
      if (flow[at] === 0) continue
      const placesTaken = places.splice(0, flow[at]!)
      for (const [place, piece] of pieces.splice(0, flow[at]!).entries()) {
        onFloor.push({ from: piece, to: placesTaken[place]!, metres: metres[at]! })
      }
    }
  }
  return {
    onFloor,
    toStore: rows.flatMap(({ indexes }) => indexes),
    fromStore: columns.flatMap(({ indexes }) => indexes),
  }
}

/**
 * Through other rooms: nobody knows how far. Straight and once around all there is, farther than any way that bends
 * around it once, so that what can be done along the floor is.
 */
function outsideWhereCutOff(
  metres: Float64Array,
  from: readonly FloorPoint[],
  to: readonly FloorPoint[],
): Float64Array {
  if (!metres.includes(Number.POSITIVE_INFINITY)) return metres
  const points = [...from, ...to]
  const aroundMetres = 2 * (lengthAlong(points, 'xMetres') + lengthAlong(points, 'yMetres'))
  return metres.map((known, at) => {
    if (known < Number.POSITIVE_INFINITY) return known
    const [a, b] = [from[Math.floor(at / to.length)]!, to[at % to.length]!]
    return Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres) + aroundMetres
  })
}

function lengthAlong(points: readonly FloorPoint[], side: 'xMetres' | 'yMetres'): number {
  let least = Number.POSITIVE_INFINITY
  let most = Number.NEGATIVE_INFINITY
  for (const point of points) {
    least = Math.min(least, point[side])
    most = Math.max(most, point[side])
  }
  return points.length === 0 ? 0 : most - least
}

/** What stands at one and the same place, as in a stack. */
interface Heap {
  readonly point: FloorPoint
  /** Ascending. */
  readonly indexes: number[]
}

function heaps(indexes: readonly number[], points: readonly FloorPoint[]): Heap[] {
  const byPlace = new Map<string, Heap>()
  for (const index of indexes) {
    const point = points[index]!
    const place = `${point.xMetres} ${point.yMetres}`
    const heap = byPlace.get(place)
    if (heap) heap.indexes.push(index)
    else byPlace.set(place, { point, indexes: [index] })
  }
  return [...byPlace.values()]
}

function stripsOf(from: readonly FloorPoint[], to: readonly FloorPoint[]): Strip[] {
  const count = Math.max(1, Math.ceil(Math.max(from.length, to.length) / EXACT_MOST))
  if (count === 1) return [{ from: from.map((_, index) => index), to: to.map((_, index) => index) }]
  const along = longerSide([...from, ...to])
  const inOrder = (points: readonly FloorPoint[]) =>
    points.map((_, index) => index).sort((a, b) => along(points[a]!) - along(points[b]!) || a - b)
  const starts = inOrder(from)
  const ends = inOrder(to)
  const part = (indexes: readonly number[], strip: number) =>
    indexes.slice(
      Math.ceil((indexes.length * strip) / count),
      Math.ceil((indexes.length * (strip + 1)) / count),
    )
  return Array.from({ length: count }, (_, strip) => ({ from: part(starts, strip), to: part(ends, strip) }))
}

function longerSide(points: readonly FloorPoint[]): (point: FloorPoint) => number {
  return lengthAlong(points, 'xMetres') >= lengthAlong(points, 'yMetres')
    ? ({ xMetres }) => xMetres
    : ({ yMetres }) => yMetres
}
