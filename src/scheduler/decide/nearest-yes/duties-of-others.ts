/** Crew whom the events of others take, and who stay taken: a booking that would cost them theirs is refused for it. */
import type { Booking } from '../../../domain/booking.ts'
import type { CrewDemand } from '../../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import type { Instant } from '../../../domain/instant.ts'
import type { LaneOnDuty } from '../../timeline/lanes-on-duty.ts'
import { isStale, type World } from '../../timeline/world.ts'
import { standsWhole } from '../operations/stands-whole.ts'
import { underWaySince } from '../operations/under-way.ts'

/**
 * Of bookings whose turn stands with a plan and is judged with whatever is asked for: their demands are met at their hours
 * by any plan there could be. What is at risk, under way or yet to be looked at is left out, for of that nothing is sure.
 * @returns by the doors of their booking
 */
export function dutiesOfOthers(world: World, asked: Booking): CrewDemand[] {
  return world.bookings.flatMap((booking) => {
    if (booking.id === asked.id || booking.crewDemands.length === 0) return []
    const turn = world.turnsById.get(booking.turnId)
    const staysTaken =
      turn?.status === 'ready' &&
      turn.plan !== null &&
      underWaySince(turn, world.now) === null &&
      booking.riskAccepted === null &&
      booking.doorsAt > world.now &&
      !isStale(world, booking.doorsAt) &&
      standsWhole(world, booking, world.window)
    return staysTaken ? booking.crewDemands : []
  })
}

/** Where something begins or ends, in order. */
export const momentsOf = (spans: readonly HalfOpenInterval[]): Instant[] =>
  [...new Set(spans.flatMap(({ fromAt, toAt }) => [fromAt, toAt]))].sort((a, b) => a - b)

const isAt = ({ fromAt, toAt }: HalfOpenInterval, at: Instant): boolean => fromAt <= at && at < toAt

export const handsAt = (duties: readonly CrewDemand[], at: Instant): number =>
  duties.reduce((sum, duty) => sum + (isAt(duty, at) ? duty.hands : 0), 0)

export const lanesAt = (lanes: readonly LaneOnDuty[], at: Instant): number =>
  lanes.filter(({ onDuty }) => onDuty.some((duty) => isAt(duty, at))).length
