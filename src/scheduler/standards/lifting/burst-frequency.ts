/** The frequency that counts when people lift in bursts: a trolley is emptied, then pushed away for the next. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

const SAMPLE_SECONDS = 900
const LIFTS_PER_MINUTE_MOST = 15

/**
 * The lifts of a burst, spread over the quarter of an hour it lies in. A burst of a quarter of an hour or more, and
 * one faster than 15 lifts a minute, counts at its own rate.
 * @param liftsPerMinute  during the burst, 0 or more
 * @param liftingSeconds  of lifting within 15 minutes, 0 or more
 * @returns lifts per minute to look up; 0 for no lifting
 * @throws RangeError for what is negative or no number
 * @source NIOSH 94-110 (rev. 9/2021), section 1.3.5.5, p. 16
 */
export function burstFrequency(liftsPerMinute: number, liftingSeconds: number): number {
  numberInRange('liftsPerMinute', liftsPerMinute, 0)
  numberInRange('liftingSeconds', liftingSeconds, 0)
  if (liftsPerMinute > LIFTS_PER_MINUTE_MOST) return liftsPerMinute
  return liftsPerMinute * Math.min(1, liftingSeconds / SAMPLE_SECONDS)
}
