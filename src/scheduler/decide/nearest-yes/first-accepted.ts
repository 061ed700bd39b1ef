/** Of several bookings that could be asked for instead, the first that is accepted. */
import type { Booking } from '../../../domain/booking.ts'
import { speaksAgainst } from '../../../domain/reason.ts'
import { bookingReasons } from '../checks/index.ts'
import { operationProblems } from '../operations/operation-problems.ts'
import { answered } from './answer-to.ts'
import type { AskedFor } from './asked-for.ts'

/** Those that something speaks against by themselves are passed over at no cost. */
const TRIALS_MOST = 3

export interface Accepted {
  readonly booking: Booking
  readonly verdict: 'fits' | 'tight'
}

/** @param bookings  at the time that was asked for, best first */
export function firstAccepted(
  { snapshot, world, instead }: AskedFor,
  bookings: readonly Booking[],
): Accepted | null {
  let trials = 0
  for (const booking of bookings) {
    const operation = instead(booking)
    if (bookingReasons(world, booking).some(speaksAgainst)) continue
    if (operationProblems(snapshot, [operation]).length > 0) continue
    if (trials === TRIALS_MOST) return null
    trials += 1
    const { verdict } = answered(snapshot, [operation])
    if (verdict !== 'does-not-fit') return { booking, verdict }
  }
  return null
}
