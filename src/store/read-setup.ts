/** The set-up of a site, parsed once for each version of it. */
import { and, asc, eq, isNull, sql } from 'drizzle-orm'
import type { RoomId, SectionId, SiteId } from '../domain/ids.ts'
import { Room } from '../domain/room.ts'
import { Site } from '../domain/site.ts'
import type { SiteSetup } from '../domain/snapshot.ts'
import { deepFreeze } from './deep-freeze.ts'
import type { Engine } from './engine.ts'
import { setupSchemas } from './setup-schemas.ts'
import type { SetupKind, SetupRows } from './store.ts'

export interface StoredSite {
  readonly site: Site
  readonly planningVersion: number
  readonly setupVersion: number
}

export interface StoredSetup {
  readonly setupVersion: number
  /** null while there is no policy. */
  readonly setup: SiteSetup | null
  /** Of retired rooms too: bookings may still stand there. */
  readonly sectionIdsByRoom: ReadonlyMap<RoomId, readonly SectionId[]>
}

export interface SetupReader {
  /** @returns null when there is no such site */
  site(siteId: SiteId): Promise<StoredSite | null>
  /** The set-up at this version or a later one; shared and frozen. */
  setup(stored: StoredSite): Promise<StoredSetup>
}

/** Sites whose set-up is kept; the one not asked for longest goes first. */
const SITES_KEPT_MOST = 50

export function setupReader(engine: Engine): SetupReader {
  const kept = new Map<SiteId, StoredSetup>()
  const { db, tables } = engine
  const siteById = db
    .select()
    .from(tables.site)
    .where(eq(tables.site.id, sql.placeholder('id')))
    .prepare()

  return {
    async site(siteId) {
      const [row] = await siteById.execute({ id: siteId })
      if (!row) return null
      return { site: Site.parse(row), planningVersion: row.planningVersion, setupVersion: row.setupVersion }
    },
    async setup(stored) {
      const siteId = stored.site.id
      const before = kept.get(siteId)
      const current = before?.setupVersion === stored.setupVersion ? before : await readSetup(engine, stored)
      kept.delete(siteId)
      kept.set(siteId, current)
      const oldest = kept.keys().next()
      if (kept.size > SITES_KEPT_MOST && !oldest.done) kept.delete(oldest.value)
      return current
    },
  }
}

/** Rows that are not retired, by id. */
async function rowsInForce<Kind extends SetupKind>(
  { db, tables }: Engine,
  siteId: SiteId,
  kind: Kind,
): Promise<SetupRows[Kind][]> {
  const table = tables[kind]
  const rows = await db
    .select({ document: table.document })
    .from(table)
    .where(and(eq(table.siteId, siteId), isNull(table.retiredAt)))
    .orderBy(asc(table.id))
  return rows.map((row) => setupSchemas[kind].parse(row.document))
}

async function sectionIdsByRoom(
  { db, tables: { room } }: Engine,
  siteId: SiteId,
): Promise<Map<RoomId, SectionId[]>> {
  const rows = await db.select({ document: room.document }).from(room).where(eq(room.siteId, siteId))
  return new Map(rows.map((row) => Room.parse(row.document)).map(({ id, sectionIds }) => [id, sectionIds]))
}

async function readSetup(engine: Engine, stored: StoredSite): Promise<StoredSetup> {
  const siteId = stored.site.id
  const [policy] = await rowsInForce(engine, siteId, 'policy')
  const setup = policy && {
    site: stored.site,
    sections: await rowsInForce(engine, siteId, 'section'),
    rooms: await rowsInForce(engine, siteId, 'room'),
    layouts: await rowsInForce(engine, siteId, 'layout'),
    furnishings: await rowsInForce(engine, siteId, 'furnishing'),
    storagePlaces: await rowsInForce(engine, siteId, 'storagePlace'),
    equipment: await rowsInForce(engine, siteId, 'equipment'),
    people: await rowsInForce(engine, siteId, 'person'),
    shifts: await rowsInForce(engine, siteId, 'shift'),
    policy,
  }
  return {
    setupVersion: stored.setupVersion,
    setup: setup ? deepFreeze(setup) : null,
    sectionIdsByRoom: await sectionIdsByRoom(engine, siteId),
  }
}
