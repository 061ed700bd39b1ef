/** What is asked of a site. Ids of new things come with the operation: the core invents nothing. */
import { z } from 'zod'
import { Booking } from './booking.ts'
import { HalfOpenInterval } from './half-open-interval.ts'
import { BookingId, LinkId, TurnId } from './ids.ts'
import { Instant } from './instant.ts'
import { SetupWriteSchema } from './setup.ts'

const versionExpected = z.int().min(1).nullable()

export const Operation = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('book'), booking: Booking }),
  /** The same for a while: TENTATIVE, with the moment at which it lapses. */
  z.object({ kind: z.literal('hold'), booking: Booking }),
  /** A hold becomes firm, and with it every hold of its link. */
  z.object({ kind: z.literal('confirm'), bookingId: BookingId, versionExpected }),
  /** A hold whose time is over is given up, and with it every booking of its link. */
  z.object({ kind: z.literal('lapse'), bookingId: BookingId }),
  /** The booking as it shall be; its version is one more than the one it was read at. */
  z.object({ kind: z.literal('change'), booking: Booking }),
  /** With every booking of its link. */
  z.object({ kind: z.literal('cancel'), bookingId: BookingId, versionExpected }),
  /** The guests stay longer than planned. It is as it is: taken whatever follows from it. */
  z.object({ kind: z.literal('clear-later'), bookingId: BookingId, clearAt: Instant, versionExpected }),
  /** They stand or fall together from now on; those that were linked otherwise leave that link. */
  z.object({
    kind: z.literal('link'),
    linkId: LinkId,
    bookingIds: z.array(BookingId).min(2).max(20),
    keepAsSet: z.boolean(),
  }),
  /** Each of its bookings is by itself again. */
  z.object({ kind: z.literal('unlink'), linkId: LinkId }),
  /**
   * The set-up changes: a shift, a closure, a room, a policy. It cannot be refused; turns with doors in `span` are
   * judged anew where their plan no longer holds, where what they follow from has changed, or where they fail.
   */
  z.object({
    kind: z.literal('set-up'),
    writes: z.array(SetupWriteSchema),
    span: HalfOpenInterval,
    restFromAt: Instant.nullable().meta({
      description: 'Turns due from here on feel it too and are looked at later; null: there are none',
    }),
  }),
  /** Turns with doors in `span` are looked at again: the hall, or the program, has changed since they were judged. */
  z.object({
    kind: z.literal('judge'),
    span: HalfOpenInterval,
    judgedThroughAt: Instant.nullable().meta({
      description: 'Turns due from here on are still to be looked at; null: there are none',
    }),
  }),
  /** Their plans are gone over with more effort; only a better one takes the place of what stands. */
  z.object({ kind: z.literal('polish'), turnIds: z.array(TurnId).min(1).max(20) }),
])
export type Operation = z.infer<typeof Operation>
