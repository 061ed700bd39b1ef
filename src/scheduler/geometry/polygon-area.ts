/** How much floor a polygon encloses. */
import type { FloorPoint } from '../../domain/floor.ts'

/**
 * @param corners  in order, either way round, of a polygon that does not cross itself
 * @returns square metres, never negative; 0 for fewer than three corners or corners on one line
 * @source the shoelace formula (Meister 1769, Gauss)
 */
export function polygonArea(corners: readonly FloorPoint[]): number {
  // Seen from the first corner, so that a floor far from the origin loses no digits.
  const origin = corners[0]
  if (!origin) return 0
  let doubled = 0
  for (let index = 1; index + 1 < corners.length; index += 1) {
    const a = corners[index]!
    const b = corners[index + 1]!
    doubled +=
      (a.xMetres - origin.xMetres) * (b.yMetres - origin.yMetres) -
      (b.xMetres - origin.xMetres) * (a.yMetres - origin.yMetres)
  }
  return Math.abs(doubled) / 2
}
