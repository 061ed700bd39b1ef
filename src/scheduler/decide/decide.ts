/** The answer to one or several operations, taken together: all of them, or none. */
import type { Booking } from '../../domain/booking.ts'
import type { Changes, Decision, RowChange } from '../../domain/decision.ts'
import { earlierOf, type Instant } from '../../domain/instant.ts'
import type { Operation } from '../../domain/operation.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { decisionFrom } from './decision-from.ts'
import { isSameValue } from './is-same-value.ts'
import { nearestYeses } from './nearest-yes/index.ts'
import { type WorldAfter, worldAfter } from './operations/world-after.ts'
import { riskTaken } from './risk-taken.ts'
import type { JudgedTurns } from './turns/judge-turns.ts'
import { judgedTogether } from './turns/judged-together.ts'
import type { JudgedTurn, JudgeOptions } from './turns/judged-turn.ts'
import { polishedTurns } from './turns/polished-turns.ts'
import { withDevicesMoved } from './turns/with-devices-moved.ts'

export interface DecideOptions extends JudgeOptions {
  /** A no is all that is wanted to know for now. */
  readonly withoutAlternatives?: boolean
}

/**
 * Same snapshot and operations, same decision: no clock, no I/O, no hidden randomness.
 * @param snapshot    complete for `windowOf(operations)`; with alternatives, for `windowWithAlternatives(operations)`
 * @param operations  without `operationProblems`
 */
export function decide(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  options: DecideOptions = {},
): Decision {
  const after = worldAfter(snapshot, operations)
  const judged = allJudged(snapshot, after, operations, options)
  const risk = riskTaken(after, judged, operations)
  const changes: Changes = {
    bookings: risk.bookings,
    turns: [
      ...judged.turns.filter(isNews).map(({ before, after: turn }) => ({
        before: before ?? droppedBefore(snapshot, turn),
        after: turn,
      })),
      ...dropped(snapshot, after, judged),
    ],
    setup: operations.flatMap((one) => (one.kind === 'set-up' ? one.writes : [])),
    ...judgedThrough(snapshot, operations, judged),
  }
  return decisionFrom(snapshot, operations, { after, judged, risk, changes }, () =>
    options.withoutAlternatives || options.isTrial ? [] : nearestYeses(snapshot, operations, risk.reasons),
  )
}

function allJudged(
  snapshot: SiteSnapshot,
  after: WorldAfter,
  operations: readonly Operation[],
  options: JudgeOptions,
): JudgedTurns {
  const polish = operations.flatMap((one) => (one.kind === 'polish' ? one.turnIds : []))
  if (polish.length === 0) return judgedTogether(after, snapshot.turns, operations, options)
  return withDevicesMoved(after, snapshot.turns, polishedTurns(snapshot, after, polish), options)
}

/** How far turns are looked at once this is written; nothing where that stays as it is. */
function judgedThrough(
  { judgedThroughAt }: SiteSnapshot,
  operations: readonly Operation[],
  { restFromAt }: JudgedTurns,
): Pick<Changes, 'judgedThroughAt'> {
  const judge = operations.find(({ kind }) => kind === 'judge')
  if (judge?.kind === 'judge') return { judgedThroughAt: judge.judgedThroughAt }
  const rests = operations.flatMap((one) => (one.kind === 'set-up' ? (one.restFromAt ?? []) : []))
  const from = [...rests, ...(restFromAt === null ? [] : [restFromAt])]
  if (from.length === 0) return {}
  const earliest = [...from, ...(judgedThroughAt === null ? [] : [judgedThroughAt])].reduce(earlierOf)
  return earliest === judgedThroughAt ? {} : { judgedThroughAt: earliest as Instant }
}

/** Of a room that was not to be put back any more, and now is again. */
const droppedBefore = ({ turns }: SiteSnapshot, { id }: Turn): Turn | null =>
  turns.find((one) => one.id === id) ?? null

/**
 * That a turn was looked at again, and stands as it stood, is nothing to write down; what was found at leisure (when, and
 * which ways out there are) then still holds.
 */
function isNews({ before, after }: JudgedTurn): boolean {
  if (before === null || before.status === 'dropped') return true
  if (before.plan !== after.plan && !isSameValue(before.plan, after.plan)) return true
  const { judgedAt, polishedAt, waysOut } = before.judgement
  const isPolished = after.judgement.polishedAt !== null && after.judgement.polishedAt !== polishedAt
  const seenThen = { ...after.judgement, judgedAt, ...(isPolished ? {} : { polishedAt, waysOut }) }
  return !isSameValue(withoutPlan({ ...after, judgement: seenThen }), withoutPlan(before))
}

const withoutPlan = ({ plan: _, ...turn }: Turn) => turn

/** The turns of bookings that are cancelled, and of rooms that are not put back: they stay on record and hold nothing. */
function dropped(snapshot: SiteSnapshot, after: WorldAfter, judged: JudgedTurns): RowChange<Turn>[] {
  const cancelled = after.bookings.filter((change) => isCancelled(change.after))
  const turns = [
    ...cancelled.flatMap((change) => snapshot.turns.find((one) => one.id === change.after.turnId) ?? []),
    ...judged.homeTurnsGone,
  ]
  return turns.map((turn) => ({
    before: turn,
    after: {
      ...turn,
      status: 'dropped',
      plan: null,
      judgement: { ...turn.judgement, warnedSince: null },
    },
  }))
}

const isCancelled = ({ status }: Booking): boolean => status === 'CANCELLED'
