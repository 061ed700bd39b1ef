/** The writes of an audit, decided again by the pure core, each on the state that those before it left. */
import { isDeepStrictEqual } from 'node:util'
import { type Booking, isBlocking } from '../../src/domain/booking.ts'
import type { Changes, Decision, RowChange } from '../../src/domain/decision.ts'
import type { Operation } from '../../src/domain/operation.ts'
import { Plan } from '../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../src/domain/snapshot.ts'
import type { Turn } from '../../src/domain/turn.ts'
import { decide, setupAfter } from '../../src/scheduler/decide/index.ts'
import { planHash } from '../../src/store/plan-hash.ts'
import type { AuditEffect } from '../../src/store/store.ts'

/** What the core finds on this state; other times that would do are not looked for. */
export const decidedOn = (state: SiteSnapshot, operations: readonly Operation[]): Decision =>
  decide(state, operations, { withoutAlternatives: true })

/** Everything of the site once the changes are written, as it would be loaded. */
export function stateAfter(state: SiteSnapshot, changes: Changes): SiteSnapshot {
  const bookings = withChanges(state.bookings, changes.bookings).filter(isBlocking)
  const turns = withChanges(state.turns, changes.turns).filter(
    ({ status, purpose }) => status !== 'dropped' || purpose === 'return-home',
  )
  return {
    ...setupAfter(state, changes.setup),
    planningVersion: state.planningVersion + 1,
    judgedThroughAt: changes.judgedThroughAt === undefined ? state.judgedThroughAt : changes.judgedThroughAt,
    bookings: bookings.sort((a, b) => a.doorsAt - b.doorsAt || byId(a, b)),
    turns: turns.sort((a, b) => a.dueAt - b.dueAt || byId(a, b)),
  }
}

function withChanges<Row extends Booking | Turn>(
  rows: readonly Row[],
  changes: readonly RowChange<Row>[],
): Row[] {
  const byId = new Map(rows.map((row) => [row.id, row]))
  for (const { after } of changes) byId.set(after.id, after)
  return [...byId.values()]
}

const byId = (a: { readonly id: string }, b: { readonly id: string }): number => (a.id < b.id ? -1 : 1)

/** Whether the audit tells of these changes, row by row, and of no other booking, turn or part of the hall. */
export const tellsOf = (effects: readonly AuditEffect[], changes: Changes): boolean =>
  isDeepStrictEqual(
    effects.filter(({ table }) => table !== 'judging').map(withoutMarks),
    inJson([
      ...changes.setup.map(({ kind, before, after }) => ({ table: kind, id: after.id, before, after })),
      ...changes.bookings.map((change) => ({ table: 'booking', id: change.after.id, ...change })),
      ...changes.turns.map(({ before, after }) => ({
        table: 'turn',
        id: after.id,
        before: before && withPlanHash(before),
        after: withPlanHash(after),
      })),
    ]),
  )

const withPlanHash = ({ plan, ...turn }: Turn) => ({ ...turn, planHash: plan && planHash(Plan.parse(plan)) })

const inJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

/** Rows of the set-up carry their version and since when they are out of use, which the core knows nothing of. */
function withoutMarks({ table, id, before, after }: AuditEffect): AuditEffect {
  if (table === 'booking' || table === 'turn') return { table, id, before, after }
  return { table, id, before: unmarked(before), after: unmarked(after) }
}

function unmarked(row: unknown): unknown {
  if (typeof row !== 'object' || row === null) return row
  const marks = ['version', 'retiredAt']
  return Object.fromEntries(Object.entries(row).filter(([name]) => !marks.includes(name)))
}
