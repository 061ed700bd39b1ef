/** From a request to its answer: read what the operations speak of, load what they touch, decide. Writes nothing. */
import type { Booking } from '../domain/booking.ts'
import type { Decision } from '../domain/decision.ts'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import type { SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Operation } from '../domain/operation.ts'
import type { SiteSnapshot } from '../domain/snapshot.ts'
import { decide, operationProblems, windowOf, windowWithAlternatives } from '../scheduler/decide/index.ts'
import type { Store } from '../store/store.ts'
import { type DecideAnswer, type DecideRequest, DeciderBusy, type OperationProblem } from './decider.ts'

type Window = (
  operations: readonly Operation[],
  storedBookings: readonly Booking[],
  now: Instant,
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
    const stored = await storedBookings(store, siteId, operations)
    const snapshot = await store.load(siteId, judge.windowOf(operations, stored, now), now)
    if (!snapshot) return { kind: 'no-site' }
    // The window was drawn around bookings as they were at `version`; they may be elsewhere by now.
    if (snapshot.planningVersion !== version) continue
    const problems = judge.operationProblems(snapshot, operations)
    if (problems.length > 0) return { kind: 'problems', problems }
    const decision = judge.decide(snapshot, operations, { withoutAlternatives: true })
    if (decision.changes) return { kind: 'decided', decision, planningVersion: version }
    // Only a no has to look further, for what would be a yes.
    const wider = await store.load(siteId, judge.windowWithAlternatives(operations, stored, now), now)
    if (wider?.planningVersion !== version) continue
    return { kind: 'decided', decision: judge.decide(wider, operations), planningVersion: version }
  }
  throw new DeciderBusy('The site is changing faster than it can be read. Try again in a moment.')
}

/** The bookings that a change or a cancellation speaks of, as they stand; those that are not there are left out. */
async function storedBookings(
  store: Store,
  siteId: SiteId,
  operations: readonly Operation[],
): Promise<Booking[]> {
  const bookings: Booking[] = []
  for (const operation of operations) {
    if (operation.kind !== 'change' && operation.kind !== 'cancel') continue
    const bookingId = operation.kind === 'change' ? operation.booking.id : operation.bookingId
    const booking = await store.booking(siteId, bookingId)
    if (booking) bookings.push(booking)
  }
  return bookings
}
