/** The time measurement unit that predetermined times are given in: 0.00001 h. */
import { numberInRange } from './number-in-range.ts'

export const SECONDS_PER_TMU = 0.036
export const TMU_SOURCE = 'MTM Association, MTM-1 data card 2019; read'

/**
 * @param tmu  0 or more
 * @throws RangeError for what is negative or no number
 */
export const secondsFromTmu = (tmu: number): number => numberInRange('tmu', tmu, 0) * SECONDS_PER_TMU

/**
 * @param seconds  0 or more
 * @throws RangeError for what is negative or no number
 */
export const tmuFromSeconds = (seconds: number): number =>
  numberInRange('seconds', seconds, 0) / SECONDS_PER_TMU
