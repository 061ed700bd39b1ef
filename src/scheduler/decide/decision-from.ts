/** From what was found to the decision: the only place where verdicts branch. */
import type { Booking } from '../../domain/booking.ts'
import type { Alternative, AnsweredReason, Changes, Decision } from '../../domain/decision.ts'
import type { BookingId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import { type Reason, reasonCodes } from '../../domain/reason.ts'
import type { SiteSetup, SiteSnapshot } from '../../domain/snapshot.ts'
import { type Turn, type TurnBrief, Verdict } from '../../domain/turn.ts'
import type { JudgedTurns } from './judge-turns.ts'
import type { JudgedTurn } from './judged-turn.ts'
import { isOverridable } from './overridable.ts'
import { reasonMessage } from './reason-message.ts'
import type { WorldAfter } from './world-after.ts'

export function decisionFrom(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  after: WorldAfter,
  judged: JudgedTurns,
  changes: Changes,
  alternatives: () => Alternative[],
): Decision {
  const reasons = inOrderOfPrecedence([
    ...judged.bookingReasons,
    ...judged.turns.flatMap((turn) => {
      // What was failing already and still is speaks against nobody who asks now; the watch list has it.
      const wasFailing = turn.before?.status === 'failing' && turn.side !== 'before'
      // Nor does what a change of the hall leaves as it was.
      const isNoWorse = turn.side === null && !isWorse(turn)
      return wasFailing || isNoWorse ? [] : turn.reasons
    }),
  ]).map((reason) => answeredReason(reason, after.world.setup, after.world.bookings))
  const speaksAgainst = reasons.some((reason) => reason.code !== 'slack-under-policy')
  const answer = { reasons, ...turnsInBrief(snapshot, after, judged, changes) }
  if (!speaksAgainst) {
    return { ...answer, verdict: reasons.length === 0 ? 'fits' : 'tight', alternatives: [], changes }
  }
  const canBeRefused = operations.some(
    (operation) => operation.kind === 'book' || operation.kind === 'change',
  )
  return canBeRefused
    ? { ...answer, verdict: 'does-not-fit', alternatives: alternatives(), changes: null }
    : { ...answer, verdict: 'does-not-fit', alternatives: [], changes }
}

/**
 * With its sentence, and whether a coordinator may decide otherwise.
 * @param bookings  those that the sentence may name; a stored reason speaks of no other booking than its own
 */
export function answeredReason(
  reason: Reason,
  setup: SiteSetup,
  bookings: readonly Booking[] = [],
): AnsweredReason {
  const message = reasonMessage(reason, setup, bookings)
  return { ...reason, message, overridable: isOverridable(reason.code) }
}

const isWorse = ({ before, after }: JudgedTurn): boolean => before === null || rankOf(after) > rankOf(before)

const rankOf = ({ judgement }: Turn): number => Verdict.options.indexOf(judgement.verdict)

function inOrderOfPrecedence(reasons: readonly Reason[]): Reason[] {
  return [...reasons].sort((a, b) => reasonCodes.indexOf(a.code) - reasonCodes.indexOf(b.code))
}

function turnsInBrief(snapshot: SiteSnapshot, after: WorldAfter, judged: JudgedTurns, changes: Changes) {
  const subject = after.bookings[0]?.after
  const turns = judged.turns.map((turn) => turn.after)
  const known = (wanted: (turn: Turn) => boolean) =>
    turns.find(wanted) ?? snapshot.turns.find((turn) => turn.status !== 'dropped' && wanted(turn)) ?? null
  const follows = (id: BookingId) => (turn: Turn) => turn.predecessorBookingIds.includes(id)
  const before =
    subject && subject.status !== 'CANCELLED' ? known((turn) => turn.bookingId === subject.id) : null
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
