/**
 * The nearest earlier and the nearest later doors at which the same booking, moved as a whole, is accepted. What speaks
 * against the doors tried last says where to try next; what speaks against the booking by itself costs no trial.
 */

import type { Alternative } from '../../../domain/alternative.ts'
import type { Booking } from '../../../domain/booking.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { bookingReasons } from '../checks/index.ts'
import { operationProblems } from '../operations/operation-problems.ts'
import { answered, TRIAL_WORK_MOST, tried } from './answer-to.ts'
import { type AroundAsked, aroundAsked } from './around-asked.ts'
import type { AskedFor } from './asked-for.ts'
import { earlierDoors } from './earlier-doors.ts'
import { fitsText } from './fits-text.ts'
import { isSeen } from './is-seen.ts'
import { laterDoors } from './later-doors.ts'
import { movedTo } from './moved-booking.ts'
import { isTimeless, type NextDoors } from './next-doors.ts'

/** Each way. */
const TRIALS_MOST = 6
/** Doors looked at each way, those that cost no trial too. */
const STEPS_MOST = 40

/** @returns one each way at most; none where time is not what is in the way */
export function otherDoors(asked: AskedFor, reasons: readonly Reason[]): Alternative[] {
  const against = reasons.filter(speaksAgainst)
  if (against.some(isTimeless)) return []
  const around = aroundAsked(asked)
  return [earlierDoors, laterDoors].flatMap((way) =>
    nearestDoors(asked, around, against, way(around, asked.booking)),
  )
}

function nearestDoors(
  asked: AskedFor,
  around: AroundAsked,
  reasons: readonly Reason[],
  nextDoors: NextDoors,
): Alternative[] {
  const { snapshot, world } = asked
  let moved = asked.booking
  let against = reasons
  let trials = 0
  for (let step = 0; step < STEPS_MOST; step += 1) {
    const next = nextDoors(moved, against)
    if (next === null) return []
    moved = movedTo(asked.booking, next.doorsAt)
    const operation = asked.instead(moved)
    if (!mayBeOffered(asked, around, moved)) return []
    against = bookingReasons(world, moved).filter(speaksAgainst)
    if (against.length > 0 || operationProblems(snapshot, [operation]).length > 0) continue
    if (trials === TRIALS_MOST) return []
    trials += 1
    const trial = next.isLikely ? null : tried(snapshot, [operation], TRIAL_WORK_MOST)
    against = trial?.reasons.filter(speaksAgainst) ?? []
    if (against.length > 0) continue
    const { verdict, reasons: found } = answered(snapshot, [operation])
    if (verdict !== 'does-not-fit') return [alternative(asked, moved, verdict)]
    against = found.filter(speaksAgainst)
  }
  return []
}

/** No farther than is looked, not in the past, and a hold is over by doors. */
function mayBeOffered(
  { snapshot, booking, instead }: AskedFor,
  around: AroundAsked,
  moved: Booking,
): boolean {
  const { doorsAt, holdExpiresAt } = moved
  return (
    doorsAt >= around.firstAt &&
    doorsAt <= around.lastAt &&
    doorsAt > snapshot.now &&
    (holdExpiresAt === null || holdExpiresAt <= doorsAt) &&
    isSeen(snapshot, [instead(booking)], [instead(moved)])
  )
}

function alternative(
  { world }: AskedFor,
  { doorsAt, startsAt, endsAt, clearAt }: Booking,
  verdict: 'fits' | 'tight',
): Alternative {
  const message = `With doors at ${dayAndTimeOf(doorsAt, world.setup.site.zone)} ${fitsText(verdict)}`
  return { kind: 'other-doors', certainty: 'yes', doorsAt, startsAt, endsAt, clearAt, verdict, message }
}
