/** From doors that were refused to later ones that may do. */
import type { Booking } from '../../../domain/booking.ts'
import { type Instant, laterOf } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { type AroundAsked, lanesWith } from './around-asked.ts'
import { upToFiveMinutes } from './five-minutes.ts'
import { type DoorsBound, isKnown, isLate, isTimeless, type NextDoors } from './next-doors.ts'

export function laterDoors(around: AroundAsked, asked: Booking): NextDoors {
  let moments: Instant[] | null = null
  return (tried, against) => {
    const bounds = against.map((reason) => notBefore(around, tried, reason))
    if (bounds.includes('never')) return null
    const known = bounds.filter(isKnown).reduce(laterOf, tried.doorsAt)
    if (known > tried.doorsAt) {
      const isLikely = against.every((reason) => isLate(reason, 'before'))
      return { doorsAt: upToFiveMinutes(known), isLikely }
    }
    moments ??= laterMoments(around, asked)
    const next = moments.find((at) => at > tried.doorsAt)
    return next === undefined ? null : { doorsAt: upToFiveMinutes(next), isLikely: false }
  }
}

/** The reason stands for all doors before that moment. */
function notBefore(around: AroundAsked, tried: Booking, reason: Reason): DoorsBound {
  if (isTimeless(reason)) return 'never'
  if ('side' in reason && reason.side === 'after') return afterTheNext(around, tried)
  switch (reason.code) {
    case 'room-closed':
    case 'room-occupied':
    case 'way-closed':
      return reason.toAt
    case 'equipment-unavailable':
      return reason.toAt ?? 'never'
    case 'outside-opening-hours':
      return nextOpening(around, tried)
    case 'hands-short':
    case 'turn-before-too-long':
      return reason.readyAt ?? 'unknown'
    case 'milestone-missed':
      return reason.reachedAt === null
        ? 'unknown'
        : ((tried.doorsAt + reason.reachedAt - reason.byAt) as Instant)
    case 'skill-missing':
      return dutyAfter(around, reason.skill, tried.doorsAt)
    case 'crew-demand-short': {
      const duty = dutyAfter(around, reason.skill, reason.fromAt)
      return isKnown(duty) ? ((tried.doorsAt + duty - reason.fromAt) as Instant) : duty
    }
    // Whose doors come first has the crew first.
    case 'another-turn-broken':
      return reason.doorsAt >= tried.doorsAt ? ((reason.doorsAt + 1) as Instant) : 'unknown'
    default:
      return 'unknown'
  }
}

/** The turn for the next booking would be too short, and the later the shorter. */
const afterTheNext = ({ others }: AroundAsked, { clearAt }: Booking): DoorsBound =>
  others.find(({ doorsAt }) => doorsAt >= clearAt)?.clearAt ?? 'unknown'

function nextOpening({ open }: AroundAsked, { doorsAt, clearAt }: Booking): DoorsBound {
  const lengthMs = clearAt - doorsAt
  const stretch = open?.find(({ fromAt, toAt }) => laterOf(fromAt, doorsAt) + lengthMs <= toAt)
  return stretch ? laterOf(stretch.fromAt, doorsAt) : 'never'
}

/** When somebody with the skill comes on duty next; `never`: nobody has it any more; `unknown`: somebody is there. */
function dutyAfter(around: AroundAsked, skill: string | null, at: Instant): DoorsBound {
  const duties = lanesWith(around, skill)
    .flatMap(({ onDuty }) => onDuty)
    .filter(({ toAt }) => toAt > at)
  if (duties.length === 0) return 'never'
  if (duties.some(({ fromAt }) => fromAt <= at)) return 'unknown'
  return Math.min(...duties.map(({ fromAt }) => fromAt)) as Instant
}

/** When the room becomes free, something comes back, or somebody comes on duty; in order. */
function laterMoments({ others, away, lanes }: AroundAsked, asked: Booking): Instant[] {
  const free = [...others.map(({ clearAt }) => clearAt), ...away.map(({ toAt }) => toAt)]
  const duties = new Set(lanes.flatMap(({ onDuty }) => onDuty.map(({ fromAt }) => fromAt)))
  const leadsMs = [0, ...asked.crewDemands.map(({ fromAt }) => asked.doorsAt - fromAt)]
  const staffed = [...duties].flatMap((at) => leadsMs.map((leadMs) => (at + leadMs) as Instant))
  return [...new Set([...free, ...staffed])].sort((a, b) => a - b)
}
