/** From doors that were refused to later ones that may do. */
import type { Booking } from '../../../domain/booking.ts'
import { type Instant, laterOf } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { type AroundAsked, lanesWith } from './around-asked.ts'
import { downToFiveMinutes, upToFiveMinutes } from './five-minutes.ts'
import { type DoorsBound, isKnown, type Way } from './way.ts'

export function laterDoors(around: AroundAsked, asked: Booking): Way {
  let moments: Instant[] | null = null
  return {
    sign: 1,
    stepped: (doorsAt) => upToFiveMinutes(doorsAt + 1),
    back: (doorsAt) => downToFiveMinutes(doorsAt - 1),
    leapt: (tried, against) => {
      const bounds = against.map((reason) => notBefore(around, tried, reason))
      if (bounds.includes('never')) return null
      const known = bounds.filter(isKnown).reduce(laterOf, tried.doorsAt)
      if (known > tried.doorsAt) return upToFiveMinutes(known)
      moments ??= laterMoments(around, asked)
      const next = moments.find((at) => at > tried.doorsAt)
      return next === undefined ? null : upToFiveMinutes(next)
    },
  }
}

/** The reason stands for most doors before that moment. */
function notBefore(around: AroundAsked, tried: Booking, reason: Reason): DoorsBound {
  if ('side' in reason && reason.side === 'after') return afterTheNext(around, tried)
  switch (reason.code) {
    case 'way-closed':
      return reason.toAt
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

/** When somebody with the skill comes on duty next; `never`: nobody has it any more; `unknown`: somebody is there. */
function dutyAfter(around: AroundAsked, skill: string | null, at: Instant): DoorsBound {
  const duties = lanesWith(around, skill)
    .flatMap(({ onDuty }) => onDuty)
    .filter(({ toAt }) => toAt > at)
  if (duties.length === 0) return 'never'
  if (duties.some(({ fromAt }) => fromAt <= at)) return 'unknown'
  return Math.min(...duties.map(({ fromAt }) => fromAt)) as Instant
}

/** When the room becomes free, something comes back, or somebody comes on duty or is done elsewhere; in order. */
function laterMoments({ others, away, lanes, held }: AroundAsked, asked: Booking): Instant[] {
  const free = [...others.map(({ clearAt }) => clearAt), ...away.map(({ toAt }) => toAt)]
  const come = new Set([
    ...lanes.flatMap(({ onDuty }) => onDuty.map(({ fromAt }) => fromAt)),
    ...held.map(({ toAt }) => toAt),
  ])
  const leadsMs = [0, ...asked.crewDemands.map(({ fromAt }) => asked.doorsAt - fromAt)]
  const staffed = [...come].flatMap((at) => leadsMs.map((leadMs) => (at + leadMs) as Instant))
  return [...new Set([...free, ...staffed])].sort((a, b) => a - b)
}
