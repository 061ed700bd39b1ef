/** From doors that were refused to earlier ones that may do. */
import type { Booking } from '../../../domain/booking.ts'
import { earlierOf, type Instant } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { type AroundAsked, lanesWith } from './around-asked.ts'
import { downToFiveMinutes, upToFiveMinutes } from './five-minutes.ts'
import { type DoorsBound, isKnown, type Way } from './way.ts'

export function earlierDoors(around: AroundAsked, asked: Booking): Way {
  let moments: Instant[] | null = null
  return {
    sign: -1,
    stepped: (doorsAt) => downToFiveMinutes(doorsAt - 1),
    back: (doorsAt) => upToFiveMinutes(doorsAt + 1),
    leapt: (tried, against) => {
      const bounds = against.map((reason) => notAfter(around, tried, reason))
      if (bounds.includes('never')) return null
      const known = bounds.filter(isKnown).reduce(earlierOf, tried.doorsAt)
      if (known < tried.doorsAt) return downToFiveMinutes(known)
      moments ??= earlierMoments(around, asked)
      const next = moments.find((at) => at < tried.doorsAt)
      return next === undefined ? null : downToFiveMinutes(next)
    },
  }
}

/** The reason stands for most doors after that moment, until those that were tried. */
function notAfter(around: AroundAsked, tried: Booking, reason: Reason): DoorsBound {
  switch (reason.code) {
    case 'way-closed':
      return reason.side === 'after' ? 'unknown' : reason.fromAt
    case 'hands-short':
    case 'turn-before-too-long':
    case 'turn-after-too-long':
      // Clear that much earlier, the turn after it would be ready by doors.
      return reason.side === 'after'
        ? sooner(tried, reason.doorsAt, reason.readyAt)
        : beforeThePrevious(around, tried)
    case 'milestone-missed':
      return reason.side === 'after' ? 'unknown' : beforeThePrevious(around, tried)
    case 'another-turn-broken':
      return sooner(tried, reason.doorsAt, reason.readyAt)
    case 'skill-missing':
    case 'crew-demand-short':
      return dutyBefore(around, reason.skill, reason.toAt)
    default:
      return 'unknown'
  }
}

const sooner = ({ doorsAt }: Booking, dueAt: Instant, readyAt: Instant | null): DoorsBound =>
  readyAt === null || readyAt <= dueAt ? 'unknown' : ((doorsAt - (readyAt - dueAt)) as Instant)

/** The turn from the booking before is too long, and the earlier the longer. */
function beforeThePrevious({ others }: AroundAsked, { doorsAt, clearAt }: Booking): DoorsBound {
  const previous = others.findLast((other) => other.doorsAt < doorsAt)
  return previous ? ((previous.doorsAt - (clearAt - doorsAt)) as Instant) : 'unknown'
}

/** `never`: nobody with the skill has been on duty by then. */
const dutyBefore = (around: AroundAsked, skill: string | null, at: Instant): DoorsBound =>
  lanesWith(around, skill).some(({ onDuty }) => onDuty.some(({ fromAt }) => fromAt < at))
    ? 'unknown'
    : 'never'

/** When it would be clear as somebody else comes in, something goes, or its crew leaves or is taken; the last first. */
function earlierMoments({ others, away, lanes, held }: AroundAsked, asked: Booking): Instant[] {
  const lengthMs = asked.clearAt - asked.doorsAt
  const taken = [...others.map(({ doorsAt }) => doorsAt), ...away.map(({ fromAt }) => fromAt)]
  const gone = new Set([
    ...lanes.flatMap(({ onDuty }) => onDuty.map(({ toAt }) => toAt)),
    ...held.map(({ fromAt }) => fromAt),
  ])
  const lagsMs = [0, ...asked.crewDemands.map(({ toAt }) => toAt - asked.doorsAt)]
  const free = taken.map((at) => (at - lengthMs) as Instant)
  const staffed = [...gone].flatMap((at) => lagsMs.map((lagMs) => (at - lagMs) as Instant))
  return [...new Set([...free, ...staffed])].sort((a, b) => b - a)
}
