/**
 * Everything a decision may look at. What is read does not grow with the past: sections are disjoint in time, so each
 * needs one row before the window, those that start within it, and one row after it.
 */
import { type Booking, isBlocking } from '../domain/booking.ts'
import { Closure } from '../domain/closure.ts'
import { type HalfOpenInterval, unionOf } from '../domain/half-open-interval.ts'
import { homeTurnId } from '../domain/home-turn-id.ts'
import type { SiteId } from '../domain/ids.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../domain/instant.ts'
import { Observation } from '../domain/observation.ts'
import type { SiteSetup, SiteSnapshot } from '../domain/snapshot.ts'
import { TURN_LATE_MOST_SECONDS, TURN_LONGEST_SECONDS, type Turn } from '../domain/turn.ts'
import type { Engine } from './engine.ts'
import { lastInSectionQuery, sectionsAskedBeyond } from './last-beyond.ts'
import type { SetupReader, StoredSite } from './read-setup.ts'
import { type RecentRows, recentRows } from './recent-rows.ts'
import { Judging } from './recorded-rows.ts'
import { snapshotQueries } from './snapshot-queries.ts'
import { TURN_LONGEST_MILLISECONDS } from './tables.ts'

/** How often it is read again because somebody committed in between. */
const READS_MOST = 3

export type SnapshotLoader = (
  siteId: SiteId,
  window: HalfOpenInterval,
  now: Instant,
) => Promise<SiteSnapshot | null>

export function snapshotLoader(engine: Engine, setups: SetupReader): SnapshotLoader {
  const { bookingsAround, closuresTouching, observationsAround, turnsTouching, turnsHolding, judgedThrough } =
    snapshotQueries(engine)
  const lastInSection = lastInSectionQuery(engine)
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

  /** Those that hold hands in one of the spans, before they are due or after, and those of the bookings, home turns too. */
  async function turnsOf(
    siteId: SiteId,
    rows: RecentRows,
    spans: readonly HalfOpenInterval[],
    loaded: readonly Booking[],
  ): Promise<Turn[]> {
    const ids = new Set<string>(loaded.flatMap(({ turnId }) => [turnId, homeTurnId(turnId)]))
    for (const span of spans) {
      const dueBeforeAt = span.toAt + TURN_LONGEST_MILLISECONDS
      for (const { id } of await turnsTouching.execute({ siteId, ...span, dueBeforeAt })) ids.add(id)
      for (const { id } of await turnsHolding.execute({ siteId, ...span })) ids.add(id)
    }
    const found = await rows.turns([...ids])
    return (
      found
        // A room that is not put back any more may be put back again: the row is there already.
        .filter((turn) => turn.status !== 'dropped' || turn.purpose === 'return-home')
        .sort((a, b) => a.dueAt - b.dueAt || compareIds(a, b))
    )
  }

  async function lastBeyond(
    rows: RecentRows,
    setup: SiteSetup,
    window: HalfOpenInterval,
    around: readonly Booking[],
    missing: readonly Booking[],
  ): Promise<Booking[]> {
    const ids = new Set<string>()
    for (const asked of sectionsAskedBeyond(setup, window, around)) {
      for (const { id } of await lastInSection.execute(asked)) ids.add(id)
    }
    for (const { id } of [...around, ...missing]) ids.delete(id)
    return ids.size === 0 ? [] : await rows.bookings([...ids])
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
    const missing = await predecessorsMissing(rows, around, turns)
    const [judging] = await judgedThrough.execute({ siteId })
    return {
      ...setup,
      now,
      planningVersion: stored.planningVersion,
      window,
      closures: await closures(siteId, spans),
      observations: await observations(siteId, spans),
      bookings: [...around, ...missing, ...(await lastBeyond(rows, setup, window, around, missing))].sort(
        byDoors,
      ),
      turns,
      judgedThroughAt: judging ? Judging.parse(judging).judgedThroughAt : null,
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
 * The window with the time in which a plan made in it may run late, and the same for each booking in it and first after
 * it, until a day after clear: what a request does in the window can change that turn, other turns hold hands there, and
 * what closes while its guests are in speaks against it.
 */
function spansWithTurns(window: HalfOpenInterval, around: readonly Booking[]): HalfOpenInterval[] {
  const lateMost = (at: Instant) => instantPlusSeconds(at, TURN_LATE_MOST_SECONDS)
  const aroundThem = around
    .filter((booking) => booking.doorsAt >= window.fromAt)
    .map(({ doorsAt, clearAt }) => ({
      fromAt: laterOf(window.fromAt, instantPlusSeconds(doorsAt, -TURN_LONGEST_SECONDS)),
      toAt: lateMost(clearAt),
    }))
  return unionOf([{ fromAt: window.fromAt, toAt: lateMost(window.toAt) }, ...aroundThem])
}

const byDoors = (a: Booking, b: Booking): number => a.doorsAt - b.doorsAt || compareIds(a, b)

const compareIds = (a: { readonly id: string }, b: { readonly id: string }): number => (a.id < b.id ? -1 : 1)
