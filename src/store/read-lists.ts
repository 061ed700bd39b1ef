/** The lists and single rows that the API shows. */
import { and, asc, desc, eq, gt, inArray, isNull, lt, ne, or, sql } from 'drizzle-orm'
import { z } from 'zod'
import { Booking } from '../domain/booking.ts'
import { Closure } from '../domain/closure.ts'
import { ActorId, SiteId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import { PersonDetails } from '../domain/person.ts'
import { Site } from '../domain/site.ts'
import type { Engine } from './engine.ts'
import { IdAlone, InstantThenId, keyAfter, NameThenId, pageOf, SequenceAlone } from './page.ts'
import { readSetupRow, storedRow, storedRowColumns } from './read-setup-rows.ts'
import { type TurnReader, turnColumns } from './read-turns.ts'
import type { AuditEntry, IdempotentAnswer, Store } from './store.ts'
import { BOOKING_LONGEST_MILLISECONDS, TURN_LONGEST_MILLISECONDS } from './tables.ts'

export const StoredAuditEntry: z.ZodType<AuditEntry> = z.object({
  sequence: z.int(),
  siteId: SiteId,
  at: Instant,
  actorId: ActorId,
  action: z.string(),
  reason: z.string().nullable(),
  planningVersion: z.int(),
  effects: z.array(z.object({ table: z.string(), id: z.string(), before: z.unknown(), after: z.unknown() })),
  previousHash: z.string().nullable(),
  hash: z.string(),
})

export const StoredAnswer: z.ZodType<IdempotentAnswer> = z.object({
  actorId: ActorId,
  route: z.string(),
  key: z.string(),
  bodyHash: z.string(),
  status: z.int(),
  headers: z.record(z.string(), z.string()),
  body: z.string(),
})

type Lists = Pick<
  Store,
  | 'answerFor'
  | 'sites'
  | 'setupRows'
  | 'setupRow'
  | 'comingBookings'
  | 'personDetails'
  | 'bookings'
  | 'booking'
  | 'turns'
  | 'turn'
  | 'failingTurns'
  | 'lastTurnDueAt'
  | 'audit'
  | 'closures'
>

export function readLists(engine: Engine, turns: TurnReader): Lists {
  const { db, tables: t } = engine
  const bookingById = db
    .select()
    .from(t.booking)
    .where(eq(t.booking.id, sql.placeholder('id')))
    .prepare()
  const turnRows = () =>
    db.select(turnColumns(engine)).from(t.turn).leftJoin(t.plan, eq(t.plan.turnId, t.turn.id))

  return {
    async answerFor(actorId, route, key) {
      const { idempotency: kept } = t
      const isThis = and(eq(kept.actorId, actorId), eq(kept.route, route), eq(kept.key, key))
      const [row] = await db.select().from(kept).where(isThis)
      return row ? StoredAnswer.parse(row) : null
    },

    async sites(page) {
      const after = keyAfter(NameThenId, page)
      const rows = await db
        .select()
        .from(t.site)
        .where(after ? sql`(${t.site.name}, ${t.site.id}) > (${after[0]}, ${after[1]})` : undefined)
        .orderBy(asc(t.site.name), asc(t.site.id))
        .limit(page.limit + 1)
      return pageOf(
        rows.map((row) => Site.parse(row)),
        page,
        ({ name, id }) => [name, id],
      )
    },

    async setupRows(siteId, kind, { retired }, page) {
      const after = keyAfter(IdAlone, page)
      const table = t[kind]
      const rows = await db
        .select(storedRowColumns(engine, kind))
        .from(table)
        .where(
          and(
            eq(table.siteId, siteId),
            retired ? undefined : isNull(table.retiredAt),
            after ? gt(table.id, after[0]) : undefined,
          ),
        )
        .orderBy(asc(table.id))
        .limit(page.limit + 1)
      return pageOf(
        rows.map((row) => storedRow(kind, row)),
        page,
        ({ row }) => [row.id],
      )
    },

    setupRow: (siteId, kind, id) => readSetupRow(engine, siteId, kind, id),

    async comingBookings(siteId, fromAt, { roomIds, layoutIds }, most) {
      const { booking } = t
      const rows = await db
        .select()
        .from(booking)
        .where(
          and(
            eq(booking.siteId, siteId),
            // No booking is longer: without this bound the whole past would be walked.
            gt(booking.doorsAt, sql`${fromAt - BOOKING_LONGEST_MILLISECONDS}`),
            gt(booking.clearAt, fromAt),
            ne(booking.status, 'CANCELLED'),
            or(inArray(booking.roomId, roomIds), inArray(booking.layoutId, layoutIds)),
          ),
        )
        .orderBy(asc(booking.doorsAt), asc(booking.id))
        .limit(most)
      return rows.map((row) => Booking.parse(row))
    },

    async personDetails(siteId) {
      const rows = await db
        .select()
        .from(t.personDetails)
        .where(eq(t.personDetails.siteId, siteId))
        .orderBy(asc(t.personDetails.personId))
      return rows.map((row) => PersonDetails.parse(row))
    },

    async bookings(siteId, window, { roomId }, page) {
      const { booking } = t
      const after = keyAfter(InstantThenId, page)
      const rows = await db
        .select()
        .from(booking)
        .where(
          and(
            eq(booking.siteId, siteId),
            roomId === null ? undefined : eq(booking.roomId, roomId),
            // No booking is longer: without this bound the whole past would be walked.
            gt(booking.doorsAt, sql`${window.fromAt - BOOKING_LONGEST_MILLISECONDS}`),
            lt(booking.doorsAt, window.toAt),
            gt(booking.clearAt, window.fromAt),
            after ? sql`(${booking.doorsAt}, ${booking.id}) > (${after[0]}, ${after[1]})` : undefined,
          ),
        )
        .orderBy(asc(booking.doorsAt), asc(booking.id))
        .limit(page.limit + 1)
      return pageOf(
        rows.map((row) => Booking.parse(row)),
        page,
        ({ doorsAt, id }) => [doorsAt, id],
      )
    },

    async booking(siteId, bookingId) {
      const [row] = await bookingById.execute({ id: bookingId })
      return row && row.siteId === siteId ? Booking.parse(row) : null
    },

    async turns(siteId, window, page) {
      const { turn } = t
      const after = keyAfter(InstantThenId, page)
      const rows = await turnRows()
        .where(
          and(
            eq(turn.siteId, siteId),
            sql`${turn.status} <> 'dropped'`,
            gt(turn.dueAt, window.fromAt),
            lt(turn.dueAt, sql`${window.toAt + TURN_LONGEST_MILLISECONDS}`),
            lt(turn.releaseAt, window.toAt),
            after ? sql`(${turn.dueAt}, ${turn.id}) > (${after[0]}, ${after[1]})` : undefined,
          ),
        )
        .orderBy(asc(turn.dueAt), asc(turn.id))
        .limit(page.limit + 1)
      return pageOf(await turns.withPlans(rows), page, ({ dueAt, id }) => [dueAt, id])
    },

    async turn(siteId, turnId) {
      const turn = await turns.byId(turnId)
      return turn?.siteId === siteId ? turn : null
    },

    async failingTurns(siteId, fromAt, page) {
      const { turn } = t
      const after = keyAfter(InstantThenId, page)
      const rows = await turnRows()
        .where(
          and(
            eq(turn.siteId, siteId),
            sql`${turn.status} = 'failing'`,
            gt(turn.dueAt, fromAt),
            after ? sql`(${turn.dueAt}, ${turn.id}) > (${after[0]}, ${after[1]})` : undefined,
          ),
        )
        .orderBy(asc(turn.dueAt), asc(turn.id))
        .limit(page.limit + 1)
      return pageOf(await turns.withPlans(rows), page, ({ dueAt, id }) => [dueAt, id])
    },

    async lastTurnDueAt(siteId, fromAt, most) {
      const { turn } = t
      const next = db
        .select({ dueAt: turn.dueAt })
        .from(turn)
        .where(and(eq(turn.siteId, siteId), sql`${turn.status} <> 'dropped'`, gt(turn.dueAt, fromAt)))
        .orderBy(asc(turn.dueAt))
        .limit(most)
        .as('next')
      const [row] = await db.select({ dueAt: next.dueAt }).from(next).orderBy(desc(next.dueAt)).limit(1)
      return row ? Instant.parse(row.dueAt) : null
    },

    async audit(siteId, page) {
      const { audit } = t
      const after = keyAfter(SequenceAlone, page)
      const rows = await db
        .select()
        .from(audit)
        .where(and(eq(audit.siteId, siteId), after ? gt(audit.sequence, after[0]) : undefined))
        .orderBy(asc(audit.sequence))
        .limit(page.limit + 1)
      return pageOf(
        rows.map((row) => StoredAuditEntry.parse(row)),
        page,
        ({ sequence }) => [sequence],
      )
    },

    async closures(siteId, { fromAt, toAt }) {
      const { closure } = t
      const rows = await db
        .select({ document: closure.document })
        .from(closure)
        .where(
          and(
            eq(closure.siteId, siteId),
            gt(closure.toAt, fromAt),
            lt(closure.fromAt, toAt),
            isNull(closure.retiredAt),
          ),
        )
        .orderBy(asc(closure.fromAt), asc(closure.id))
      return rows.map((row) => Closure.parse(row.document))
    },
  }
}
