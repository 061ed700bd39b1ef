/** Guards at the door of a published formula: what it was never meant for is refused by name, not computed. */

/**
 * @param least  the smallest value allowed
 * @param most   the largest value allowed; left out: any finite number
 * @returns the value
 * @throws RangeError naming the field, for NaN, infinities and what lies outside
 */
export function numberInRange(name: string, value: number, least: number, most?: number): number {
  if (Number.isFinite(value) && value >= least && (most === undefined || value <= most)) return value
  const wanted = most === undefined ? `${least} or more` : `from ${least} to ${most}`
  throw new RangeError(`${name} must be a number, ${wanted}, not ${value}`)
}

/**
 * @param limit  the value must be larger
 * @returns the value
 * @throws RangeError naming the field, for NaN, infinities and what is not above the limit
 */
export function numberAbove(name: string, value: number, limit: number): number {
  if (Number.isFinite(value) && value > limit) return value
  throw new RangeError(`${name} must be a number above ${limit}, not ${value}`)
}
