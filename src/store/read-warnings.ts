/** What a coordinator is warned of: turns that may not come right, and bookings that were taken at somebody's risk. */
import { and, asc, eq, gt, sql } from 'drizzle-orm'
import { Booking } from '../domain/booking.ts'
import type { Engine } from './engine.ts'
import { InstantThenId, keyAfter, pageOf } from './page.ts'
import { type TurnReader, turnColumns } from './read-turns.ts'
import type { PageRequest, Store } from './store.ts'
import { BOOKING_LONGEST_MILLISECONDS } from './tables.ts'

export function warningReader(
  engine: Engine,
  turns: TurnReader,
): Pick<Store, 'bookingsAtRisk' | 'warnedTurns'> {
  const { atRisk, warned } = warningQueries(engine)
  return {
    async warnedTurns(siteId, fromAt, page) {
      const rows = await warned.execute({ siteId, ...pageStart(page, fromAt) })
      return pageOf(await turns.withPlans(rows), page, ({ dueAt, id }) => [dueAt, id])
    },
    async bookingsAtRisk(siteId, fromAt, page) {
      // No booking is longer: without that bound the whole past would be walked.
      const start = pageStart(page, fromAt - BOOKING_LONGEST_MILLISECONDS)
      const rows = await atRisk.execute({ siteId, fromAt, ...start })
      return pageOf(
        rows.map((row) => Booking.parse(row)),
        page,
        ({ doorsAt, id }) => [doorsAt, id],
      )
    },
  }
}

/** The key that the page comes after, never one before `earliestAt`; no id comes before the empty one. */
function pageStart(page: PageRequest, earliestAt: number) {
  const after = keyAfter(InstantThenId, page)
  const [afterAt, afterId] = after && after[0] >= earliestAt ? after : [earliestAt, '']
  return { afterAt, afterId, most: page.limit + 1 }
}

/** Each finds its rows by an index whose condition is met literally, in the order of the index. */
export function warningQueries(engine: Engine) {
  const { db, tables } = engine
  const { booking, plan, turn } = tables
  const siteId = sql.placeholder('siteId')
  const afterKey = sql`(${sql.placeholder('afterAt')}, ${sql.placeholder('afterId')})`
  return {
    warned: db
      .select(turnColumns(engine))
      .from(turn)
      .leftJoin(plan, eq(plan.turnId, turn.id))
      .where(
        and(
          eq(turn.siteId, siteId),
          sql`${turn.warnedSince} is not null and ${turn.status} <> 'dropped'`,
          sql`(${turn.dueAt}, ${turn.id}) > ${afterKey}`,
        ),
      )
      .orderBy(asc(turn.dueAt), asc(turn.id))
      .limit(sql.placeholder('most'))
      .prepare(),
    atRisk: db
      .select()
      .from(booking)
      .where(
        and(
          eq(booking.siteId, siteId),
          sql`${booking.riskAccepted} is not null and ${booking.status} <> 'CANCELLED'`,
          sql`(${booking.doorsAt}, ${booking.id}) > ${afterKey}`,
          gt(booking.clearAt, sql.placeholder('fromAt')),
        ),
      )
      .orderBy(asc(booking.doorsAt), asc(booking.id))
      .limit(sql.placeholder('most'))
      .prepare(),
  }
}
