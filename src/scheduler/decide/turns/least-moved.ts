/** Of turns that were planned anew together, those whose plan still holds beside the others keep it: people have read it. */
import type { Plan } from '../../../domain/plan.ts'
import { type Schedule, scheduleFaults } from '../../turn/index.ts'
import type { BuiltInstance } from '../plan/built-instance.ts'
import { plannedActivities, scheduleWith } from '../plan/plan-of.ts'

export interface LeastMoved {
  readonly schedule: Schedule
  /** By part: its plan stays, to the letter. */
  readonly isKept: readonly boolean[]
}

/**
 * @param plans     by part, as they stand; null: there is none to keep. Those farthest from what is asked come last, and
 *                  are kept first
 * @param schedule  with everything ready by its due tick
 */
export function leastMoved(
  built: BuiltInstance,
  plans: readonly (Plan | null)[],
  schedule: Schedule,
): LeastMoved {
  const isKept = plans.map(() => false)
  let best = schedule
  for (const [index, plan] of [...plans.entries()].reverse()) {
    const part = built.parts[index]
    const own = plan && part ? plannedActivities(built, part, plan) : null
    if (!own || !part) continue
    const activities = [...best.activities]
    activities.splice(part.firstActivity, own.length, ...own)
    const tried = scheduleWith(built, activities)
    const isReady = tried.readyTicks.every((tick, turn) => tick <= built.instance.turns[turn]!.dueTick)
    if (!isReady || scheduleFaults(built.instance, tried).length > 0) continue
    best = tried
    isKept[index] = true
  }
  return { schedule: best, isKept }
}
