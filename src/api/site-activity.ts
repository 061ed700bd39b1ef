/** All that goes on at a site within a span of time, for a timeline or a page. */
import type { Booking } from '../domain/booking.ts'
import type { Closure } from '../domain/closure.ts'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import type { SiteId } from '../domain/ids.ts'
import type { Turn } from '../domain/turn.ts'
import type { Store } from '../store/store.ts'
import { rowsUpTo } from './list-pages.ts'

/** So many bookings are shown at most: 30 rooms with five a day for two months come to fewer. */
const ROWS_MOST = 10_000

export async function siteActivity(
  store: Store,
  siteId: SiteId,
  window: HalfOpenInterval,
): Promise<{ bookings: Booking[]; turns: Turn[]; closures: readonly Closure[] }> {
  const [bookings, turns, closures] = await Promise.all([
    rowsUpTo(ROWS_MOST, (page) => store.bookings(siteId, window, { roomId: null }, page)),
    rowsUpTo(ROWS_MOST, (page) => store.turns(siteId, window, page)),
    store.closures(siteId, window),
  ])
  return { bookings, turns, closures }
}
