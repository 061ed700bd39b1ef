/** Whether enough is known to promise a yes to other operations than those that were asked for. */
import type { Booking } from '../../../domain/booking.ts'
import { covers } from '../../../domain/half-open-interval.ts'
import type { BookingId } from '../../../domain/ids.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { withItsLink } from '../operations/linked-bookings.ts'
import { windowOf, windowWithAlternatives } from '../operations/window-of.ts'

/**
 * All that the answer to `instead` could hang on is in the snapshot, and would be in any snapshot that is complete for
 * the alternatives to what was asked: so the same is offered whoever looked further.
 */
export function isSeen(
  snapshot: SiteSnapshot,
  asked: readonly Operation[],
  instead: readonly Operation[],
): boolean {
  const { now, window, policy } = snapshot
  const stored = storedBookings(snapshot, asked)
  const wanted = windowOf(instead, stored, now, policy.returnHomeAfterSeconds)
  const wider = windowWithAlternatives(asked, stored, now, policy.returnHomeAfterSeconds)
  return covers(window, wanted) && covers(wider, wanted)
}

/** Those that operations speak of, with all of their links, as they are stored. */
function storedBookings({ bookings }: SiteSnapshot, operations: readonly Operation[]): Booking[] {
  const ids = new Set(operations.flatMap(bookingsNamed))
  const named = bookings.filter(({ id }) => ids.has(id))
  return [...new Set(named.flatMap((booking) => [booking, ...withItsLink(bookings, booking)]))]
}

function bookingsNamed(operation: Operation): readonly BookingId[] {
  if ('bookingIds' in operation) return operation.bookingIds
  if ('bookingId' in operation) return [operation.bookingId]
  return 'booking' in operation ? [operation.booking.id] : []
}
