/**
 * Rounding to whole people, seats or feet that is not fooled by the last binary digit: 2,400 ft² at 15 ft² a person are
 * 160 people, not 161, although both areas are held in square metres.
 */

/** Far below a thousandth of a person, far above the error of a few multiplications. */
const RELATIVE_TOLERANCE = 1e-9

const tolerance = (value: number): number => RELATIVE_TOLERANCE * Math.max(1, Math.abs(value))

/** Up: for what is needed. */
export const wholeUp = (value: number): number => Math.max(0, Math.ceil(value - tolerance(value)))
/** Down: for what there is. */
export const wholeDown = (value: number): number => Math.max(0, Math.floor(value + tolerance(value)))
