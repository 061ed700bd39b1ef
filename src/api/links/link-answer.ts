/** A link as it is answered: its bookings, and between which of them a room is kept as it is set. */
import { z } from 'zod'
import type { Booking } from '../../domain/booking.ts'
import { BookingId, LinkId, RoomId } from '../../domain/ids.ts'
import { Instant } from '../../domain/instant.ts'
import { byDoors } from '../bookings/by-doors.ts'

const SetKept = z
  .object({
    roomId: RoomId,
    afterBookingId: BookingId,
    beforeBookingId: BookingId,
    fromAt: Instant.meta({ description: 'Clear of the first: it is cleaned up after, and not turned' }),
    toAt: Instant.meta({ description: 'Doors of the second' }),
  })
  .meta({ id: 'SetKept' })
type SetKept = z.infer<typeof SetKept>

export const Link = z
  .object({
    id: LinkId,
    bookingIds: z.array(BookingId).meta({ description: 'By doors' }),
    keepAsSet: z.boolean().meta({ description: 'It was asked to keep rooms as they are set' }),
    kept: z
      .array(SetKept)
      .meta({ description: 'Between which of them which room stays as it is set, by doors' }),
  })
  .meta({ id: 'Link' })
export type Link = z.infer<typeof Link>

/** @param bookings  all of the link, as they are stored */
export function linkOf(id: LinkId, bookings: readonly Booking[]): Link {
  const inOrder = [...bookings].sort(byDoors)
  return {
    id,
    bookingIds: inOrder.map((booking) => booking.id),
    keepAsSet: bookings.some(({ keepAsSet }) => keepAsSet),
    kept: inOrder.flatMap((booking) => setKept(inOrder, booking) ?? []),
  }
}

function setKept(bookings: readonly Booking[], booking: Booking): SetKept | null {
  const { roomId, clearAt, keptUntilAt } = booking
  const next = bookings.find((one) => one.roomId === roomId && one.doorsAt === keptUntilAt)
  return next && keptUntilAt !== null
    ? { roomId, afterBookingId: booking.id, beforeBookingId: next.id, fromAt: clearAt, toAt: keptUntilAt }
    : null
}
