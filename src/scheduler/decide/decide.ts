/** The answer to one or several operations, taken together: all of them, or none. */
import type { Changes, Decision, RowChange } from '../../domain/decision.ts'
import type { Operation } from '../../domain/operation.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { decisionFrom } from './decision-from.ts'
import { judgeTurns } from './judge-turns.ts'
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
      ...judged.turns.map(({ before, after: turn }) => ({ before, after: turn })),
      ...dropped(snapshot, after),
    ],
    setup: operations.flatMap((one) => (one.kind === 'set-up' ? one.writes : [])),
  }
  return decisionFrom(snapshot, operations, after, judged, changes, () =>
    options.withoutAlternatives ? [] : nearestDoors(snapshot, operations),
  )
}

/** The turns of bookings that are cancelled: they stay on record and hold nothing. */
function dropped(snapshot: SiteSnapshot, after: ReturnType<typeof worldAfter>): RowChange<Turn>[] {
  return after.bookings.flatMap((change) => {
    const turn = snapshot.turns.find((one) => one.id === change.after.turnId)
    if (change.after.status !== 'CANCELLED' || !turn) return []
    return [{ before: turn, after: { ...turn, status: 'dropped', plan: null } }]
  })
}
