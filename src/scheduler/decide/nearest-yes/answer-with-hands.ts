/**
 * The answer to the same request once more hands are on duty. They are entered first, and so turns that failed for want of
 * hands have them before the request is asked anew: only so many count as are enough all the same.
 */
import type { Operation } from '../../../domain/operation.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Turn } from '../../../domain/turn.ts'
import { setupAfter } from '../operations/setup-after.ts'
import { worldAfter } from '../operations/world-after.ts'
import { riskTaken } from '../risk-taken.ts'
import { judgedTogether } from '../turns/judged-together.ts'
import { answered, type ShortAnswer } from './answer-to.ts'
import { handsAdded } from './hands-added.ts'
import type { HandsWanted } from './hands-wanted.ts'

export interface AnswerWithHands extends Pick<ShortAnswer, 'verdict' | 'reasons'> {
  /** Those of the bookings that are asked for, and those that the request touches. */
  readonly turns: readonly Turn[]
}

export function answerWithHands(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  wanted: HandsWanted,
): AnswerWithHands {
  const entered = withShiftsEntered(snapshot, handsAdded(snapshot, wanted))
  const answer = answered(entered, operations)
  const turns = answer.turns.map(({ after }) => after)
  // What is asked for as it stands is not judged anew: it was when they came on duty.
  const judged = new Set(turns.map(({ id }) => id))
  const asked = new Set(operations.flatMap((one) => ('booking' in one ? one.booking.turnId : [])))
  const asItStands = entered.turns.filter(({ id }) => asked.has(id) && !judged.has(id))
  const reasons = [...answer.reasons, ...asItStands.flatMap(({ judgement }) => judgement.reasons)]
  return { verdict: verdictOf(reasons), reasons, turns: [...turns, ...asItStands] }
}

const verdictOf = (reasons: readonly Reason[]): ShortAnswer['verdict'] => {
  if (reasons.some(speaksAgainst)) return 'does-not-fit'
  return reasons.length > 0 ? 'tight' : 'fits'
}

type SetUp = Extract<Operation, { kind: 'set-up' }>

function withShiftsEntered(snapshot: SiteSnapshot, operation: SetUp): SiteSnapshot {
  const after = worldAfter(snapshot, [operation])
  const judged = judgedTogether(after, snapshot.turns, [operation])
  const { bookings } = riskTaken(after, judged, [operation])
  return {
    ...setupAfter(snapshot, operation.writes),
    bookings: put(
      snapshot.bookings,
      bookings.map((change) => change.after),
    ),
    turns: put(
      snapshot.turns,
      judged.turns.map((turn) => turn.after),
    ),
  }
}

function put<Row extends { readonly id: string }>(rows: readonly Row[], changed: readonly Row[]): Row[] {
  const byId = new Map(changed.map((row) => [row.id, row]))
  const known = new Set(rows.map(({ id }) => id))
  return [...rows.map((row) => byId.get(row.id) ?? row), ...changed.filter(({ id }) => !known.has(id))]
}
