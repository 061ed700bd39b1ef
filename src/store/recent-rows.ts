/**
 * Bookings and turns that were read lately, kept until the change log says that they have changed. Decisions look at the
 * same few days again and again; what did not change is not read, mapped and parsed again.
 */
import { and, asc, eq, gt, sql } from 'drizzle-orm'
import { Booking } from '../domain/booking.ts'
import type { SiteId } from '../domain/ids.ts'
import type { Turn } from '../domain/turn.ts'
import { deepFreeze } from './deep-freeze.ts'
import type { Engine } from './engine.ts'
import { turnColumns, turnOfRow } from './read-turns.ts'

/** More than this, and everything is forgotten: some thousand rows of a few kilobytes each, and ids that have no row. */
const ROWS_KEPT_MOST = 6_000
/** What changed is looked up so many entries at a time; whoever is further behind starts anew. */
const ENTRIES_MOST = 500

export interface RecentRows {
  /** Those that there are, in no order; rows are frozen and shared. */
  bookings(ids: readonly string[]): Promise<Booking[]>
  turns(ids: readonly string[]): Promise<Turn[]>
}

interface Kept {
  /** The last entry of the change log that was looked at. */
  sequence: number
  /** null: there is no such row. When it comes, the change log says so. */
  readonly bookings: Map<string, Booking | null>
  readonly turns: Map<string, Turn | null>
}

/** @returns a reader for one site, up to date with the change log at the moment it is asked for */
export function recentRows(engine: Engine): (siteId: SiteId) => Promise<RecentRows> {
  const { db, tables } = engine
  const { booking, changeLog, plan, turn } = tables
  const keptBySite = new Map<SiteId, Kept>()
  const entriesAfter = db
    .select({ sequence: changeLog.sequence, id: changeLog.resourceId })
    .from(changeLog)
    .where(
      and(
        eq(changeLog.siteId, sql.placeholder('siteId')),
        gt(changeLog.sequence, sql.placeholder('sequence')),
      ),
    )
    .orderBy(asc(changeLog.sequence))
    .limit(ENTRIES_MOST)
    .prepare()
  const lastSequence = db
    .select({ sequence: sql<number>`coalesce(max(${changeLog.sequence}), 0)` })
    .from(changeLog)
    .where(eq(changeLog.siteId, sql.placeholder('siteId')))
    .prepare()

  async function startedAnew(siteId: SiteId): Promise<Kept> {
    const [last] = await lastSequence.execute({ siteId })
    const kept = { sequence: last?.sequence ?? 0, bookings: new Map(), turns: new Map() }
    keptBySite.set(siteId, kept)
    return kept
  }

  async function upToDate(siteId: SiteId): Promise<Kept> {
    const kept = keptBySite.get(siteId)
    if (!kept || kept.bookings.size + kept.turns.size > ROWS_KEPT_MOST) return startedAnew(siteId)
    const entries = await entriesAfter.execute({ siteId, sequence: kept.sequence })
    if (entries.length === ENTRIES_MOST) return startedAnew(siteId)
    for (const { sequence, id } of entries) {
      kept.bookings.delete(id)
      kept.turns.delete(id)
      kept.sequence = sequence
    }
    return kept
  }

  // One by one: these statements are compiled once, and few rows have changed since the last time.
  const bookingById = db
    .select()
    .from(booking)
    .where(eq(booking.id, sql.placeholder('id')))
    .prepare()
  const turnById = db
    .select({ ...turnColumns(engine), document: plan.document })
    .from(turn)
    .leftJoin(plan, eq(plan.turnId, turn.id))
    .where(eq(turn.id, sql.placeholder('id')))
    .prepare()

  return async (siteId) => {
    // A row that changes after this is read as it is then; its entry comes later, and removes it from here.
    const kept = await upToDate(siteId)
    return {
      bookings: (ids) =>
        throughKept(kept.bookings, ids, async (id) => {
          const [row] = await bookingById.execute({ id })
          return row ? deepFreeze(Booking.parse(row)) : null
        }),
      turns: (ids) =>
        throughKept(kept.turns, ids, async (id) => {
          const [row] = await turnById.execute({ id })
          return row ? turnOfRow(row.turn, row.document) : null
        }),
    }
  }
}

async function throughKept<Row extends { readonly id: string }>(
  kept: Map<string, Row | null>,
  ids: readonly string[],
  read: (id: string) => Promise<Row | null>,
): Promise<Row[]> {
  const rows: Row[] = []
  for (const id of ids) {
    const known = kept.get(id)
    const row = known === undefined ? await read(id) : known
    kept.set(id, row)
    if (row) rows.push(row)
  }
  return rows
}
