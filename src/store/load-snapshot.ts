/**
 * Everything a decision may look at. What is read does not grow with the past: sections are disjoint in time, so each
 * needs one row before the window, those that start within it, and one row after it.
 */
import { and, eq, gt, inArray, lt, sql } from 'drizzle-orm'
import { type Booking, isBlocking } from '../domain/booking.ts'
import { Closure } from '../domain/closure.ts'
import { type HalfOpenInterval, unionOf } from '../domain/half-open-interval.ts'
import type { SiteId } from '../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'
import { Observation } from '../domain/observation.ts'
import type { SiteSnapshot } from '../domain/snapshot.ts'
import { TURN_LATE_MOST_SECONDS, TURN_LONGEST_SECONDS, type Turn } from '../domain/turn.ts'
import type { Engine } from './engine.ts'
import type { SetupReader, StoredSite } from './read-setup.ts'
import { type RecentRows, recentRows } from './recent-rows.ts'
import { TURN_LONGEST_MILLISECONDS } from './tables.ts'

/** How often it is read again because somebody committed in between. */
const READS_MOST = 3

export type SnapshotLoader = (
  siteId: SiteId,
  window: HalfOpenInterval,
  now: Instant,
) => Promise<SiteSnapshot | null>

export function snapshotLoader(engine: Engine, setups: SetupReader): SnapshotLoader {
  const { bookingsAround, closuresTouching, observationsAround, turnsTouching } = snapshotQueries(engine)
  const recent = recentRows(engine)

  async function closures(siteId: SiteId, spans: readonly HalfOpenInterval[]): Promise<Closure[]> {
    const byId = new Map<string, Closure>()
    for (const span of spans) {
      for (const { document } of await closuresTouching.execute({ siteId, ...span })) {
        const closure = Closure.parse(document)
        byId.set(closure.id, closure)
      }
    }
    return [...byId.values()].sort((a, b) => a.fromAt - b.fromAt || compareIds(a, b))
  }

  async function observations(siteId: SiteId, spans: readonly HalfOpenInterval[]): Promise<Observation[]> {
    const byId = new Map<string, Observation>()
    for (const span of spans) {
      for (const { id, document } of await observationsAround.execute({ siteId, ...span }))
        if (!byId.has(id)) byId.set(id, Observation.parse(document))
    }
    return [...byId.values()].sort((a, b) => a.seenAt - b.seenAt || compareIds(a, b))
  }

  /** Those that hold hands in one of the spans, and those of the bookings. */
  async function turnsOf(
    siteId: SiteId,
    rows: RecentRows,
    spans: readonly HalfOpenInterval[],
    loaded: readonly Booking[],
  ): Promise<Turn[]> {
    const ids = new Set<string>(loaded.map(({ turnId }) => turnId))
    for (const span of spans) {
      const dueBeforeAt = span.toAt + TURN_LONGEST_MILLISECONDS
      for (const { id } of await turnsTouching.execute({ siteId, ...span, dueBeforeAt })) ids.add(id)
    }
    const found = await rows.turns([...ids])
    return found
      .filter((turn) => turn.status !== 'dropped')
      .sort((a, b) => a.dueAt - b.dueAt || compareIds(a, b))
  }

  async function read(
    stored: StoredSite,
    window: HalfOpenInterval,
    now: Instant,
  ): Promise<SiteSnapshot | null> {
    const { setup } = await setups.setup(stored)
    if (!setup) return null
    const siteId = stored.site.id
    const rows = await recent(siteId)
    const ids = new Set((await bookingsAround.execute({ siteId, ...window })).map(({ id }) => id))
    const around = await rows.bookings([...ids])
    const spans = spansWithTurns(window, around)
    const turns = await turnsOf(siteId, rows, spans, around)
    return {
      ...setup,
      now,
      planningVersion: stored.planningVersion,
      window,
      closures: await closures(siteId, spans),
      observations: await observations(siteId, spans),
      bookings: [...around, ...(await predecessorsMissing(rows, around, turns))].sort(byDoors),
      turns,
    }
  }

  return async (siteId, window, now) => {
    let stored = await setups.site(siteId)
    for (let attempt = 1; stored; attempt++) {
      const snapshot = await read(stored, window, now)
      const after = await setups.site(siteId)
      // After the last attempt a mixture is given away under the old version: its commit can only be a Conflict.
      if (after?.planningVersion === stored.planningVersion || attempt === READS_MOST) return snapshot
      stored = after
    }
    return null
  }
}

/**
 * A first booking after the window may have a predecessor that is neither in the window nor first after it: in another
 * of its sections. Its turn names it.
 */
async function predecessorsMissing(
  rows: RecentRows,
  loaded: readonly Booking[],
  turns: readonly Turn[],
): Promise<Booking[]> {
  const known = new Set(loaded.map(({ id }) => id))
  const ownTurns = turns.filter(({ bookingId }) => known.has(bookingId))
  const missing = new Set(
    ownTurns.flatMap((turn) => turn.predecessorBookingIds).filter((id) => !known.has(id)),
  )
  return (await rows.bookings([...missing])).filter(isBlocking)
}

