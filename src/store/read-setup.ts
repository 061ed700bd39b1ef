/** The set-up of a site, parsed once for each version of it. */
import { and, asc, eq, isNull, sql } from 'drizzle-orm'
import type { RoomId, SectionId, SiteId } from '../domain/ids.ts'
import type { Policy } from '../domain/policy.ts'
import type { Room } from '../domain/room.ts'
import { type SetupKind, type SetupRows, setupSchemas } from '../domain/setup.ts'
import { Site } from '../domain/site.ts'
import type { SiteSetup } from '../domain/snapshot.ts'
import { deepFreeze } from './deep-freeze.ts'
import type { Engine } from './engine.ts'
import { storedRow, storedRowColumns } from './read-setup-rows.ts'

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

interface Rows<Row> {
  readonly inForce: readonly Row[]
  readonly retired: readonly Row[]
}

/** By id. */
async function rowsOf<Kind extends SetupKind>(
  engine: Engine,
  siteId: SiteId,
  kind: Kind,
): Promise<Rows<SetupRows[Kind]>> {
  const table = engine.tables[kind]
  const found = await engine.db
    .select(storedRowColumns(engine, kind))
    .from(table)
    .where(eq(table.siteId, siteId))
    .orderBy(asc(table.id))
  const rows = found.map((row) => storedRow(kind, row))
  return {
    inForce: rows.filter(({ retiredAt }) => retiredAt === null).map(({ row }) => row),
    retired: rows.filter(({ retiredAt }) => retiredAt !== null).map(({ row }) => row),
  }
}

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

async function readSetup(engine: Engine, stored: StoredSite): Promise<StoredSetup> {
  const siteId = stored.site.id
  const rooms = await rowsOf(engine, siteId, 'room')
  const [policy] = await rowsInForce(engine, siteId, 'policy')
  return {
    setupVersion: stored.setupVersion,
    setup: policy ? deepFreeze(await siteSetup(engine, stored.site, policy, rooms)) : null,
    sectionIdsByRoom: new Map(
      [...rooms.inForce, ...rooms.retired].map(({ id, sectionIds }) => [id, sectionIds]),
    ),
  }
}

async function siteSetup(engine: Engine, site: Site, policy: Policy, rooms: Rows<Room>): Promise<SiteSetup> {
  const siteId = site.id
  const sections = await rowsOf(engine, siteId, 'section')
  const storagePlaces = await rowsOf(engine, siteId, 'storagePlace')
  const furnishings = await rowsOf(engine, siteId, 'furnishing')
  const equipment = await rowsOf(engine, siteId, 'equipment')
  const layouts = await rowsOf(engine, siteId, 'layout')
  const shifts = await rowsOf(engine, siteId, 'shift')
  const [rateSet] = await rowsInForce(engine, siteId, 'rateSet')
  return {
    site,
    sections: sections.inForce,
    exits: await rowsInForce(engine, siteId, 'exit'),
    passages: await rowsInForce(engine, siteId, 'passage'),
    rooms: rooms.inForce,
    storagePlaces: storagePlaces.inForce,
    furnishings: furnishings.inForce,
    tools: await rowsInForce(engine, siteId, 'tool'),
    equipment: equipment.inForce,
    layouts: layouts.inForce,
    people: await rowsInForce(engine, siteId, 'person'),
    shifts: shifts.inForce,
    stockChanges: await rowsInForce(engine, siteId, 'stockChange'),
    rateSet: rateSet ?? null,
    policy,
    retired: {
      sections: sections.retired,
      rooms: rooms.retired,
      storagePlaces: storagePlaces.retired,
      furnishings: furnishings.retired,
      equipment: equipment.retired,
      layouts: layouts.retired,
      shifts: shifts.retired,
    },
  }
}
