/** From what was found to the decision: the only place where verdicts branch. */

import type { Alternative } from '../../domain/alternative.ts'
import { type Booking, heldUntilAt } from '../../domain/booking.ts'
import type { AnsweredReason, Changes, Decision } from '../../domain/decision.ts'
import type { BookingId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import { type Reason, speaksAgainst } from '../../domain/reason.ts'
import type { SiteSetup, SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn, TurnBrief } from '../../domain/turn.ts'
import { canBeRefused } from './operations/can-be-refused.ts'
import { windowOf } from './operations/window-of.ts'
import type { WorldAfter } from './operations/world-after.ts'
import { type FirmHarmed, isOverridable, NO_FIRM_HARMED } from './overridable.ts'
import { reasonMessage } from './reason-message.ts'
import type { RiskTaken } from './risk-taken.ts'
import type { JudgedTurns } from './turns/judge-turns.ts'

export interface Decided {
  readonly after: WorldAfter
  readonly judged: JudgedTurns
  readonly risk: RiskTaken
  readonly changes: Changes
}

export function decisionFrom(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  { after, judged, risk, changes }: Decided,
  alternatives: () => Alternative[],
): Decision {
  const { setup } = after.world
  const bookings = bookingsKnown(operations, after, judged)
  const reasons = risk.reasons.map((reason) => answeredReason(reason, setup, bookings, risk.harmed))
  const answer = { reasons, ...turnsInBrief(snapshot, after, judged, changes) }
  if (!risk.reasons.some(speaksAgainst)) {
    return { ...answer, verdict: reasons.length === 0 ? 'fits' : 'tight', alternatives: [], changes }
  }
  const isRefused = !risk.isTaken && canBeRefused(operations)
  return isRefused
    ? { ...answer, verdict: 'does-not-fit', alternatives: alternatives(), changes: null }
    : { ...answer, verdict: 'does-not-fit', alternatives: [], changes }
}

/** Of others that hands are at work for, what is asked may be decided without knowing: those are named nowhere. */
function bookingsKnown(
  operations: readonly Operation[],
  { world, bookings }: WorldAfter,
  { turns }: JudgedTurns,
): Booking[] {
  const stored = bookings.flatMap(({ before }) => before ?? [])
  const window = windowOf(operations, stored, world.now)
  const spokenOf = new Set(turns.map(({ input }) => input.booking.id))
  return world.bookings.filter(
    (booking) =>
      spokenOf.has(booking.id) || (booking.doorsAt < window.toAt && heldUntilAt(booking) > window.fromAt),
  )
}

/**
 * With its sentence, and whether a coordinator may decide otherwise.
 * @param bookings  those that the sentence may name
 * @param harmed    whom it would break; default: nobody is known to be
 */
export function answeredReason(
  reason: Reason,
  setup: SiteSetup,
  bookings: readonly Booking[] = [],
  harmed: FirmHarmed = NO_FIRM_HARMED,
): AnsweredReason {
  const message = reasonMessage(reason, setup, bookings)
  return { ...reason, message, overridable: isOverridable(reason, setup.policy, harmed) }
}

function turnsInBrief(snapshot: SiteSnapshot, after: WorldAfter, judged: JudgedTurns, changes: Changes) {
  const subject = after.bookings[0]?.after
  const turns = judged.turns.map((turn) => turn.after)
  // Where nothing is judged anew the one that is due first, whatever order they come in.
  const stored = snapshot.turns
    .filter(({ status }) => status !== 'dropped')
    .sort((a, b) => a.dueAt - b.dueAt || (a.id < b.id ? -1 : 1))
  const known = (wanted: (turn: Turn) => boolean) => turns.find(wanted) ?? stored.find(wanted) ?? null
  const follows = (id: BookingId) => (turn: Turn) => turn.predecessorBookingIds.includes(id)
  const before =
    subject && subject.status !== 'CANCELLED' ? known((turn) => turn.id === subject.turnId) : null
  const next =
    judged.turns.find((turn) => turn.side === 'after')?.after ?? (subject ? known(follows(subject.id)) : null)
  return {
    before: before && turnBrief(before),
    after: next && turnBrief(next),
    // Those that stand as they stood are left out.
    affected: changes.turns
      .map((change) => change.after)
      .filter((turn) => turn.status !== 'dropped' && turn.id !== before?.id && turn.id !== next?.id)
      .map((turn) => ({ turnId: turn.id, bookingId: turn.bookingId, verdict: turn.judgement.verdict })),
  }
}

export function turnBrief(turn: Turn): TurnBrief {
  const {
    reasons: _reasons,
    judgedAt: _judgedAt,
    policyId: _policyId,
    rateSetId: _rateSetId,
    warnedSince: _warnedSince,
    polishedAt: _polishedAt,
    waysOut: _waysOut,
    ...numbers
  } = turn.judgement
  return {
    turnId: turn.id,
    bookingId: turn.bookingId,
    roomId: turn.roomId,
    fromLayoutIds: turn.fromLayoutIds,
    toLayoutId: turn.toLayoutId,
    releaseAt: turn.releaseAt,
    dueAt: turn.dueAt,
    ...numbers,
    readyChance: null,
  }
}
