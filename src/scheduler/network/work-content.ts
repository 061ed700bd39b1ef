/** From a practised worker's time to the time of this crew, and to the ways of sharing it among hands. */
import type { Policy } from '../../domain/policy.ts'
import type { TaskMode } from '../../domain/task-mode.ts'
import { effectiveHands } from './effective-hands.ts'

/** More get in each other's way on one lot. Common practice, no source. */
const HANDS_MOST_ON_A_LOT = 4

/** A week. No turn is longer than two days, so what takes longer cannot be done in any case. */
const MODE_SECONDS_MOST = 604_800

/** Sums of decimal rates carry noise; without this a lot of exactly 600 could become 601. */
const NOISE = 1e-6

/**
 * Work for this crew: pace factor and allowance on top of a practised worker's time. Walking and pushing count like
 * handling: a crew that is slow with tables is slow on the way to the store as well.
 * @param practisedPersonSeconds  0 or more
 * @param ridePersonSeconds       time in lifts, which are as quick for every crew
 * @returns person-seconds, whole, rounded up
 * @source standard time = normal time × (1 + allowance), the allowance being a share of the work
 */
export function workPersonSeconds(
  practisedPersonSeconds: number,
  policy: Policy,
  ridePersonSeconds = 0,
): number {
  return Math.max(0, Math.ceil(practisedPersonSeconds * workFactor(policy) + ridePersonSeconds - NOISE))
}

/** What a practised worker's time is multiplied with. */
export const workFactor = (policy: Policy): number => policy.paceFactor * (1 + policy.allowanceShare)

/**
 * How many hands may work on a lot of pieces: whole teams of `handsPerPiece`, no more teams than pieces.
 * @returns at least one team, even where a team is larger than what is useful
 */
export function handsOnPieces(
  handsPerPiece: number,
  pieces: number,
  teamsAllowed = HANDS_MOST_ON_A_LOT,
): number[] {
  const teamsMost = Math.max(
    1,
    Math.min(pieces, teamsAllowed, Math.floor(HANDS_MOST_ON_A_LOT / handsPerPiece)),
  )
  return Array.from({ length: teamsMost }, (_, team) => (team + 1) * handsPerPiece)
}

/**
 * One mode for each number of hands, seconds rounded up; numbers of hands that are no faster than fewer are left out.
 * @param personSeconds  0 or more
 * @param hands          ascending, 1 or more each, not empty
 */
export function modesOfWork(personSeconds: number, hands: readonly number[], policy: Policy): TaskMode[] {
  const modes: TaskMode[] = []
  for (const count of hands) {
    const exactSeconds = personSeconds / effectiveHands(policy.effectiveHands, count)
    const seconds = Math.min(MODE_SECONDS_MOST, Math.max(0, Math.ceil(exactSeconds - NOISE)))
    const fewerHands = modes.at(-1)
    if (!fewerHands || seconds < fewerHands.seconds) modes.push({ hands: count, seconds })
  }
  return modes
}
