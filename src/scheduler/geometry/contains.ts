/** Whether points, circles and polygons lie on a floor. What touches its edge does; a millimetre is forgiven. */
import type { FloorPoint } from '../../domain/floor.ts'
import { polygonSides, type Side } from './polygon-sides.ts'

const FORGIVEN_METRES = 0.001

/** @param outline  corners in order of a polygon that does not cross itself */
export const containsPoint = (outline: readonly FloorPoint[], point: FloorPoint): boolean =>
  isInside(outline, point) || distanceToEdge(outline, point) <= FORGIVEN_METRES

/** @returns how far the point is from the nearest place within; 0 inside and on the edge */
export const metresOutside = (outline: readonly FloorPoint[], point: FloorPoint): number =>
  isInside(outline, point) ? 0 : distanceToEdge(outline, point)

/** @param radiusMetres  0 or more */
export const containsCircle = (
  outline: readonly FloorPoint[],
  middle: FloorPoint,
  radiusMetres: number,
): boolean =>
  containsPoint(outline, middle) && distanceToEdge(outline, middle) >= radiusMetres - FORGIVEN_METRES

/**
 * @param inner  corners in order of a polygon that does not cross itself either
 * @returns whether all of it lies within the outline, also where that has corners that point inwards
 */
export function containsPolygon(outline: readonly FloorPoint[], inner: readonly FloorPoint[]): boolean {
  const edges = polygonSides(outline)
  // Between two places where it meets the outline, a side is wholly within or wholly outside: its middle tells.
  return polygonSides(inner).every((side) =>
    partsOf(side, edges).every((part) => containsPoint(outline, part)),
  )
}

/** Both ends of the side, and the middle of each part into which the edges cut it. */
function partsOf(side: Side, edges: readonly Side[]): FloorPoint[] {
  const cuts = [0, 1, ...edges.flatMap((edge) => cutsOf(side, edge))].sort((a, b) => a - b)
  const middles = cuts.slice(1).map((cut, index) => (cut + cuts[index]!) / 2)
  return [0, 1, ...middles].map((share) => pointAt(side, share))
}

/** The shares of the side at which the line of the edge crosses it, where that is on the edge; none if they are parallel. */
function cutsOf(side: Side, edge: Side): number[] {
  const along = vector(side)
  const across = vector(edge)
  const determinant = along.x * across.y - along.y * across.x
  const offset = {
    x: edge.from.xMetres - side.from.xMetres,
    y: edge.from.yMetres - side.from.yMetres,
  }
  if (Math.abs(determinant) < 1e-12) {
    // Parallel: where the edge lies on the side, its ends cut it.
    const length = along.x * along.x + along.y * along.y
    if (length === 0) return []
    const ends = [edge.from, edge.to].map(
      ({ xMetres, yMetres }) =>
        ((xMetres - side.from.xMetres) * along.x + (yMetres - side.from.yMetres) * along.y) / length,
    )
    return ends.filter((share) => share > 0 && share < 1)
  }
  const share = (offset.x * across.y - offset.y * across.x) / determinant
  const edgeShare = (offset.x * along.y - offset.y * along.x) / determinant
  const isOnBoth = share > 0 && share < 1 && edgeShare >= -1e-9 && edgeShare <= 1 + 1e-9
  return isOnBoth ? [share] : []
}

const vector = ({ from, to }: Side) => ({ x: to.xMetres - from.xMetres, y: to.yMetres - from.yMetres })

const pointAt = ({ from, to }: Side, share: number): FloorPoint => ({
  xMetres: from.xMetres + (to.xMetres - from.xMetres) * share,
  yMetres: from.yMetres + (to.yMetres - from.yMetres) * share,
})

/** Even and odd: a ray to the right crosses the outline an odd number of times. */
function isInside(outline: readonly FloorPoint[], { xMetres: x, yMetres: y }: FloorPoint): boolean {
  let inside = false
  for (const { from, to } of polygonSides(outline)) {
    if (from.yMetres > y === to.yMetres > y) continue
    const crossing =
      from.xMetres + ((y - from.yMetres) / (to.yMetres - from.yMetres)) * (to.xMetres - from.xMetres)
    if (x < crossing) inside = !inside
  }
  return inside
}

function distanceToEdge(outline: readonly FloorPoint[], point: FloorPoint): number {
  let nearest = Number.POSITIVE_INFINITY
  for (const side of polygonSides(outline)) nearest = Math.min(nearest, distanceToSide(side, point))
  return nearest
}

function distanceToSide(side: Side, { xMetres, yMetres }: FloorPoint): number {
  const { x, y } = vector(side)
  const length = x * x + y * y
  const along =
    length === 0 ? 0 : ((xMetres - side.from.xMetres) * x + (yMetres - side.from.yMetres) * y) / length
  const foot = pointAt(side, Math.min(1, Math.max(0, along)))
  return Math.hypot(xMetres - foot.xMetres, yMetres - foot.yMetres)
}
