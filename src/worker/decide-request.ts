/** From a request to its answer: read what the operations speak of, load what they touch, decide. Writes nothing. */
import { type Booking, isBlocking } from '../domain/booking.ts'
import { CREW_AFTER_CLEAR_MOST_SECONDS } from '../domain/booking-terms.ts'
import type { Decision } from '../domain/decision.ts'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import type { BookingId, LinkId, SiteId } from '../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'
import type { Operation } from '../domain/operation.ts'
import type { SiteSnapshot } from '../domain/snapshot.ts'
import { TURN_LONGEST_SECONDS } from '../domain/turn.ts'
import { decide, operationProblems, windowOf, windowWithAlternatives } from '../scheduler/decide/index.ts'
import type { Page, Store } from '../store/store.ts'
import { type DecideAnswer, type DecideRequest, DeciderBusy, type OperationProblem } from './decider.ts'

type Window = (
  operations: readonly Operation[],
  storedBookings: readonly Booking[],
  now: Instant,
  returnHomeAfterSeconds: number | null,
) => HalfOpenInterval

/** The part of the scheduler that is asked. */
export interface Judge {
  readonly windowOf: Window
  readonly windowWithAlternatives: Window
  operationProblems(snapshot: SiteSnapshot, operations: readonly Operation[]): readonly OperationProblem[]
  decide(
    snapshot: SiteSnapshot,
    operations: readonly Operation[],
    options?: { readonly withoutAlternatives?: boolean },
  ): Decision
}

const scheduler: Judge = { windowOf, windowWithAlternatives, operationProblems, decide }

/** How often bookings are read again because the site moved between reading them and loading around them. */
const READS_MOST = 5

/** @throws DeciderBusy when the site does not stand still for long enough to be read */
export async function answerTo(
  store: Store,
  request: DecideRequest,
  judge = scheduler,
): Promise<DecideAnswer> {
  const { siteId, operations, now } = request
  for (let read = 1; read <= READS_MOST; read++) {
    const version = await store.planningVersion(siteId)
    const setup = await store.setup(siteId)
    if (!setup) return { kind: 'no-site' }
    const { returnHomeAfterSeconds } = setup.policy
    const stored = await storedBookings(store, siteId, operations, now)
    const window = judge.windowOf(operations, stored, now, returnHomeAfterSeconds)
    const snapshot = await store.load(siteId, window, now)
    if (!snapshot) return { kind: 'no-site' }
    // The window was drawn around bookings and by a policy as they were at `version`; they may be others by now.
    if (snapshot.planningVersion !== version) continue
    const problems = judge.operationProblems(snapshot, operations)
    if (problems.length > 0) return { kind: 'problems', problems }
    const decision = judge.decide(snapshot, operations, { withoutAlternatives: true })
    if (decision.changes) return { kind: 'decided', decision, planningVersion: version }
    // Only a no has to look further, for what would be a yes.
    const widerWindow = judge.windowWithAlternatives(operations, stored, now, returnHomeAfterSeconds)
    const wider = await store.load(siteId, widerWindow, now)
    if (wider?.planningVersion !== version) continue
    return { kind: 'decided', decision: judge.decide(wider, operations), planningVersion: version }
  }
  throw new DeciderBusy('The site is changing faster than it can be read. Try again in a moment.')
}

/**
 * The bookings that operations speak of, as they stand, each once, with all that stand or fall together with them, and
 * those that are going on when a span begins; those that are not there are left out.
 */
async function storedBookings(
  store: Store,
  siteId: SiteId,
  operations: readonly Operation[],
  now: Instant,
): Promise<Booking[]> {
  const bookings = new Map<BookingId, Booking>()
  for (const operation of operations) {
    for (const booking of await goingOn(store, siteId, operation, now)) bookings.set(booking.id, booking)
    const linkIds = new Set<LinkId>(operation.kind === 'unlink' ? [operation.linkId] : [])
    for (const bookingId of await bookingsNamed(store, siteId, operation)) {
      const booking = await store.booking(siteId, bookingId)
      if (!booking) continue
      bookings.set(booking.id, booking)
      if (booking.linkId !== null) linkIds.add(booking.linkId)
    }
    for (const linkId of linkIds) {
      for (const booking of await store.linkedBookings(siteId, linkId)) bookings.set(booking.id, booking)
    }
  }
  return [...bookings.values()]
}

/** Those that are there already, not one that is new. */
async function bookingsNamed(
  store: Store,
  siteId: SiteId,
  operation: Operation,
): Promise<readonly BookingId[]> {
  switch (operation.kind) {
    case 'change':
      return [operation.booking.id]
    case 'confirm':
    case 'lapse':
    case 'cancel':
    case 'clear-later':
      return [operation.bookingId]
    case 'link':
      return operation.bookingIds
    case 'polish': {
      const turns = await Promise.all(operation.turnIds.map((turnId) => store.turn(siteId, turnId)))
      return turns.flatMap((turn) => (turn ? [turn.bookingId] : []))
    }
    case 'book':
    case 'hold':
    case 'unlink':
    case 'set-up':
    case 'judge':
      return []
    default:
      return operation satisfies never
  }
}

const BOOKINGS_A_PAGE = 200
/** A day has fewer bookings than that. */
const PAGES_MOST = 20

/**
 * Those to come whose guests or crew are there when the span of a change of the hall begins: they are judged whole, so
 * from before their doors on.
 */
async function goingOn(
  store: Store,
  siteId: SiteId,
  operation: Operation,
  now: Instant,
): Promise<readonly Booking[]> {
  if (operation.kind !== 'set-up' && operation.kind !== 'judge') return []
  const { fromAt } = operation.span
  const window = { fromAt: instantPlusSeconds(fromAt, -CREW_AFTER_CLEAR_MOST_SECONDS), toAt: fromAt }
  // Doors that are past for longer are not judged any more.
  const sinceAt = instantPlusSeconds(now, -TURN_LONGEST_SECONDS)
  const bookings: Booking[] = []
  let after: string | null = null
  for (let page = 1; page <= PAGES_MOST; page++) {
    const request = { limit: BOOKINGS_A_PAGE, after }
    const { items, nextAfter }: Page<Booking> = await store.bookings(
      siteId,
      window,
      { roomId: null },
      request,
    )
    bookings.push(...items.filter((booking) => isBlocking(booking) && booking.doorsAt > sinceAt))
    if (nextAfter === null) break
    after = nextAfter
  }
  return bookings
}
