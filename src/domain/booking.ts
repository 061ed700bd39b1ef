/** A claim on a room: doors ≤ start < end ≤ clear. It occupies the room's sections from doors to clear. */
import { z } from 'zod'
import { BookingId, LayoutId, RoomId, SiteId, TurnId } from './ids.ts'
import { Instant } from './instant.ts'
import { Headcount, Name } from './units.ts'

/** RFC 5545, section 3.8.1.11. */
export const BookingStatus = z.enum(['TENTATIVE', 'CONFIRMED', 'CANCELLED'])
export type BookingStatus = z.infer<typeof BookingStatus>

/** The longest a booking may hold a room from doors to clear: 31 days. Overlap queries lean on it. */
export const BOOKING_LONGEST_SECONDS = 31 * 86_400

export const Booking = z.object({
  id: BookingId,
  siteId: SiteId,
  title: Name,
  roomId: RoomId,
  layoutId: LayoutId,
  headcount: Headcount,
  doorsAt: Instant.meta({ description: 'When guests may come in: the room must be ready' }),
  startsAt: Instant,
  endsAt: Instant,
  clearAt: Instant.meta({ description: 'When the last guest is out: the turn may begin' }),
  foodServed: z.boolean().meta({ description: 'Food on the floor: more cleaning after' }),
  floorWet: z.boolean().meta({ description: 'Wet or soiled floor: mopped and dried after' }),
  status: BookingStatus,
  version: z.int().min(1),
  turnId: TurnId.meta({ description: 'The turn that prepares this booking' }),
})
export type Booking = z.infer<typeof Booking>

/** Whether it keeps others out of its room. */
export const isBlocking = (booking: Booking): boolean => booking.status !== 'CANCELLED'
