import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { laterOf } from '../../../domain/instant.ts'
import type { Plan } from '../../../domain/plan.ts'

/** A plan is never changed in place. */
const remembered = new WeakMap<Plan, HalfOpenInterval>()

/**
 * From the first task of a plan to the end of its last: longer than the work of the turn where the event itself takes
 * crew before or after it. Empty, at `readyAt`, where there is nothing to do.
 */
export function heldSpan(plan: Plan): HalfOpenInterval {
  const known = remembered.get(plan)
  if (known) return known
  const { tasks, readyAt } = plan
  const span = {
    // By start.
    fromAt: tasks[0]?.startsAt ?? readyAt,
    toAt: tasks.map(({ endsAt }) => endsAt).reduce(laterOf, tasks[0]?.endsAt ?? readyAt),
  }
  remembered.set(plan, span)
  return span
}
