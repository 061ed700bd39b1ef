/** Every touched turn is judged, in order of claim, each with the hands the others leave. */
import type { BookingId, TurnId } from '../../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import { type Reason, speaksAgainst, type TurnSide } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import { bookingReasons } from '../checks/index.ts'
import { canBeRefused } from '../operations/can-be-refused.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import { spanLookedAt, withWalks } from '../plan/built-instance.ts'
import { heldSpan } from '../plan/held-span.ts'
import { StandingTurns } from '../plan/standing-turns.ts'
import { isDisturbed } from './is-disturbed.ts'
import { judgeTurn, keptTurn } from './judge-turn.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'
import { type TouchedTurn, turnsTouched } from './turns-touched.ts'

export interface JudgedTurns {
  /** In order of claim: see turns-touched.ts. */
  readonly turns: readonly JudgedTurn[]
  /** Rooms that are not put back any more. */
  readonly homeTurnsGone: readonly Turn[]
  /** What speaks against the bookings asked for, by themselves. */
  readonly bookingReasons: readonly Reason[]
  /** Turns due from here on were touched too and not looked at: there were too many; null: none. */
  readonly restFromAt: Instant | null
}

/** After a change of the hall: turns within so long are planned anew at once, however many. */
const AT_ONCE_SECONDS = 72 * 3600
/** And so many others. */
const PLANNED_AT_ONCE_MOST = 24

export function judgeTurns(
  after: WorldAfter,
  turnsStored: readonly Turn[],
  operations: readonly Operation[],
  options: JudgeOptions = {},
): JudgedTurns {
  const { world } = after
  const requested = after.bookings
    .map((change) => change.after)
    .filter((booking) => booking.status !== 'CANCELLED')
  const againstRequested = requested.flatMap((booking) => bookingReasons(world, booking))
  // Two in one place have no order, so there is no "before" to turn from; and a closed room is not turned, so what
  // its turn would lack is no news. The rest is not asked, unless it is written all the same.
  const hasNoPlace = againstRequested.some((reason) => reason.code === 'room-occupied' || isClosed(reason))
  if (hasNoPlace && canBeRefused(operations)) {
    return { turns: [], homeTurnsGone: [], bookingReasons: againstRequested, restFromAt: null }
  }
  const { touched, homeTurnsGone } = turnsTouched(after, operations)
  const gone = new Set([
    ...touched.map(({ input }) => input.turnId),
    ...homeTurnsGone.map(({ id }) => id),
    ...after.bookings.filter((c) => c.after.status === 'CANCELLED').map((c) => c.after.turnId),
  ])
  const withBooking = (result: JudgedTurn): JudgedTurn => {
    const { booking, purpose } = result.input
    const isRequested = requested.some((one) => one.id === booking.id)
    return withBookingReasons(
      result,
      purpose === 'prepare' ? bookingReasons(world, booking) : [],
      isRequested,
    )
  }
  /** All that is sure to hold what it holds, at each moment. */
  const standing = new StandingTurns(turnsStored.filter((turn) => !gone.has(turn.id)))
  const kept = keptTurns(after, standing, touched, operations, options)
  const mayWait = operations.every(({ kind }) => kind === 'set-up')
  const atOnceUntilAt = instantPlusSeconds(world.now, AT_ONCE_SECONDS)
  const judged: JudgedTurn[] = []
  const judgedSoFar = new StandingTurns([])
  const put = (result: JudgedTurn) => {
    judged.push(result)
    judgedSoFar.put(result.after)
    standing.put(result.after)
  }
  for (const result of kept.values()) put(withBooking(result))
  const hasItsHands = (before: Turn) => {
    const span = before.plan && withWalks(world, heldSpan(before.plan))
    return span === null || !isDisturbed(world, before, judgedSoFar.during(span))
  }
  let planned = 0
  let restFromAt: Instant | null = null
  const rest = touched.filter(({ input }) => !kept.has(input.turnId))
  for (const [index, turn] of rest.entries()) {
    const { dueAt, booking, turnId } = turn.input
    // Those at risk come last, and are few: that they wait would make all that lies behind them wait.
    const isEnough =
      mayWait && planned >= PLANNED_AT_ONCE_MOST && dueAt > atOnceUntilAt && booking.riskAccepted === null
    if (isEnough && (turn.before === null || hasItsHands(turn.before))) {
      // What is not looked at yet holds what it held.
      if (restFromAt === null) for (const { before } of rest.slice(index)) if (before) standing.put(before)
      restFromAt = Math.min(restFromAt ?? dueAt, dueAt) as Instant
      continue
    }
    // It is not in its own way.
    standing.remove(turnId)
    const others = standing.during(spanLookedAt(world, turn.input))
    const result = judgeTurn(world, turn.input, turn.before, sideOf(turn, after), others, options)
    if (result.wasSearched) planned += 1
    put(withBooking(result))
    if (options.isTrial && result.after.status === 'failing' && turn.before?.status !== 'failing') break
  }
  const place = new Map(touched.map(({ input }, index) => [input.turnId, index]))
  judged.sort((a, b) => place.get(a.input.turnId)! - place.get(b.input.turnId)!)
  return { turns: judged, homeTurnsGone, bookingReasons: againstRequested, restFromAt }
}

