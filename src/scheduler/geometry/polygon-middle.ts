import type { FloorPoint, FloorPolygon } from '../../domain/floor.ts'

/** The mean of the corners of a polygon: good enough to say how far parts of a floor are from each other. */
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
