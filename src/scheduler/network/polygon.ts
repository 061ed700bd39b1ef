/** What is asked of a polygon on the floor: how large it is, whether a point is in it, where its middle is. */
import type { FloorPoint, FloorPolygon } from '../../domain/floor.ts'

/** Square metres, whichever way round its corners go. The shoelace formula; a polygon that crosses itself gives less. */
export function polygonSquareMetres(corners: FloorPolygon): number {
  let twice = 0
  for (const [index, corner] of corners.entries()) {
    const next = corners[(index + 1) % corners.length]!
    twice += corner.xMetres * next.yMetres - next.xMetres * corner.yMetres
  }
  return Math.abs(twice) / 2
}

/** Whether a ray from the point leaves it through an odd number of sides; a point on a side may count either way. */
export function polygonHolds(corners: FloorPolygon, { xMetres, yMetres }: FloorPoint): boolean {
  let inside = false
  for (const [index, a] of corners.entries()) {
    const b = corners[(index + 1) % corners.length]!
    if (a.yMetres > yMetres === b.yMetres > yMetres) continue
    const along = (yMetres - a.yMetres) / (b.yMetres - a.yMetres)
    if (xMetres < a.xMetres + along * (b.xMetres - a.xMetres)) inside = !inside
  }
  return inside
}

/** The mean of its corners. */
export function polygonMiddle(corners: FloorPolygon): FloorPoint {
  const sum = corners.reduce(
    (total, corner) => ({
      xMetres: total.xMetres + corner.xMetres,
      yMetres: total.yMetres + corner.yMetres,
    }),
    { xMetres: 0, yMetres: 0 },
  )
  return { xMetres: sum.xMetres / corners.length, yMetres: sum.yMetres / corners.length }
}

export const metresBetween = (a: FloorPoint, b: FloorPoint): number =>
  Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres)
