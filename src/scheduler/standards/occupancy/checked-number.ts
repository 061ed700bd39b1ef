/** Bad input is a slip of the caller: it is refused with the name of the field, never rounded or taken for zero. */

/** The number itself. @throws RangeError naming the field: not finite, or below 0. */
export function amount(field: string, value: number): number {
  if (!Number.isFinite(value) || value < 0) {
    throw new RangeError(`${field}: expected a number of 0 or more, got ${value}`)
  }
  return value
}

/** The number itself. @throws RangeError naming the field: not a whole number, below 0, or above 2^53. */
export function count(field: string, value: number): number {
  if (!Number.isSafeInteger(value) || value < 0) {
    throw new RangeError(`${field}: expected a whole number of 0 or more, got ${value}`)
  }
  return value
}

/** The number itself. @throws RangeError naming the field: not finite, below 0 or 0. */
export function positive(field: string, value: number): number {
  if (!Number.isFinite(value) || value <= 0) {
    throw new RangeError(`${field}: expected a number above 0, got ${value}`)
  }
  return value
}

/** The number itself. @throws RangeError naming the field: not finite. */
export function finite(field: string, value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`${field}: expected a number, got ${value}`)
  return value
}
