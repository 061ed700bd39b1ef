/** What the bookings around a turn ask of it, or bring along, beside the room itself. */
import { type Booking, leftAt } from '../../domain/booking.ts'
import type { BookingMilestone, CrewDemand } from '../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { BookingId, EquipmentId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { TurnPurpose } from '../../domain/turn.ts'
import type { WhatStands } from './what-stands.ts'

export interface TurnAsks {
  /** To be reached before doors, or soon after those before are clear; by moment, then name. */
  readonly milestones: readonly BookingMilestone[]
  /** Of the event that it prepares. */
  readonly crewDemands: readonly CrewDemand[]
  /** When that event must not be disturbed; null: it may be, or no room hears another. */
  readonly quiet: HalfOpenInterval | null
  /** Groups that help after their own event. */
  readonly helpers: readonly (HalfOpenInterval & { readonly bookingId: BookingId; readonly hands: number })[]
  /** Devices that have to be moved, and stand in another room too where somebody is until then; by id. */
  readonly devicesHeld: readonly DeviceHeld[]
  readonly isNothing: boolean
}

export interface DeviceHeld {
  readonly equipmentId: EquipmentId
  readonly untilAt: Instant
}

/** @param isHeard  some room hears the room of the turn */
export function turnAsks(
  booking: Booking,
  purpose: TurnPurpose,
  { predecessors, wentHome }: WhatStands,
  isHeard: boolean,
  devicesHeld: readonly DeviceHeld[],
): TurnAsks {
  const leaving = predecessors.filter((predecessor) => !wentHome.has(predecessor))
  const prepares = purpose === 'prepare'
  const milestones = [
    ...(prepares ? booking.milestones.filter(({ byAt }) => byAt <= booking.doorsAt) : []),
    ...leaving.flatMap((one) => one.milestones.filter(({ byAt }) => byAt > one.doorsAt)),
  ].sort((a, b) => a.byAt - b.byAt || (a.milestone < b.milestone ? -1 : 1))
  const crewDemands = prepares ? booking.crewDemands : []
  const quiet =
    prepares && booking.quietNeeded && isHeard ? { fromAt: booking.startsAt, toAt: booking.endsAt } : null
  const helpers = leaving.flatMap((one) =>
    one.ownHelp
      ? {
          bookingId: one.id,
          hands: one.ownHelp.hands,
          fromAt: leftAt(one),
          toAt: instantPlusSeconds(leftAt(one), one.ownHelp.seconds),
        }
      : [],
  )
  const isNothing =
    milestones.length + crewDemands.length + helpers.length + devicesHeld.length === 0 && quiet === null
  return { milestones, crewDemands, quiet, helpers, devicesHeld, isNothing }
}
