/** Times and bookings as a sentence says them. */
import type { Booking } from '../../domain/booking.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
import { counted } from '../wording/counted.ts'
import type { SetupReading } from './setup-reading.ts'
import type { Lasting } from './shortage.ts'

/** `until Sat 28 Nov 09:00`, `from Fri 27 Nov 09:00 until further notice`; what has begun says no beginning. */
export function whenText({ fromAt, toAt }: Lasting, { now, setup }: SetupReading): string {
  const { zone } = setup.site
  const from = fromAt <= now ? '' : `from ${dayAndTimeOf(fromAt, zone)} `
  if (toAt === null) return `${from}until further notice`
  return `${from}${from === '' ? 'until' : 'to'} ${dayAndTimeOf(toAt, zone)}`
}

/** `“Harvest supper” (doors Sat 28 Nov 17:00) and 2 more bookings`; at least one is given. */
export function bookingsText(bookings: readonly Booking[], { setup }: SetupReading): string {
  const [first, ...others] = bookings
  if (!first) return ''
  const named = `“${first.title}” (doors ${dayAndTimeOf(first.doorsAt, setup.site.zone)})`
  if (others.length === 0) return named
  return `${named} and ${counted(others.length, 'more booking')}`
}
