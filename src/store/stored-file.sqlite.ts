/** A look over one SQLite file: read-only, in one transaction, also while the service writes to it. */
import { and, asc, between, count, eq, getTableColumns, getTableName, gt, type SQL, sql } from 'drizzle-orm'
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core'
import { z } from 'zod'
import type { SiteId } from '../domain/ids.ts'
import { sqliteEngine } from './engine.sqlite.ts'
import type { Engine } from './engine.ts'
import { snapshotLoader } from './load-snapshot.ts'
import { setupReader } from './read-setup.ts'
import { recordedState } from './recorded-state.ts'
import { JsonText, type StoredFile } from './stored-file.ts'

/** @throws DatabaseUnusable when it cannot be read or is of another version of the program; the message says what to do */
export function openStoredFile(file: string): StoredFile {
  const engine = sqliteEngine({ file, readOnly: true })
  // What is read first settles the moment.
  engine.db.run(sql.raw('BEGIN'))
  const setups = setupReader(engine)
  return {
    ...fileReads(engine),
    ...rowReads(engine),
    ...bookingReads(engine),
    ...logReads(engine),
    load: (siteId, window, now) => snapshotLoader(engine, setups)(siteId, window, now),
    recordedState: async (siteId) => recordedState(engine, siteId, await setups.site(siteId)),
    close: engine.close,
  }
}

/** Every column as the program reads it, but JSON unread. */
const columnsAsText = (table: SQLiteTable): Record<string, SQLiteColumn | SQL> =>
  Object.fromEntries(
    Object.entries(getTableColumns(table)).map(([name, column]) => [
      name,
      column.dataType === 'json' ? sql`${column}`.mapWith((text) => new JsonText(String(text))) : column,
    ]),
  )

const Damage = z.array(z.object({ integrity_check: z.string() }))
const Dangling = z.array(z.object({ table: z.string(), rowNumber: z.int().nullable(), parent: z.string() }))
const Overlaps = z.array(
  z.object({ sectionId: z.string(), bookingId: z.string(), otherBookingId: z.string() }),
)

function fileReads({ db, tables: { idempotency: kept } }: Engine) {
  const number = sql<number>`rowid`
  return {
    damage: (most) =>
      Damage.parse(db.all(sql.raw(`PRAGMA integrity_check(${most})`)))
        .map((row) => row.integrity_check)
        .filter((said) => said !== 'ok'),
    dangling: (most) =>
      Dangling.parse(
        db.all(
          sql`select "table", rowid as "rowNumber", parent from pragma_foreign_key_check() limit ${most}`,
        ),
      ),
    answers: (afterNumber, most) =>
      db
        .select({ number, ...columnsAsText(kept) })
        .from(kept)
        .where(gt(number, afterNumber))
        .orderBy(asc(number))
        .limit(most)
        .all(),
  } satisfies Partial<StoredFile>
}

function rowReads({ db, tables: t }: Engine) {
  return {
    counts() {
      const rowsOf = (table: SQLiteTable) => db.select({ rows: count() }).from(table).get()?.rows ?? 0
      return {
        sites: rowsOf(t.site),
        bookings: rowsOf(t.booking),
        turns: rowsOf(t.turn),
        audit: rowsOf(t.audit),
      }
    },
    siteIds: () =>
      db
        .select({ id: t.site.id })
        .from(t.site)
        .orderBy(asc(t.site.id))
        .all()
        .map(({ id }) => id),
    site: (siteId) =>
      db.select(columnsAsText(t.site)).from(t.site).where(eq(t.site.id, siteId)).get() ?? null,
    rows(name, siteId, afterId, most) {
      const table = t[name]
      const isNext = and(eq(table.siteId, siteId), gt(table.id, afterId))
      return db
        .select(columnsAsText(table))
        .from(table)
        .where(isNext)
        .orderBy(asc(table.id))
        .limit(most)
        .all()
    },
    roomSections: (siteId) =>
      db
        .select({ roomId: t.roomSection.roomId, sectionId: t.roomSection.sectionId })
        .from(t.roomSection)
        .where(eq(t.roomSection.siteId, siteId))
        .orderBy(asc(t.roomSection.roomId), asc(t.roomSection.sectionId))
        .all(),
    personDetails: (siteId) =>
      db
        .select(columnsAsText(t.personDetails))
        .from(t.personDetails)
        .where(eq(t.personDetails.siteId, siteId))
        .orderBy(asc(t.personDetails.personId))
        .all(),
  } satisfies Partial<StoredFile>
}

