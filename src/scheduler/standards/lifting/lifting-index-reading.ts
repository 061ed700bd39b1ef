/** What a lifting index says, in the manual's own three steps. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

export interface LiftingIndexReading {
  readonly level: 'design-goal' | 'higher-risk-for-some' | 'higher-risk-for-nearly-everybody'
  readonly text: string
  readonly source: string
}

const SOURCE =
  'NIOSH 94-110 (rev. 9/2021), section 1.4.3, p. 20; second-hand (public transcription of the print)'

const GOAL: LiftingIndexReading = {
  level: 'design-goal',
  text: 'A lifting index of 1.0 or less is what lifts should be planned for.',
  source: SOURCE,
}
const SOME: LiftingIndexReading = {
  level: 'higher-risk-for-some',
  text: 'Above 1.0 some people run a higher risk of hurting their back: take less, lift from higher up or with more hands.',
  source: SOURCE,
}
const NEARLY_EVERYBODY: LiftingIndexReading = {
  level: 'higher-risk-for-nearly-everybody',
  text: 'Above 3.0 nearly everybody runs a higher risk of hurting their back, in the view of some experts: do not lift it this way.',
  source: SOURCE,
}

/**
 * @param liftingIndex  0 or more; null, where no weight is recommended at all, reads like the worst
 * @throws RangeError for a negative index or one that is no number
 */
export function liftingIndexReading(liftingIndex: number | null): LiftingIndexReading {
  if (liftingIndex === null) return NEARLY_EVERYBODY
  numberInRange('liftingIndex', liftingIndex, 0)
  if (liftingIndex <= 1) return GOAL
  return liftingIndex <= 3 ? SOME : NEARLY_EVERYBODY
}
