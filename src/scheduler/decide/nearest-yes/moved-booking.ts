/** The same booking at other doors, moved as a whole: what its event asks for, and by when, moves along. */
import type { Booking } from '../../../domain/booking.ts'
import type { Instant } from '../../../domain/instant.ts'

export function movedTo(booking: Booking, doorsAt: Instant): Booking {
  const byMs = doorsAt - booking.doorsAt
  const moved = (at: Instant) => (at + byMs) as Instant
  return {
    ...booking,
    doorsAt,
    startsAt: moved(booking.startsAt),
    endsAt: moved(booking.endsAt),
    clearAt: moved(booking.clearAt),
    overrunsUntilAt: booking.overrunsUntilAt === null ? null : moved(booking.overrunsUntilAt),
    crewDemands: booking.crewDemands.map((demand) => ({
      ...demand,
      fromAt: moved(demand.fromAt),
      toAt: moved(demand.toAt),
    })),
    milestones: booking.milestones.map((one) => ({ ...one, byAt: moved(one.byAt) })),
  }
}
