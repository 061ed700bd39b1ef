/** The answer to one or several operations, taken together: all of them, or none. */
import type { Changes, Decision, RowChange } from '../../domain/decision.ts'
import type { Operation } from '../../domain/operation.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { decisionFrom } from './decision-from.ts'
import { judgeTurns } from './judge-turns.ts'
import type { JudgedTurn } from './judged-turn.ts'
import { nearestDoors } from './nearest-doors.ts'
import { worldAfter } from './world-after.ts'

export interface DecideOptions {
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
  const judged = judgeTurns(after, snapshot.turns, operations)
  const changes: Changes = {
    bookings: after.bookings,
    turns: [
      ...judged.turns.filter(isNews).map(({ before, after: turn }) => ({ before, after: turn })),
      ...dropped(snapshot, after),
    ],
    setup: operations.flatMap((one) => (one.kind === 'set-up' ? one.writes : [])),
  }
  return decisionFrom(snapshot, operations, after, judged, changes, () =>
    options.withoutAlternatives ? [] : nearestDoors(snapshot, operations),
  )
}

/** That a turn was looked at again, and stands as it stood, is nothing to write down. */
function isNews({ before, after }: JudgedTurn): boolean {
  if (before === null || before.plan !== after.plan) return true
  const { judgedAt } = before.judgement
  const seenThen = { ...after, judgement: { ...after.judgement, judgedAt } }
  return textOf(withoutPlan(seenThen)) !== textOf(withoutPlan(before))
}

const withoutPlan = ({ plan: _, ...turn }: Turn) => turn

/** The same for equal values, whatever the order of their members: what was stored comes back in that of the schema. */
const textOf = (value: unknown): string =>
  JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  )

/** The turns of bookings that are cancelled: they stay on record and hold nothing. */
function dropped(snapshot: SiteSnapshot, after: ReturnType<typeof worldAfter>): RowChange<Turn>[] {
  return after.bookings.flatMap((change) => {
    const turn = snapshot.turns.find((one) => one.id === change.after.turnId)
    if (change.after.status !== 'CANCELLED' || !turn) return []
    return [{ before: turn, after: { ...turn, status: 'dropped', plan: null } }]
  })
}
