/** The order in which bookings are listed: by doors, then id. */
import type { Booking } from '../../domain/booking.ts'

export const byDoors = (one: Booking, other: Booking): number =>
  one.doorsAt - other.doorsAt || (one.id < other.id ? -1 : 1)
