/** Somebody else has a section of the room between doors and clear. */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { roomOf, sharesSection, type World } from '../../timeline/world.ts'

export function roomOccupied(world: World, booking: Booking): Reason[] {
  const room = roomOf(world, booking.roomId)
  return world.bookings
    .filter(
      (other) =>
        other.id !== booking.id &&
        other.doorsAt < booking.clearAt &&
        other.clearAt > booking.doorsAt &&
        sharesSection(roomOf(world, other.roomId), room),
    )
    .map((other) => ({
      code: 'room-occupied',
      roomId: other.roomId,
      bookingId: other.id,
      fromAt: other.doorsAt,
      toAt: other.clearAt,
    }))
}
