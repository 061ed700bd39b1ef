/** Which duration columns of the frequency table hold for a day's pattern of lifting and lighter work. */
import { numberAbove, numberInRange } from '../work-measurement/number-in-range.ts'
import type { DurationClass } from './frequency-multiplier.ts'

export interface LiftingSession {
  /** Lifting without a longer pause, above 0. */
  readonly liftingSeconds: number
  /** Light work or rest after it; null: no more lifting that day, which is recovery enough. */
  readonly recoverySeconds: number | null
}

const SHORT_SECONDS_MOST = 3600
const MODERATE_SECONDS_MOST = 7200
const LONG_SECONDS_MOST = 28_800
/** Recovery over work. The first print of the manual (1994) has 1.2 for the short class, the revision 1.0. */
const SHORT_RECOVERY_RATIO = 1
const MODERATE_RECOVERY_RATIO = 0.3

const harder: readonly DurationClass[] = ['short', 'moderate', 'long']

/**
 * A session is short up to an hour if at least as long a recovery follows; moderate up to two hours with 0.3 of it;
 * else long. A recovery that is too short counts for nothing: the sessions around it are added up. The day has the
 * class of its hardest stretch.
 * @param sessions  in order of time
 * @returns null when nothing is lifted, and when the lifting of the day comes to more than 8 h: the equation has no
 *   limit for that
 * @throws RangeError for a session without lifting, a negative recovery, or what is no number
 * @source NIOSH 94-110 (rev. 9/2021), section 1.3.5.2, pp. 13-14
 */
export function durationClass(sessions: readonly LiftingSession[]): DurationClass | null {
  if (sessions.length === 0) return null
  let stretchSeconds = 0
  let daySeconds = 0
  let hardest = 0
  for (const { liftingSeconds, recoverySeconds } of sessions) {
    stretchSeconds += numberAbove('liftingSeconds', liftingSeconds, 0)
    daySeconds += liftingSeconds
    if (recoverySeconds !== null) numberInRange('recoverySeconds', recoverySeconds, 0)
    hardest = Math.max(hardest, harder.indexOf(classOfStretch(stretchSeconds)))
    const wanted = recoveryWantedSeconds(stretchSeconds)
    if (wanted !== null && (recoverySeconds === null || recoverySeconds >= wanted)) stretchSeconds = 0
  }
  const last = sessions[sessions.length - 1]!
  if (last.recoverySeconds !== null && stretchSeconds > 0) {
    hardest = Math.max(hardest, harder.indexOf(classWithRecovery(stretchSeconds, last.recoverySeconds)))
  }
  return daySeconds > LONG_SECONDS_MOST ? null : harder[hardest]!
}

/**
 * The recovery after which a stretch of lifting keeps its class.
 * @param liftingSeconds  above 0
 * @returns null for more than two hours: the long class has the usual breaks and asks for no more
 */
export function recoveryWantedSeconds(liftingSeconds: number): number | null {
  numberAbove('liftingSeconds', liftingSeconds, 0)
  if (liftingSeconds <= SHORT_SECONDS_MOST) return liftingSeconds * SHORT_RECOVERY_RATIO
  return liftingSeconds <= MODERATE_SECONDS_MOST ? liftingSeconds * MODERATE_RECOVERY_RATIO : null
}

function classOfStretch(liftingSeconds: number): DurationClass {
  if (liftingSeconds <= SHORT_SECONDS_MOST) return 'short'
  return liftingSeconds <= MODERATE_SECONDS_MOST ? 'moderate' : 'long'
}

/** The last session of a pattern that goes on: what follows its recovery is unknown, so the recovery must suffice. */
function classWithRecovery(liftingSeconds: number, recoverySeconds: number): DurationClass {
  const ratio = recoverySeconds / liftingSeconds
  if (liftingSeconds <= SHORT_SECONDS_MOST && ratio >= SHORT_RECOVERY_RATIO) return 'short'
  return liftingSeconds <= MODERATE_SECONDS_MOST && ratio >= MODERATE_RECOVERY_RATIO ? 'moderate' : 'long'
}
