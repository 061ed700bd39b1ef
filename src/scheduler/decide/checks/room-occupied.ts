/** Somebody else has a section of the room between doors and clear, or keeps it as set. */
import { BOOKING_LONGEST_SECONDS, type Booking, heldUntilAt } from '../../../domain/booking.ts'
import { instantPlusSeconds } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { firstFrom, roomOf, type World } from '../../timeline/world.ts'

export function roomOccupied(world: World, booking: Booking): Reason[] {
  const untilAt = heldUntilAt(booking)
  // No booking holds a room for longer: what begins earlier is over.
  const earliestAt = instantPlusSeconds(booking.doorsAt, -BOOKING_LONGEST_SECONDS)
  const meeting = new Set<Booking>()
  for (const sectionId of roomOf(world, booking.roomId).sectionIds) {
    const here = world.bookingsBySection.get(sectionId) ?? []
    for (let index = firstFrom(here, earliestAt); index < here.length; index += 1) {
      const other = here[index]!
      if (other.doorsAt >= untilAt) break
      if (other.id !== booking.id && heldUntilAt(other) > booking.doorsAt) meeting.add(other)
    }
  }
  return [...meeting]
    .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))
    .map((other) => ({
      code: 'room-occupied',
      roomId: other.roomId,
      bookingId: other.id,
      fromAt: other.doorsAt,
      toAt: heldUntilAt(other),
      clearAt: heldUntilAt(other) > other.clearAt ? other.clearAt : null,
    }))
}
