import type { Booking } from '../../../domain/booking.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { firstFrom, roomOf, type World } from '../../timeline/world.ts'

/**
 * Whether all that stood before a booking is known where a window is complete: it begins in the window, or is the first
 * after it in one of its sections. Others are there because somebody else's turn names them; nothing can be said of what
 * they follow.
 */
export function standsWhole(world: World, booking: Booking, { fromAt, toAt }: HalfOpenInterval): boolean {
  if (booking.doorsAt < toAt) return booking.doorsAt >= fromAt
  return roomOf(world, booking.roomId).sectionIds.some((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    return here[firstFrom(here, toAt)]?.doorsAt === booking.doorsAt
  })
}
