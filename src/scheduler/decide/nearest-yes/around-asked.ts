/** What lies around the time asked for, and where the search for other doors may stop. */
import type { Booking } from '../../../domain/booking.ts'
import { CREW_AFTER_CLEAR_MOST_SECONDS, type CrewDemand } from '../../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds } from '../../../domain/instant.ts'
import { TURN_LONGEST_SECONDS } from '../../../domain/turn.ts'
import { type LaneOnDuty, lanesOnDuty } from '../../timeline/lanes-on-duty.ts'
import { roomOf, sharesSection, type World } from '../../timeline/world.ts'
import { isTurnWork } from '../plan/event-tasks.ts'
import type { AskedFor } from './asked-for.ts'
import { NEAREST_DOORS_WITHIN_SECONDS } from './doors-within.ts'
import { dutiesOfOthers } from './duties-of-others.ts'

export interface AroundAsked {
  /** From the first to the last doors that are looked at, both among them. */
  readonly firstAt: Instant
  readonly lastAt: Instant
  /** Others that have a section of the room between those doors, by doors, then id. */
  readonly others: readonly Booking[]
  /** On duty when the turn for any of those doors may be done, or at the event. */
  readonly lanes: readonly LaneOnDuty[]
  /** Closures, and stock and devices that are away for a while, wherever; in no order. */
  readonly away: readonly HalfOpenInterval[]
  /** Crew at the events of others, for sure; in no order. */
  readonly duties: readonly CrewDemand[]
  /** While plans of others hold hands: each for its work, and for each duty at its event, with the walk there and back. */
  readonly held: readonly HalfOpenInterval[]
}

export function aroundAsked({ world, booking }: AskedFor): AroundAsked {
  const room = roomOf(world, booking.roomId)
  const firstAt = instantPlusSeconds(booking.doorsAt, -NEAREST_DOORS_WITHIN_SECONDS)
  const lastAt = instantPlusSeconds(booking.doorsAt, NEAREST_DOORS_WITHIN_SECONDS)
  const held = {
    fromAt: firstAt,
    toAt: (lastAt + booking.clearAt - booking.doorsAt) as Instant,
  }
  const others = world.bookings.filter(
    (other) =>
      other.id !== booking.id &&
      other.doorsAt < held.toAt &&
      other.clearAt > held.fromAt &&
      sharesSection(roomOf(world, other.roomId), room),
  )
  return {
    firstAt,
    lastAt,
    others,
    lanes: lanesOnDuty(world.setup, {
      fromAt: instantPlusSeconds(held.fromAt, -TURN_LONGEST_SECONDS),
      toAt: instantPlusSeconds(held.toAt, CREW_AFTER_CLEAR_MOST_SECONDS),
    }),
    away: [
      ...world.closures,
      ...world.setup.stockChanges.flatMap(({ fromAt, toAt }) => (toAt === null ? [] : { fromAt, toAt })),
    ],
    duties: dutiesOfOthers(world, booking),
    held: heldByOthers(world, booking),
  }
}

/** In no order. */
function heldByOthers({ turnsById, setup }: World, { turnId }: Booking): HalfOpenInterval[] {
  const walkSeconds = setup.policy.walkBetweenRoomsSeconds
  return [...turnsById.values()].flatMap(({ id, plan }) => {
    if (plan === null || id === turnId) return []
    const duties = plan.tasks.filter((task) => !isTurnWork(task) && task.hands > 0)
    return [{ startsAt: plan.startsAt, endsAt: plan.readyAt }, ...duties].map(({ startsAt, endsAt }) => ({
      fromAt: instantPlusSeconds(startsAt, -walkSeconds),
      toAt: instantPlusSeconds(endsAt, walkSeconds),
    }))
  })
}

/** @param skill  null: anybody; `adult`: anybody who is grown up */
export const lanesWith = ({ lanes }: AroundAsked, skill: string | null): LaneOnDuty[] =>
  lanes.filter((lane) => skill === null || (skill === 'adult' ? lane.adult : lane.skills.includes(skill)))
