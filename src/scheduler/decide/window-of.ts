/** The spans a snapshot must be complete for, so that deciding on it equals deciding on everything. */
import { BOOKING_LONGEST_SECONDS, type Booking } from '../../domain/booking.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Operation } from '../../domain/operation.ts'
import { TURN_LONGEST_SECONDS } from '../../domain/turn.ts'
import { NEAREST_DOORS_WITHIN_SECONDS } from './nearest-doors.ts'

/**
 * @param storedBookings  those that a change or a cancellation speaks of, as they are stored
 * @returns from 48 h before the earliest doors until the latest clear. What is needed of the turn that follows, however
 *          far on, and of plans that run late is loaded with the window: see SiteSnapshot
 */
export function windowOf(
  operations: readonly Operation[],
  storedBookings: readonly Booking[],
  now: Instant,
): HalfOpenInterval {
  const bookings = [
    ...storedBookings,
    ...operations.flatMap((one) => (one.kind === 'book' || one.kind === 'change' ? [one.booking] : [])),
  ]
  const spans = [
    ...bookings.map((booking) => ({ fromAt: booking.doorsAt, toAt: booking.clearAt })),
    ...operations.flatMap(spanOf),
  ]
  if (spans.length === 0) return { fromAt: now, toAt: now }
  const earliestAt = Math.min(...spans.map((span) => span.fromAt)) as Instant
  const latestAt = Math.max(...spans.map((span) => span.toAt)) as Instant
  return { fromAt: instantPlusSeconds(earliestAt, -TURN_LONGEST_SECONDS), toAt: latestAt }
}

/** The same and 48 h more: complete also for the nearest doors that may be offered instead. */
export function windowWithAlternatives(
  operations: readonly Operation[],
  storedBookings: readonly Booking[],
  now: Instant,
): HalfOpenInterval {
  const { fromAt, toAt } = windowOf(operations, storedBookings, now)
  return { fromAt, toAt: instantPlusSeconds(toAt, NEAREST_DOORS_WITHIN_SECONDS) }
}

function spanOf(operation: Operation): HalfOpenInterval[] {
  if (operation.kind !== 'set-up') return []
  const { fromAt, toAt } = operation.span
  // A long booking that began before a closure is closed out of its room too, and must be judged whole.
  const closes = operation.writes.some(({ kind }) => kind === 'closure')
  return [{ fromAt: closes ? instantPlusSeconds(fromAt, -BOOKING_LONGEST_SECONDS) : fromAt, toAt }]
}
