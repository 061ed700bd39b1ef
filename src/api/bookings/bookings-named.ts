/** The bookings that stored reasons speak of beside their own, so that a sentence can say their titles. */
import type { Booking } from '../../domain/booking.ts'
import type { BookingId, SiteId } from '../../domain/ids.ts'
import type { Reason } from '../../domain/reason.ts'
import type { Store } from '../../store/store.ts'

/** Of each reason so many are looked up at most: sentences name two, and how many more there are. */
const NAMED_MOST = 20

export async function bookingsNamed(
  store: Pick<Store, 'booking'>,
  siteId: SiteId,
  reasons: readonly Reason[],
): Promise<Booking[]> {
  const ids = [...new Set(reasons.flatMap((reason) => idsIn(reason).slice(0, NAMED_MOST)))]
  const found = await Promise.all(ids.map((id) => store.booking(siteId, id)))
  return found.flatMap((one) => one ?? [])
}

const idsIn = (reason: Reason): BookingId[] => [
  ...('bookingId' in reason && reason.bookingId !== null ? [reason.bookingId] : []),
  ...('forBookingId' in reason ? [reason.forBookingId] : []),
  ...('heldFor' in reason ? reason.heldFor : []),
  ...('heldBack' in reason ? reason.heldBack.flatMap(({ bookingId }) => bookingId ?? []) : []),
  ...('noise' in reason && reason.noise ? [reason.noise.bookingId] : []),
]
