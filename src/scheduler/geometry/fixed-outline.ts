/** The corners of what stands on a floor for good, whichever way it was described. */
import type { FixedOutline } from '../../domain/fixed-thing.ts'
import type { FloorPoint } from '../../domain/floor.ts'

/** @returns in order, at least three; of a rectangle from its corner with the least x and y, along its width first */
export function fixedOutline(outline: FixedOutline): readonly FloorPoint[] {
  if (outline.kind === 'polygon') return outline.corners
  const { xMetres, yMetres, widthMetres, depthMetres } = outline
  return [
    { xMetres, yMetres },
    { xMetres: xMetres + widthMetres, yMetres },
    { xMetres: xMetres + widthMetres, yMetres: yMetres + depthMetres },
    { xMetres, yMetres: yMetres + depthMetres },
  ]
}
