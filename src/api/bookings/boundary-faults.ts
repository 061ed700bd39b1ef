/** Doors ≤ start < end ≤ clear, within the years that are planned in, and not longer than a booking may be. */
import { BOOKING_LONGEST_SECONDS, type Booking } from '../../domain/booking.ts'
import { Instant, secondsBetween } from '../../domain/instant.ts'
import { bodyFault, type Fault } from '../problems.ts'

export type Boundaries = Pick<Booking, 'doorsAt' | 'startsAt' | 'endsAt' | 'clearAt'>

export function boundaryFaults({ doorsAt, startsAt, endsAt, clearAt }: Boundaries): Fault[] {
  const faults: Fault[] = []
  if (doorsAt > startsAt) faults.push(bodyFault('/doorsAt', 'doors must be at or before the start'))
  if (endsAt <= startsAt) faults.push(bodyFault('/endsAt', 'the end must be after the start'))
  if (clearAt < endsAt) faults.push(bodyFault('/clearAt', 'clear must be at or after the end'))
  if (secondsBetween(doorsAt, clearAt) > BOOKING_LONGEST_SECONDS) {
    const days = BOOKING_LONGEST_SECONDS / 86_400
    faults.push(bodyFault('/clearAt', `from doors to clear it may last ${days} days; make several bookings`))
  }
  for (const [name, moment] of Object.entries({ doorsAt, clearAt })) {
    if (!Instant.safeParse(moment).success)
      faults.push(bodyFault(`/${name}`, 'outside the years 2000 to 2099'))
  }
  return faults
}
