/** What is asked of a site. Ids of new things come with the operation: the core invents nothing. */
import { z } from 'zod'
import { Booking } from './booking.ts'
import { HalfOpenInterval } from './half-open-interval.ts'
import { BookingId } from './ids.ts'
import { SetupWriteSchema } from './setup.ts'

export const Operation = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('book'), booking: Booking }),
  /** The booking as it shall be; its version is one more than the one it was read at. */
  z.object({ kind: z.literal('change'), booking: Booking }),
  z.object({ kind: z.literal('cancel'), bookingId: BookingId, versionExpected: z.int().min(1).nullable() }),
  /**
   * The set-up changes: a shift, a closure, a room, a policy. It cannot be refused; turns with doors in `span` are
   * judged anew where their plan no longer holds, where what they follow from has changed, or where they fail. No writes:
   * the program itself has changed.
   */
  z.object({ kind: z.literal('set-up'), writes: z.array(SetupWriteSchema), span: HalfOpenInterval }),
])
export type Operation = z.infer<typeof Operation>
