/** The corners of a floor, whichever way it was described. */
import type { Floor, FloorPoint } from '../../domain/floor.ts'

/** @returns in order, at least three; of a rectangle from (0, 0) along its width first */
export function floorOutline(floor: Floor): readonly FloorPoint[] {
  if (floor.kind === 'polygon') return floor.corners
  const { widthMetres, depthMetres } = floor
  return [
    { xMetres: 0, yMetres: 0 },
    { xMetres: widthMetres, yMetres: 0 },
    { xMetres: widthMetres, yMetres: depthMetres },
    { xMetres: 0, yMetres: depthMetres },
  ]
}
