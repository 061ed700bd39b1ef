/** What is asked of a site. Ids of new things come with the operation: the core invents nothing. */
import { z } from 'zod'
import { Booking } from './booking.ts'
import { Closure } from './closure.ts'
import { BookingId } from './ids.ts'
import { Shift } from './shift.ts'

export const Operation = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('book'), booking: Booking }),
  /** The booking as it shall be; its version is one more than the one it was read at. */
  z.object({ kind: z.literal('change'), booking: Booking }),
  z.object({ kind: z.literal('cancel'), bookingId: BookingId, versionExpected: z.int().min(1).nullable() }),
  z.object({ kind: z.literal('close'), closure: Closure }),
  z.object({ kind: z.literal('add-shift'), shift: Shift }),
])
export type Operation = z.infer<typeof Operation>
