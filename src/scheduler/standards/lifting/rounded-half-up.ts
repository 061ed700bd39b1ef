/** Binary fractions fall just short of a printed 0.925; without this they would be rounded down. */
const NOISE = 1e-9

/**
 * Rounding as the printed tables of NIOSH 94-110 have it: a final 5 always goes up (all 15 such cells do).
 * @param value   0 or more
 * @param places  decimal places, 0 or more
 */
export function roundedHalfUp(value: number, places: number): number {
  const scale = 10 ** places
  return Math.floor(value * scale + 0.5 + NOISE) / scale
}
