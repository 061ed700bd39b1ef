/** The booking that a path names, as it stands. */
import { z } from 'zod'
import type { Booking } from '../../domain/booking.ts'
import { BookingId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Site } from '../../domain/site.ts'
import { dayAndTimeOf } from '../../scheduler/timeline/wall-time.ts'
import type { ApiContext } from '../context.ts'
import { refuseStale } from '../if-match.ts'
import { Problem, unknownResource } from '../problems.ts'
import { SiteParams } from '../route-schemas.ts'

export const BookingParams = SiteParams.extend({ id: z.string() })

/** @throws Problem unknown-resource */
export async function bookingFor({ store }: ApiContext, site: Site, id: string): Promise<Booking> {
  const bookingId = BookingId.safeParse(id)
  const booking = bookingId.success ? await store.booking(site.id, bookingId.data) : null
  if (!booking) throw unknownResource('booking', id)
  return booking
}

/**
 * One that is not cancelled, at a version that If-Match names, where there is one.
 * @throws Problem unknown-resource, version-mismatch, hold-is-over, already-cancelled
 */
export async function standingBooking(
  context: ApiContext,
  site: Site,
  id: string,
  ifMatch: string | undefined,
): Promise<Booking> {
  const booking = await bookingFor(context, site, id)
  const isCancelled = booking.status === 'CANCELLED'
  // First: that the version has moved on tells less than why.
  if (isCancelled && booking.holdExpiresAt !== null)
    throw new Problem('hold-is-over', overSentence(booking, booking.holdExpiresAt, context.clock(), site))
  if (ifMatch !== undefined) refuseStale(ifMatch, booking, 'booking')
  if (isCancelled) throw new Problem('already-cancelled', `${booking.title} is cancelled already.`)
  return booking
}

/** Only a hold that lapsed is cancelled and has an end. It may have lapsed with another one of its link. */
function overSentence({ title }: Booking, holdExpiresAt: Instant, now: Instant, { zone }: Site): string {
  const why =
    holdExpiresAt <= now
      ? `The hold of ${title} ended ${dayAndTimeOf(holdExpiresAt, zone)} without being confirmed`
      : `${title} was given up with a booking of its link whose hold ended without being confirmed`
  return `${why}: others may have the room by now. Ask for the booking anew.`
}
