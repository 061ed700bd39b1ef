/**
 * The warnings of a site in their order: how soon first, then how bad. Doors within three days come before those within
 * seven, and those before the rest; within each, what fails before what is at risk, that before what rests on assumed
 * hands, that before what is stale; then by doors, then id (at risk: of the booking, else of the turn).
 */
import { z } from 'zod'
import { EARLIEST_AT, Instant, instantPlusSeconds, LATEST_AT, laterOf } from '../../domain/instant.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { keyAfter } from '../../store/page.ts'
import { type Page, PageKeyUnknown, type PageRequest, type Store } from '../../store/store.ts'
import { bookingsNamed } from '../bookings/bookings-named.ts'
import { type Suspect, type SuspectSource, suspects } from './suspects.ts'
import {
  ASSUMED_WARNED_SECONDS,
  kindOf,
  reasonsTold,
  type Warning,
  WarningKind,
  warningOf,
} from './warning.ts'

/** So many are looked at for one page at most: it then ends early, and the next one goes on from there. */
const SUSPECTS_MOST = 1_000
/** Doors within each of these come before later ones. */
const SOON_SECONDS = [72 * 3600, ASSUMED_WARNED_SECONDS]

export interface Warnings extends Page<Warning> {
  /** Turns due from here on are yet to be looked at again; null: all are. */
  readonly judgedThroughAt: Instant | null
  readonly staleCount: number
}

/** Nothing is solved for it, and nothing written. @throws PageKeyUnknown */
export async function warningPage(
  store: Store,
  setup: SiteSetup,
  now: Instant,
  page: PageRequest,
): Promise<Warnings> {
  const siteId = setup.site.id
  const judgedThroughAt = await store.judgedThroughAt(siteId)
  const staleFromAt = judgedThroughAt === null ? null : laterOf(judgedThroughAt, now)
  const staleCount = staleFromAt === null ? 0 : await store.countTurnsDueFrom(siteId, staleFromAt)
  const source = { store, siteId, staleFromAt, suspectsMost: SUSPECTS_MOST }
  const seen = lastSeen(page, now)
  const asOf = seen?.asOf ?? now
  const untilAt = instantPlusSeconds(asOf, ASSUMED_WARNED_SECONDS)
  const items: Warning[] = []
  let last: Place | null = seen
  let lookedAt = 0
  const answer = (end: Place | null) => ({
    items,
    nextAfter: end && JSON.stringify([end.asOf, end.stretch, end.doorsAt, end.id]),
    judgedThroughAt,
    staleCount,
  })
  for await (const { place, kind, read } of inOrder(source, asOf, seen)) {
    const trouble = await read()
    if (trouble && kindOf(trouble, untilAt) === kind) {
      if (items.length === page.limit) return answer(last)
      const named = await bookingsNamed(store, siteId, reasonsTold(kind, trouble))
      items.push(warningOf(kind, trouble, { setup, named }, now))
      last = place
    }
    lookedAt += 1
    if (lookedAt === SUSPECTS_MOST) return answer(place)
  }
  return answer(null)
}

/** Where in the list something stands. */
interface Place {
  /** When the first page was asked for: how soon doors are is counted from there, on every page. */
  readonly asOf: Instant
  readonly stretch: number
  readonly doorsAt: Instant
  readonly id: string
}

const PlaceText = z.tuple([Instant, z.int().min(0), Instant, z.string()])

function lastSeen(page: PageRequest, now: Instant): Place | null {
  const parts = keyAfter(PlaceText, page)
  if (parts === null) return null
  const [asOf, stretch, doorsAt, id] = parts
  if (asOf > now) throw new PageKeyUnknown('The list was not asked for by then')
  return { asOf, stretch, doorsAt, id }
}

/** One after the other they are the list: each holds one kind, with doors in one span. */
function stretchesAsOf(asOf: Instant) {
  const ends = SOON_SECONDS.map((seconds) => instantPlusSeconds(asOf, seconds))
  const starts = [Instant.parse(EARLIEST_AT), ...ends]
  return starts.flatMap((fromAt, index) =>
    WarningKind.options.map((kind) => ({ kind, fromAt, toAt: ends[index] ?? Instant.parse(LATEST_AT) })),
  )
}

interface Placed extends Pick<Suspect, 'read'> {
  readonly place: Place
  readonly kind: WarningKind
}

async function* inOrder(source: SuspectSource, asOf: Instant, seen: Place | null): AsyncGenerator<Placed> {
  for (const [index, { kind, fromAt, toAt }] of stretchesAsOf(asOf).entries()) {
    if (seen && index < seen.stretch) continue
    const after = seen?.stretch === index ? seen : null
    const readFromAt = [asOf, fromAt, after?.doorsAt ?? asOf].reduce(laterOf)
    for await (const { doorsAt, id, read } of suspects(source, kind, readFromAt)) {
      if (doorsAt >= toAt) break
      const isSeen =
        after !== null && (doorsAt < after.doorsAt || (doorsAt === after.doorsAt && id <= after.id))
      if (doorsAt < fromAt || isSeen) continue
      yield { kind, read, place: { asOf, stretch: index, doorsAt, id } }
    }
  }
}
