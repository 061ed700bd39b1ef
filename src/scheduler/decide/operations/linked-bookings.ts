/** Bookings that stand or fall together, and for how long each keeps its room as set for the next of them. */
import { type Booking, isBlocking } from '../../../domain/booking.ts'
import type { BookingId, LinkId } from '../../../domain/ids.ts'

/** All of its link that are not cancelled, itself too; itself alone where it has none. */
export function withItsLink(bookings: Iterable<Booking>, booking: Booking): Booking[] {
  const { linkId } = booking
  return linkId === null ? [booking] : membersOf(bookings, linkId)
}

/** Not cancelled, by doors, then id. */
export const membersOf = (bookings: Iterable<Booking>, linkId: LinkId): Booking[] =>
  [...bookings]
    .filter((one) => one.linkId === linkId && isBlocking(one))
    .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))

/** The bookings of a link with what each keeps its room for: until doors of the next in the same room and layout. */
export function keptAsSet(members: readonly Booking[]): Map<BookingId, Booking> {
  return new Map(
    members.map((booking, index) => {
      const next = members[index + 1]
      const isKept =
        booking.keepAsSet &&
        next !== undefined &&
        next.roomId === booking.roomId &&
        next.layoutId === booking.layoutId &&
        next.doorsAt >= booking.clearAt
      return [booking.id, { ...booking, keptUntilAt: isKept ? next.doorsAt : null }]
    }),
  )
}

/** Why bookings cannot keep a room as set, as a sentence; null: they can. @param members  by doors */
export function keepsNoSet(members: readonly Booking[]): string | null {
  const [first] = members
  const isOnePlace = members.every(
    ({ roomId, layoutId }) => roomId === first?.roomId && layoutId === first.layoutId,
  )
  if (!isOnePlace) return 'to keep a room as set, all of them must be in one room with one layout'
  const overlap = members.find((one, index) => {
    const next = members[index + 1]
    return next !== undefined && next.doorsAt < one.clearAt
  })
  return overlap ? 'to keep a room as set, they must come one after the other' : null
}
