/** Part of the room is closed while the booking would be there. */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { roomOf, type World } from '../../timeline/world.ts'

export function roomClosed(world: World, booking: Booking): Reason[] {
  const room = roomOf(world, booking.roomId)
  return world.closures
    .filter(
      (closure) =>
        closure.sectionIds.some((sectionId) => room.sectionIds.includes(sectionId)) &&
        closure.fromAt < booking.clearAt &&
        closure.toAt > booking.doorsAt,
    )
    .sort((a, b) => a.fromAt - b.fromAt || (a.id < b.id ? -1 : 1))
    .map((closure) => ({
      code: 'room-closed',
      bookingId: booking.id,
      roomId: room.id,
      closureId: closure.id,
      fromAt: closure.fromAt,
      toAt: closure.toAt,
      why: closure.reason,
    }))
}
