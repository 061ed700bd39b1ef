/** A claim on a room: doors ≤ start < end ≤ clear. It occupies the room's sections from doors to clear. */
import { z } from 'zod'
import { AcceptedRisk, BookingMilestone, CrewDemand, OwnHelp } from './booking-terms.ts'
import { BookingId, LayoutId, LinkId, RoomId, SiteId, TurnId } from './ids.ts'
import { Instant, laterOf } from './instant.ts'
import { Headcount, Name } from './units.ts'

/** RFC 5545, section 3.8.1.11. TENTATIVE is a hold, CONFIRMED is firm. */
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
  holdExpiresAt: Instant.nullable()
    .default(null)
    .meta({ description: 'A hold lapses then by itself; null: not a hold' }),
  linkId: LinkId.nullable()
    .default(null)
    .meta({ description: 'Bookings with the same one stand or fall together' }),
  keepAsSet: z.boolean().default(false).meta({
    description: 'The room stays as it is set until the next of the link there, if in the same layout',
  }),
  keptUntilAt: Instant.nullable()
    .default(null)
    .meta({ description: 'Doors of that next booking: nobody else gets the room before; null: not kept' }),
  overrunsUntilAt: Instant.nullable().default(null).meta({
    description: 'The last guest is out only then, after doors of the next booking; null: by clear',
  }),
  priority: z
    .int()
    .min(0)
    .max(9)
    .default(0)
    .meta({ description: 'Among bookings with the same doors, the higher one has the crew first' }),
  quietNeeded: z
    .boolean()
    .default(false)
    .meta({ description: 'From start to end no noisy work in rooms that it hears' }),
  crewDemands: z
    .array(CrewDemand)
    .max(20)
    .default([])
    .meta({ description: 'Crew that the event itself takes: not free for turns then' }),
  milestones: z
    .array(BookingMilestone)
    .max(10)
    .default([])
    .meta({ description: 'What must be reached before doors, or after clear' }),
  ownHelp: OwnHelp.nullable()
    .default(null)
    .meta({ description: 'Hands of the group itself right after clear; null: none' }),
  riskAccepted: AcceptedRisk.nullable()
    .default(null)
    .meta({ description: 'Taken although it does not fit: at risk; null: it fits' }),
})
export type Booking = z.infer<typeof Booking>

/** Whether it keeps others out of its room. */
export const isBlocking = (booking: Booking): boolean => booking.status !== 'CANCELLED'

/** When the room can be turned: clear, or later where the guests stay on. */
export const leftAt = ({
  clearAt,
  overrunsUntilAt,
}: Pick<Booking, 'clearAt' | 'overrunsUntilAt'>): Instant =>
  overrunsUntilAt === null ? clearAt : laterOf(clearAt, overrunsUntilAt)

/** Until when nobody else can have the room: clear, or the next booking of a link that keeps it as set. */
export const heldUntilAt = ({ clearAt, keptUntilAt }: Pick<Booking, 'clearAt' | 'keptUntilAt'>): Instant =>
  keptUntilAt === null ? clearAt : laterOf(clearAt, keptUntilAt)