/**
 * The window with the time in which a plan made in it may run late, and the same for each first booking after it: what a
 * request does in the window can change that turn, and other turns hold hands there.
 */
function spansWithTurns(window: HalfOpenInterval, around: readonly Booking[]): HalfOpenInterval[] {
  const lateMost = (at: Instant) => instantPlusSeconds(at, TURN_LATE_MOST_SECONDS)
  const aroundDoors = around
    .filter((booking) => booking.doorsAt >= window.toAt)
    .map(({ doorsAt }) => ({
      fromAt: instantPlusSeconds(doorsAt, -TURN_LONGEST_SECONDS),
      toAt: lateMost(doorsAt),
    }))
  return unionOf([{ fromAt: window.fromAt, toAt: lateMost(window.toAt) }, ...aroundDoors])
}

/** Each finds its rows by an index, bounded at both ends. */
export const snapshotQueries = (engine: Engine) => ({
  bookingsAround: bookingsAroundQuery(engine),
  closuresTouching: closuresTouchingQuery(engine),
  observationsAround: observationsAroundQuery(engine),
  turnsTouching: turnsTouchingQuery(engine),
})

function bookingsAroundQuery({ db, tables: { booking, section, sectionOccupancy: held } }: Engine) {
  const siteId = sql.placeholder('siteId')
  const fromAt = sql.placeholder('fromAt')
  const toAt = sql.placeholder('toAt')
  // The condition of the partial index on blocking rows has to be met literally.
  const ofSection = sql`${held.sectionId} = ${section.id} and ${held.blocking}`
  const bookingIds = sql`(
    select ${held.bookingId} from ${section} join ${held} on ${ofSection}
    where ${section.siteId} = ${siteId} and ${held.fromAt} >= ${fromAt} and ${held.fromAt} < ${toAt}
    union all
    select (select ${held.bookingId} from ${held} where ${ofSection} and ${held.fromAt} < ${fromAt}
      order by ${held.fromAt} desc limit 1) from ${section} where ${section.siteId} = ${siteId}
    union all
    select (select ${held.bookingId} from ${held} where ${ofSection} and ${held.fromAt} >= ${toAt}
      order by ${held.fromAt} limit 1) from ${section} where ${section.siteId} = ${siteId})`
  // By id alone, and put in order by the reader: asked for the site or for an order as well, SQLite walks all bookings.
  return db.select({ id: booking.id }).from(booking).where(inArray(booking.id, bookingIds)).prepare()
}

function closuresTouchingQuery({ db, tables: { closure } }: Engine) {
  return db
    .select({ document: closure.document })
    .from(closure)
    .where(
      and(
        eq(closure.siteId, sql.placeholder('siteId')),
        gt(closure.toAt, sql.placeholder('fromAt')),
        lt(closure.fromAt, sql.placeholder('toAt')),
        sql`${closure.retiredAt} is null`,
      ),
    )
    .prepare()
}

/** The last one of each room before the span, and those within it; of retired rooms too, which may still be standing. */
function observationsAroundQuery({ db, tables: { observation: seen, room } }: Engine) {
  const siteId = sql.placeholder('siteId')
  const fromAt = sql.placeholder('fromAt')
  // The condition of the partial index has to be met literally.
  const ofRoom = sql`${seen.roomId} = ${room.id} and ${seen.retiredAt} is null`
  const observationIds = sql`(
    select ${seen.id} from ${room} join ${seen} on ${ofRoom}
    where ${room.siteId} = ${siteId} and ${seen.seenAt} >= ${fromAt} and ${seen.seenAt} < ${sql.placeholder('toAt')}
    union all
    select (select ${seen.id} from ${seen} where ${ofRoom} and ${seen.seenAt} < ${fromAt}
      order by ${seen.seenAt} desc, ${seen.id} desc limit 1) from ${room} where ${room.siteId} = ${siteId})`
  return db
    .select({ id: seen.id, document: seen.document })
    .from(seen)
    .where(inArray(seen.id, observationIds))
    .prepare()
}

function turnsTouchingQuery(engine: Engine) {
  const { db, tables } = engine
  const { turn } = tables
  return db
    .select({ id: turn.id })
    .from(turn)
    .where(
      and(
        eq(turn.siteId, sql.placeholder('siteId')),
        // The condition of the partial index, met literally.
        sql`${turn.status} <> 'dropped'`,
        gt(turn.dueAt, sql.placeholder('fromAt')),
        lt(turn.dueAt, sql.placeholder('dueBeforeAt')),
        lt(turn.releaseAt, sql.placeholder('toAt')),
      ),
    )
    .prepare()
}

const byDoors = (a: Booking, b: Booking): number => a.doorsAt - b.doorsAt || compareIds(a, b)

const compareIds = (a: { readonly id: string }, b: { readonly id: string }): number => (a.id < b.id ? -1 : 1)
