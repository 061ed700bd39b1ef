/** How far it is from a place on the floor to the wall, in one direction. */
import type { FloorPoint } from '../../../domain/floor.ts'

/**
 * @param direction  of length 1
 * @param corners    of the floor in order, the last joins the first; fewer than three: no wall is known
 * @returns metres to the nearest wall in that direction, null if there is none
 */
export function metresToWall(
  from: FloorPoint,
  direction: { readonly x: number; readonly y: number },
  corners: readonly FloorPoint[],
): number | null {
  if (corners.length < 3) return null
  let nearest: number | null = null
  for (const [index, a] of corners.entries()) {
    const b = corners[(index + 1) % corners.length]!
    const wallX = b.xMetres - a.xMetres
    const wallY = b.yMetres - a.yMetres
    const crossing = direction.x * wallY - direction.y * wallX
    if (Math.abs(crossing) < 1e-12) continue
    const toX = a.xMetres - from.xMetres
    const toY = a.yMetres - from.yMetres
    const metres = (toX * wallY - toY * wallX) / crossing
    const alongWall = (toX * direction.y - toY * direction.x) / crossing
    const meets = metres >= -1e-9 && alongWall >= -1e-9 && alongWall <= 1 + 1e-9
    if (meets && (nearest === null || metres < nearest)) nearest = Math.max(0, metres)
  }
  return nearest
}
