/** Where the list of warnings finds what may belong in it, by kind: each source in order of doors, then id, read bit by bit. */
import type { BookingId } from '../../domain/ids.ts'
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { Turn } from '../../domain/turn.ts'
import type { Page, PageRequest, Store } from '../../store/store.ts'
import type { InTrouble, WarningKind } from './warning.ts'

/** What may be in trouble. */
export interface Suspect {
  readonly doorsAt: Instant
  readonly id: string
  /** null: it has gone meanwhile. */
  readonly read: () => Promise<InTrouble | null>
}

export interface SuspectSource {
  readonly store: Store
  readonly siteId: Turn['siteId']
  /** Turns due from here on are stale; null: none is. */
  readonly staleFromAt: Instant | null
  /** So many are asked for by one request at most. */
  readonly suspectsMost: number
}

const ROWS_A_READ = 100

/** @param fromAt  doors then or later; what is at risk and has doors open already is there too, until it is clear */
export function suspects(source: SuspectSource, kind: WarningKind, fromAt: Instant): AsyncGenerator<Suspect> {
  const { store, siteId } = source
  switch (kind) {
    case 'failing':
      return turnsOf(source, (page) => store.failingTurns(siteId, (fromAt - 1) as Instant, page))
    case 'at-risk':
      return bookingsAtRisk(source, fromAt)
    case 'assumed':
      return turnsOf(source, (page) => store.warnedTurns(siteId, fromAt, page))
    case 'stale':
      return staleTurns(source, fromAt)
    default:
      return kind satisfies never
  }
}

async function* turnsOf(
  source: SuspectSource,
  read: (page: PageRequest) => Promise<Page<Turn>>,
): AsyncGenerator<Suspect> {
  for await (const turn of rowByRow(read)) {
    yield { doorsAt: turn.dueAt, id: turn.id, read: () => troubleOf(source, turn, turn.bookingId) }
  }
}

async function* bookingsAtRisk(source: SuspectSource, fromAt: Instant): AsyncGenerator<Suspect> {
  const { store, siteId } = source
  for await (const { doorsAt, id, turnId } of rowByRow((page) => store.bookingsAtRisk(siteId, fromAt, page)))
    yield { doorsAt, id, read: async () => troubleOf(source, await store.turn(siteId, turnId), id) }
}

async function* staleTurns(source: SuspectSource, fromAt: Instant): AsyncGenerator<Suspect> {
  const { store, siteId, staleFromAt, suspectsMost } = source
  if (staleFromAt === null) return
  // Some may be due at the moment at which the page before ended, and are passed over.
  const most = suspectsMost + ROWS_A_READ
  for (const { id, dueAt, bookingId } of await store.turnsDueFrom(siteId, laterOf(fromAt, staleFromAt), most))
    yield { doorsAt: dueAt, id, read: async () => troubleOf(source, await store.turn(siteId, id), bookingId) }
}

async function troubleOf(
  { store, siteId, staleFromAt }: SuspectSource,
  turn: Turn | null,
  bookingId: BookingId,
): Promise<InTrouble | null> {
  const booking = turn && (await store.booking(siteId, bookingId))
  if (!turn || !booking) return null
  return { turn, booking, isStale: staleFromAt !== null && turn.dueAt >= staleFromAt }
}

async function* rowByRow<Row>(read: (page: PageRequest) => Promise<Page<Row>>): AsyncGenerator<Row> {
  let after: string | null = null
  do {
    const page: Page<Row> = await read({ limit: ROWS_A_READ, after })
    yield* page.items
    after = page.nextAfter
  } while (after !== null)
}