function bookingReads({ db, tables: { booking, plan, section, sectionOccupancy: held, turn } }: Engine) {
  return {
    plans: (siteId, afterTurnId, most) =>
      db
        .select({ turnId: plan.turnId, hash: plan.hash, document: sql<string>`${plan.document}` })
        .from(plan)
        .innerJoin(turn, eq(turn.id, plan.turnId))
        .where(and(eq(turn.siteId, siteId), gt(plan.turnId, afterTurnId)))
        .orderBy(asc(plan.turnId))
        .limit(most)
        .all(),
    occupancy: (siteId, firstBookingId, lastBookingId) =>
      db
        .select(getTableColumns(held))
        .from(held)
        .innerJoin(booking, eq(booking.id, held.bookingId))
        .where(and(eq(booking.siteId, siteId), between(held.bookingId, firstBookingId, lastBookingId)))
        .orderBy(asc(held.bookingId), asc(held.sectionId))
        .all(),
    overlaps: (siteId, most) =>
      Overlaps.parse(
        db.all(sql`
          select held.section_id as "sectionId", held.booking_id as "bookingId",
            (select other.booking_id from ${held} other where other.section_id = held.section_id and other.blocking
              and other.booking_id <> held.booking_id and other.from_at < held.to_at and other.to_at > held.from_at
              order by other.from_at, other.booking_id limit 1) as "otherBookingId"
          from (select section_id, booking_id, from_at, to_at, max(to_at) over (partition by section_id
              order by from_at, booking_id rows between unbounded preceding and 1 preceding) as earlier_until
            from ${held} where blocking and section_id in (select id from ${section} where site_id = ${siteId})) held
          where held.from_at < held.earlier_until
          order by held.section_id, held.from_at, held.booking_id limit ${most}`),
      ),
  } satisfies Partial<StoredFile>
}

function logReads({ db, tables: { audit, changeLog } }: Engine) {
  const isNext = (table: typeof audit | typeof changeLog, siteId: SiteId, afterSequence: number) =>
    and(eq(table.siteId, siteId), gt(table.sequence, afterSequence))
  return {
    audit: (siteId, afterSequence, most) =>
      db
        .select(columnsAsText(audit))
        .from(audit)
        .where(isNext(audit, siteId, afterSequence))
        .orderBy(asc(audit.sequence))
        .limit(most)
        .all(),
    auditChain: (afterSequence, most) =>
      db
        .select({ ...getTableColumns(audit), effects: sql<string>`${audit.effects}` })
        .from(audit)
        .where(gt(audit.sequence, afterSequence))
        .orderBy(asc(audit.sequence))
        .limit(most)
        .all(),
    auditNumberHighest: () =>
      db.get<{ highest: number }>(
        sql`select coalesce(max(seq), 0) as highest from sqlite_sequence where name = ${getTableName(audit)}`,
      ).highest,
    changeLog: (siteId, afterSequence, most) =>
      db
        .select({
          sequence: changeLog.sequence,
          auditSequence: changeLog.auditSequence,
          at: changeLog.at,
          resourceKind: changeLog.resourceKind,
          resourceId: changeLog.resourceId,
        })
        .from(changeLog)
        .where(isNext(changeLog, siteId, afterSequence))
        .orderBy(asc(changeLog.sequence))
        .limit(most)
        .all(),
  } satisfies Partial<StoredFile>
}
