/** What a change does not name keeps its distance to the start of the booking, or to its end. */
import type { Booking } from '../../domain/booking.ts'
import type { Instant } from '../../domain/instant.ts'

type Span = Pick<Booking, 'startsAt' | 'endsAt'>

/** Bounds are not looked at here. */
const shifted = (moment: Instant, from: Instant, to: Instant): Instant => (moment + (to - from)) as Instant

/** Doors go with the start, clear with the end. */
export const boundariesAlong = (booking: Booking, { startsAt, endsAt }: Span) => ({
  doorsAt: shifted(booking.doorsAt, booking.startsAt, startsAt),
  clearAt: shifted(booking.clearAt, booking.endsAt, endsAt),
})

/** What lies before the end goes with the start, what lies at or after the end with the end. */
export function termsAlong(
  booking: Booking,
  { startsAt, endsAt }: Span,
): Pick<Booking, 'crewDemands' | 'milestones'> {
  const along = (moment: Instant) =>
    moment < booking.endsAt
      ? shifted(moment, booking.startsAt, startsAt)
      : shifted(moment, booking.endsAt, endsAt)
  return {
    crewDemands: booking.crewDemands.map((demand) => ({
      ...demand,
      fromAt: along(demand.fromAt),
      toAt: along(demand.toAt),
    })),
    milestones: booking.milestones.map(({ milestone, byAt }) => ({ milestone, byAt: along(byAt) })),
  }
}
