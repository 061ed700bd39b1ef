/** More people than the limit posted at the room. Nobody may override this. */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { roomOf, type World } from '../../timeline/world.ts'

export function headcountOverPostedLimit(world: World, booking: Booking): Reason[] {
  const { id, occupantLimitPosted } = roomOf(world, booking.roomId)
  if (occupantLimitPosted === null || booking.headcount <= occupantLimitPosted) return []
  return [
    {
      code: 'headcount-over-posted-limit',
      bookingId: booking.id,
      roomId: id,
      headcount: booking.headcount,
      occupantLimitPosted,
    },
  ]
}
