/** The strips a floor is worked in, so that one can be set while the next is still being cleaned. */

/** One strip. All strips of a room are equally large. */
export interface Zone {
  /** From 1. */
  readonly number: number
  readonly areaSquareMetres: number
}

/** A longer list of strips is of no use to the people on the floor. */
const ZONES_MOST = 12

/**
 * @param areaSquareMetres  of the whole room, positive
 * @param zoneSquareMetres  the largest a strip should be
 * @returns 1 to 12
 */
export function zoneCount(areaSquareMetres: number, zoneSquareMetres: number): number {
  return Math.min(ZONES_MOST, Math.max(1, Math.ceil(areaSquareMetres / zoneSquareMetres)))
}

export function zonesOf(areaSquareMetres: number, count: number): Zone[] {
  return Array.from({ length: count }, (_, index) => ({
    number: index + 1,
    areaSquareMetres: areaSquareMetres / count,
  }))
}
