/** Every row of a site in the form in which the audit tells of it. */
import { and, eq } from 'drizzle-orm'
import { Booking } from '../domain/booking.ts'
import type { SiteId } from '../domain/ids.ts'
import { setupKinds } from '../domain/setup.ts'
import { Turn } from '../domain/turn.ts'
import type { Engine } from './engine.ts'
import type { StoredSite } from './read-setup.ts'
import { storedRow, storedRowColumns } from './read-setup-rows.ts'
import { turnColumns } from './read-turns.ts'
import { Judging, recordedSetupRow } from './recorded-rows.ts'
import type { RecordedState } from './store.ts'

const TurnAlone = Turn.omit({ plan: true })

/** @returns tables that have no rows left out; no tables when there is no such site */
export async function recordedState(
  engine: Engine,
  siteId: SiteId,
  stored: StoredSite | null,
): Promise<RecordedState> {
  const state = new Map<string, Map<string, unknown>>()
  if (!stored) return state
  const put = (table: string, id: string, row: unknown) => {
    const rows = state.get(table) ?? new Map<string, unknown>()
    state.set(table, rows.set(id, row))
  }
  const { db, tables } = engine

  put('site', siteId, { ...stored.site, planningVersion: stored.planningVersion })
  for (const kind of setupKinds) {
    const table = tables[kind]
    for (const found of await db
      .select(storedRowColumns(engine, kind))
      .from(table)
      .where(eq(table.siteId, siteId))) {
      const { row, version, retiredAt } = storedRow(kind, found)
      put(kind, row.id, recordedSetupRow(row, version, retiredAt))
    }
  }
  for (const row of await db.select().from(tables.booking).where(eq(tables.booking.siteId, siteId))) {
    put('booking', row.id, Booking.parse(row))
  }
  const turns = await db
    .select(turnColumns(engine))
    .from(tables.turn)
    .leftJoin(tables.plan, eq(tables.plan.turnId, tables.turn.id))
    .where(and(eq(tables.turn.siteId, siteId)))
  for (const { turn, planHash } of turns) put('turn', turn.id, { ...TurnAlone.parse(turn), planHash })
  for (const row of await db.select().from(tables.judging).where(eq(tables.judging.siteId, siteId)))
    put('judging', siteId, Judging.parse(row))
  return state
}
