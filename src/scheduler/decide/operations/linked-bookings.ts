/** Bookings that stand or fall together. */
import { type Booking, isBlocking } from '../../../domain/booking.ts'
import type { LinkId } from '../../../domain/ids.ts'

/** All of its link that are not cancelled, itself too; itself alone where it has none. */
export function withItsLink(bookings: Iterable<Booking>, booking: Booking): Booking[] {
  const { linkId } = booking
  return linkId === null ? [booking] : membersOf(bookings, linkId)
}

/** Not cancelled, by doors, then id. */
export const membersOf = (bookings: Iterable<Booking>, linkId: LinkId): Booking[] =>
  [...bookings].filter((one) => one.linkId === linkId && isBlocking(one)).sort(byDoors)

export const byDoors = (a: Booking, b: Booking): number => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1)
