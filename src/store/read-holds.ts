/** Holds whose time is over or comes next, and the bookings that stand or fall with another one. */
import { and, asc, eq, gt, lte, sql } from 'drizzle-orm'
import { z } from 'zod'
import { Booking } from '../domain/booking.ts'
import { BookingId, SiteId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import type { Engine } from './engine.ts'
import type { HoldExpired, Store } from './store.ts'

const StoredHold: z.ZodType<HoldExpired> = z.object({
  siteId: SiteId,
  bookingId: BookingId,
  holdExpiresAt: Instant,
})

export function holdReader(
  engine: Engine,
): Pick<Store, 'holdsExpired' | 'linkedBookings' | 'nextHoldExpiry'> {
  const { expired, linked, nextExpiry } = holdQueries(engine)
  return {
    async holdsExpired(now, most) {
      const rows = await expired.execute({ now, most })
      return rows.map((row) => StoredHold.parse(row))
    },
    async nextHoldExpiry(now) {
      const [row] = await nextExpiry.execute({ now })
      return row ? Instant.parse(row.holdExpiresAt) : null
    },
    async linkedBookings(siteId, linkId) {
      const rows = await linked.execute({ siteId, linkId })
      return rows.map((row) => Booking.parse(row))
    },
  }
}

/** Each finds its rows by an index whose condition is met literally. */
export function holdQueries({ db, tables: { booking } }: Engine) {
  const now = sql.placeholder('now')
  const isHold = sql`${booking.status} = 'TENTATIVE'`
  return {
    expired: db
      .select({ siteId: booking.siteId, bookingId: booking.id, holdExpiresAt: booking.holdExpiresAt })
      .from(booking)
      .where(and(isHold, lte(booking.holdExpiresAt, now)))
      .orderBy(asc(booking.holdExpiresAt), asc(booking.id))
      .limit(sql.placeholder('most'))
      .prepare(),
    nextExpiry: db
      .select({ holdExpiresAt: booking.holdExpiresAt })
      .from(booking)
      .where(and(isHold, gt(booking.holdExpiresAt, now)))
      .orderBy(asc(booking.holdExpiresAt))
      .limit(1)
      .prepare(),
    linked: db
      .select()
      .from(booking)
      .where(
        and(
          eq(booking.siteId, sql.placeholder('siteId')),
          eq(booking.linkId, sql.placeholder('linkId')),
          sql`${booking.status} <> 'CANCELLED'`,
        ),
      )
      .orderBy(asc(booking.doorsAt), asc(booking.id))
      .prepare(),
  }
}
