/** Every touched turn is judged, nearest doors first, each with the hands the others leave. */
import type { BookingId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import type { Reason, TurnSide } from '../../domain/reason.ts'
import type { Turn } from '../../domain/turn.ts'
import { bookingReasons } from './checks/index.ts'
import { judgeTurn } from './judge-turn.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'
import { type TouchedTurn, turnsTouched } from './turns-touched.ts'
import type { WorldAfter } from './world-after.ts'

export interface JudgedTurns {
  /** By doors, then booking id. */
  readonly turns: readonly JudgedTurn[]
  /** What speaks against the bookings asked for, by themselves. */
  readonly bookingReasons: readonly Reason[]
}

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
  // its turn would lack is no news. The rest is not asked.
  if (againstRequested.some((reason) => reason.code === 'room-occupied' || isClosed(reason))) {
    return { turns: [], bookingReasons: againstRequested }
  }
  const touched = turnsTouched(after, operations)
  const touchedIds = new Set(touched.map(({ input }) => input.booking.turnId))
  const gone = new Set(
    after.bookings.filter((c) => c.after.status === 'CANCELLED').map((c) => c.after.turnId),
  )
  const standing = turnsStored.filter((turn) => !touchedIds.has(turn.id) && !gone.has(turn.id))
  const judged: JudgedTurn[] = []
  for (const turn of touched) {
    const others = [...standing, ...judged.map((other) => other.after)]
    const side = sideOf(turn, after)
    const result = judgeTurn(world, turn.input, turn.before, side, others, options)
    const { booking } = turn.input
    const isRequested = requested.some((one) => one.id === booking.id)
    judged.push(withBookingReasons(result, bookingReasons(world, booking), isRequested))
    if (options.isTrial && result.after.status === 'failing' && turn.before?.status !== 'failing') break
  }
  return { turns: judged, bookingReasons: againstRequested }
}

/** A turn whose booking cannot be there as it stands is not ready, however well its room could be turned. */
function withBookingReasons(
  judged: JudgedTurn,
  against: readonly Reason[],
  isRequested: boolean,
): JudgedTurn {
  if (against.length === 0) return judged
  const { after } = judged
  // What the turn lacks is no news where the room is closed for the booking it would prepare.
  const ofTurn = (reasons: readonly Reason[]) => (against.some(isClosed) ? [] : reasons)
  const reasons = [...against, ...ofTurn(after.judgement.reasons)]
  return {
    ...judged,
    // Those of a booking that is asked for are said once already, whether or not its turn is touched.
    reasons: isRequested ? judged.reasons : [...against, ...ofTurn(judged.reasons)],
    after: {
      ...after,
      status: 'failing',
      plan: null,
      // The proof spoke of the turn; that it can be turned is not the question any more.
      judgement: { ...after.judgement, verdict: 'does-not-fit', proof: null, reasons },
    },
  }
}

const isClosed = (reason: Reason): boolean => reason.code === 'room-closed'

function sideOf({ input, before }: TouchedTurn, { bookings }: WorldAfter): TurnSide | null {
  const isOf = (bookingIds: readonly BookingId[]) =>
    bookings.some((change) => bookingIds.includes(change.after.id))
  if (isOf([input.booking.id])) return 'before'
  if (isOf(input.predecessorBookingIds)) return 'after'
  const cancelled = bookings
    .filter((change) => change.after.status === 'CANCELLED')
    .map((change) => change.after.id)
  return before?.predecessorBookingIds.some((id) => cancelled.includes(id)) ? 'after' : null
}