/**
 * After a change of the hall: what still holds is done, whoever comes first. A promise that the change did not break is
 * not broken to mend another.
 * @param standing  without the touched turns, as it is again in the end
 * @returns by turn; none where something is asked for
 */
function keptTurns(
  after: WorldAfter,
  standing: StandingTurns,
  touched: readonly TouchedTurn[],
  operations: readonly Operation[],
  options: JudgeOptions,
): Map<TurnId, JudgedTurn> {
  const kept = new Map<TurnId, JudgedTurn>()
  if (!operations.every(({ kind }) => kind === 'set-up' || kind === 'judge')) return kept
  for (const { before } of touched) if (before) standing.put(before)
  for (const turn of touched) {
    const { input, before } = turn
    if (before === null) continue
    standing.remove(input.turnId)
    const others = standing.during(spanLookedAt(after.world, input))
    const result = keptTurn(after.world, input, before, sideOf(turn, after), others, options)
    if (result) kept.set(input.turnId, result)
    standing.put(result?.after ?? before)
  }
  for (const { input } of touched) standing.remove(input.turnId)
  return kept
}

/** A turn whose booking cannot be there as it stands is not ready, however well its room could be turned. */
export function withBookingReasons(
  judged: JudgedTurn,
  against: readonly Reason[],
  isRequested: boolean,
): JudgedTurn {
  if (against.length === 0) return judged
  const { after } = judged
  // What the turn lacks is no news where the room is closed for the booking it would prepare.
  const closed = against.some(isClosed)
  const ofTurn = (reasons: readonly Reason[]) => (closed ? [] : reasons)
  const reasons = [...against, ...ofTurn(after.judgement.reasons)]
  const fails = reasons.some(speaksAgainst)
  return {
    ...judged,
    // Those of a booking that is asked for are said once already, whether or not its turn is touched; of another one
    // only what it cannot be there with is anybody else's business.
    reasons: isRequested ? judged.reasons : [...against.filter(speaksAgainst), ...ofTurn(judged.reasons)],
    after: {
      ...after,
      status: fails ? 'failing' : after.status,
      judgement: {
        ...after.judgement,
        verdict: fails ? 'does-not-fit' : 'tight',
        // The proof spoke of the turn; that it can be turned is not the question any more.
        proof: fails ? null : after.judgement.proof,
        reasons,
        warnedSince: fails
          ? (after.judgement.warnedSince ?? judged.before?.judgement.warnedSince ?? after.judgement.judgedAt)
          : after.judgement.warnedSince,
      },
    },
  }
}

const isClosed = (reason: Reason): boolean => reason.code === 'room-closed'

function sideOf({ input, before }: TouchedTurn, { bookings }: WorldAfter): TurnSide | null {
  const isOf = (bookingIds: readonly BookingId[]) =>
    bookings.some((change) => bookingIds.includes(change.after.id))
  if (input.purpose === 'prepare' && isOf([input.booking.id])) return 'before'
  if (isOf(input.predecessorBookingIds)) return 'after'
  const cancelled = bookings
    .filter((change) => change.after.status === 'CANCELLED')
    .map((change) => change.after.id)
  return before?.predecessorBookingIds.some((id) => cancelled.includes(id)) ? 'after' : null
}
