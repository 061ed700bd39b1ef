/** A hold ends in the future, and not after doors: who has come in has come to a booking that stands. */
import type { Booking } from '../../domain/booking.ts'
import { HOLD_LONGEST_SECONDS } from '../../domain/booking-terms.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import { bodyFault, type Fault } from '../problems.ts'

/** @param isNew  false: it ends when it was to end before, and only doors may have moved */
export function holdFaults(
  { holdExpiresAt, doorsAt }: Pick<Booking, 'holdExpiresAt' | 'doorsAt'>,
  now: Instant,
  isNew: boolean,
): Fault[] {
  if (holdExpiresAt === null) return []
  const fault = (message: string) => [bodyFault('/hold/expiresAt', message)]
  if (isNew && holdExpiresAt <= now) return fault('must lie in the future')
  if (isNew && holdExpiresAt > instantPlusSeconds(now, HOLD_LONGEST_SECONDS))
    return fault(`a hold may last ${HOLD_LONGEST_SECONDS / 86_400} days from now`)
  if (holdExpiresAt <= doorsAt) return []
  return fault(
    isNew ? 'must be at or before doors' : 'the hold would end after doors; name another end for it as well',
  )
}
