/**
 * Whose promise would be broken by what is asked: other bookings that are firm, at no risk, and whose turn was ready and
 * would not be any more. At risk nothing is taken from them.
 */
import type { Operation } from '../../domain/operation.ts'
import { canBeRefused } from './operations/can-be-refused.ts'
import type { WorldAfter } from './operations/world-after.ts'
import { type FirmHarmed, NO_FIRM_HARMED } from './overridable.ts'
import type { JudgedTurns } from './turns/judge-turns.ts'

/** What cannot be refused breaks whatever it breaks: that is warned of, and nobody's choice. */
export function firmHarmed(
  { bookings }: WorldAfter,
  { turns }: JudgedTurns,
  operations: readonly Operation[],
): FirmHarmed {
  if (!canBeRefused(operations)) return NO_FIRM_HARMED
  const asked = new Set(bookings.map((change) => change.after.id))
  const harmed = turns.filter(
    ({ input: { booking, purpose }, before, after }) =>
      purpose === 'prepare' &&
      !asked.has(booking.id) &&
      booking.status === 'CONFIRMED' &&
      booking.riskAccepted === null &&
      before?.status === 'ready' &&
      after.status === 'failing',
  )
  return {
    bookingIds: new Set(harmed.map(({ input }) => input.booking.id)),
    turnIds: new Set(harmed.map(({ after }) => after.id)),
  }
}
