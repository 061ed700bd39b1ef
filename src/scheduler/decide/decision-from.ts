/** From what was found to the decision: the only place where verdicts branch. */

import type { Alternative } from '../../domain/alternative.ts'
import { type Booking, heldUntilAt } from '../../domain/booking.ts'
import type { AnsweredReason, Changes, Decision } from '../../domain/decision.ts'
import type { BookingId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import { isOfBooking, type Reason, speaksAgainst } from '../../domain/reason.ts'
import type { SiteSetup, SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn, TurnBrief } from '../../domain/turn.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
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
  const bookings = bookingsKnown(operations, after, judged, risk.reasons)
  const isAgainst = risk.reasons.some(speaksAgainst)
  const isRefused = isAgainst && !risk.isTaken && canBeRefused(operations)
  const offered = isRefused ? alternatives() : []
  const subject = after.bookings[0]?.after ?? null
  const reasons = agreeing(risk.reasons, offered).map((reason) => {
    const answered = answeredReason(reason, setup, bookings, risk.harmed)
    const of = spokenOf(reason, bookings, subject)
    if (of === null) return answered
    const { title, doorsAt } = of
    const message = `“${title}”, doors ${dayAndTimeOf(doorsAt, setup.site.zone)}: ${answered.message}`
    return { ...answered, message }
  })
  const answer = { reasons, ...turnsInBrief(snapshot, after, judged, changes, bookings) }
  if (!isAgainst) {
    return { ...answer, verdict: reasons.length === 0 ? 'fits' : 'tight', alternatives: [], changes }
  }
  return isRefused
    ? { ...answer, verdict: 'does-not-fit', alternatives: offered, changes: null }
    : { ...answer, verdict: 'does-not-fit', alternatives: [], changes }
}

/**
 * So many hands would do it for the turn by itself; where others take of them, more are offered, and it is they who are
 * said to be needed.
 */
function agreeing(reasons: readonly Reason[], offered: readonly Alternative[]): Reason[] {
  const hands = offered.flatMap((one) => (one.kind === 'more-hands' ? one.hands : []))[0] ?? 0
  const most = Math.max(0, ...reasons.map(handsMissing))
  return reasons.map((reason) =>
    reason.code === 'hands-short' && handsMissing(reason) === most && hands > most
      ? { ...reason, handsNeeded: reason.handsOnDuty + hands }
      : reason,
  )
}

const handsMissing = (reason: Reason): number =>
  reason.code === 'hands-short' ? reason.handsNeeded - reason.handsOnDuty : 0

/** Of others that hands are at work for, what is asked may be decided without knowing: those are named nowhere. */
function bookingsKnown(
  operations: readonly Operation[],
  { world, bookings }: WorldAfter,
  { turns }: JudgedTurns,
  reasons: readonly Reason[],
): Booking[] {
  const stored = bookings.flatMap(({ before }) => before ?? [])
  const window = windowOf(operations, stored, world.now)
  const spokenOf = new Set([
    ...turns.map(({ input }) => input.booking.id),
    // Whoever was there last before what is given up is always known.
    ...reasons.flatMap((reason) => (reason.code === 'milestone-missed' ? (reason.bookingId ?? []) : [])),
  ])
  // The first in a place after the window is known too, as long as its turn begins in it.
  const isTurnedFrom = ({ turnId }: Booking) => {
    const turn = world.turnsById.get(turnId)
    return turn !== undefined && turn.releaseAt < window.toAt
  }
  return world.bookings.filter(
    (booking) =>
      spokenOf.has(booking.id) ||
      (heldUntilAt(booking) > window.fromAt && (booking.doorsAt < window.toAt || isTurnedFrom(booking))),
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

/** What is said of a booking by itself, where it is not the one that is asked for; null: the sentence is clear without. */
function spokenOf(reason: Reason, bookings: readonly Booking[], subject: Booking | null): Booking | null {
  if (!isOfBooking(reason) || reason.code === 'room-occupied' || reason.code === 'device-held') return null
  const of = bookings.find(({ id }) => 'bookingId' in reason && id === reason.bookingId)
  return of && of.id !== subject?.id ? of : null
}

function turnsInBrief(
  snapshot: SiteSnapshot,
  after: WorldAfter,
  judged: JudgedTurns,
  changes: Changes,
  bookings: readonly Booking[],
) {
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
      .map(({ id, bookingId, judgement: { verdict, reasons } }) => {
        const [first] = reasons
        const message = first ? reasonMessage(first, after.world.setup, bookings) : null
        return { turnId: id, bookingId, verdict, message }
      }),
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
