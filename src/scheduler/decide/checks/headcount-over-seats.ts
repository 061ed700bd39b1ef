/** More people than the layout has seats for. A layout without a number of seats sets no limit. */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { layoutOf, type World } from '../../timeline/world.ts'

export function headcountOverSeats(world: World, booking: Booking): Reason[] {
  const { id, seats } = layoutOf(world, booking.layoutId)
  if (seats === null || booking.headcount <= seats) return []
  return [
    {
      code: 'headcount-over-seats',
      bookingId: booking.id,
      layoutId: id,
      headcount: booking.headcount,
      seats,
    },
  ]
}
