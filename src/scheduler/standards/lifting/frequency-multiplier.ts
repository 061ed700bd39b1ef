/** FM of the revised NIOSH lifting equation: how often, for how long, and from which height. */
import { numberInRange } from '../work-measurement/number-in-range.ts'
import { LIFTING_CONSTANTS, type LiftingUnits, type MultiplierRounding } from './lifting-units.ts'
import { roundedHalfUp } from './rounded-half-up.ts'

/** `short`: up to 1 h. `moderate`: up to 2 h. `long`: up to 8 h. Each with its recovery: see `durationClass`. */
export type DurationClass = 'short' | 'moderate' | 'long'

export interface FrequencyRow {
  readonly liftsPerMinute: number
  /** Hands at the origin below 75 cm (30 in), and at it or higher. */
  readonly short: readonly [low: number, high: number]
  readonly moderate: readonly [low: number, high: number]
  readonly long: readonly [low: number, high: number]
}

const row = (
  liftsPerMinute: number,
  short: FrequencyRow['short'],
  moderate: FrequencyRow['moderate'],
  long: FrequencyRow['long'],
): FrequencyRow => ({ liftsPerMinute, short, moderate, long })

export const FREQUENCY_TABLE_SOURCE =
  'NIOSH 94-110 (rev. 9/2021), Table 5, p. 15; second-hand (public transcription of the print)'

/** Ascending. The first row holds for anything less often, above the last nothing is recommended. */
export const FREQUENCY_TABLE: readonly [FrequencyRow, ...FrequencyRow[]] = [
  row(0.2, [1, 1], [0.95, 0.95], [0.85, 0.85]),
  row(0.5, [0.97, 0.97], [0.92, 0.92], [0.81, 0.81]),
  row(1, [0.94, 0.94], [0.88, 0.88], [0.75, 0.75]),
  row(2, [0.91, 0.91], [0.84, 0.84], [0.65, 0.65]),
  row(3, [0.88, 0.88], [0.79, 0.79], [0.55, 0.55]),
  row(4, [0.84, 0.84], [0.72, 0.72], [0.45, 0.45]),
  row(5, [0.8, 0.8], [0.6, 0.6], [0.35, 0.35]),
  row(6, [0.75, 0.75], [0.5, 0.5], [0.27, 0.27]),
  row(7, [0.7, 0.7], [0.42, 0.42], [0.22, 0.22]),
  row(8, [0.6, 0.6], [0.35, 0.35], [0.18, 0.18]),
  row(9, [0.52, 0.52], [0.3, 0.3], [0, 0.15]),
  row(10, [0.45, 0.45], [0.26, 0.26], [0, 0.13]),
  row(11, [0.41, 0.41], [0, 0.23], [0, 0]),
  row(12, [0.37, 0.37], [0, 0.21], [0, 0]),
  row(13, [0, 0.34], [0, 0], [0, 0]),
  row(14, [0, 0.31], [0, 0], [0, 0]),
  row(15, [0, 0.28], [0, 0], [0, 0]),
]

/**
 * A straight line between the two nearest rows (p. 7). The manual does not say whether that holds towards a row of
 * zeros as well; here it does, so that a little more lifting never changes the answer by a jump. Above 15 a minute: 0.
 * @param verticalAtOrigin  cm or in; the origin decides even when the destination is judged (p. 15)
 * @returns from 0 to 1
 * @throws RangeError for a negative frequency or height, or one that is no number
 */
export function frequencyMultiplier(
  units: LiftingUnits,
  liftsPerMinute: number,
  duration: DurationClass,
  verticalAtOrigin: number,
  rounding: MultiplierRounding,
): number {
  numberInRange('liftsPerMinute', liftsPerMinute, 0)
  numberInRange('verticalAtOrigin', verticalAtOrigin, 0)
  const column = verticalAtOrigin < LIFTING_CONSTANTS[units].verticalBest ? 0 : 1
  let lower = FREQUENCY_TABLE[0]
  if (liftsPerMinute <= lower.liftsPerMinute) return lower[duration][column]
  for (const upper of FREQUENCY_TABLE.slice(1)) {
    if (liftsPerMinute <= upper.liftsPerMinute) {
      const share = (liftsPerMinute - lower.liftsPerMinute) / (upper.liftsPerMinute - lower.liftsPerMinute)
      const multiplier = lower[duration][column] * (1 - share) + upper[duration][column] * share
      return rounding === 'full' ? multiplier : roundedHalfUp(multiplier, 2)
    }
    lower = upper
  }
  return 0
}
