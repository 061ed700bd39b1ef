/** When a room would be ready with a part of the tasks only. */
import type { Instant } from '../../domain/instant.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { readyTickOf, scheduleWith } from '../decide/plan/plan-of.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import { SEED } from '../decide/plan/turn-search.ts'
import type { World } from '../timeline/world.ts'
import { retimed, type Schedule, solve } from '../turn/index.ts'
import type { FromNow } from './schedule-from-now.ts'

export const readyOf = (built: BuiltInstance, schedule: Schedule): Instant =>
  (built.originAt + readyTickOf(built, built.parts[0]!, schedule) * TICK_MS) as Instant

/**
 * Everybody goes on as planned, only sooner: a plan made anew would save time by itself. Where the plan for all tasks took
 * all the effort there is, one without some of them is looked for with as much.
 * @param built  with a part of the tasks only
 * @param whole  the same with all of them, and the plan for it
 */
export function readyWithout(
  world: World,
  built: BuiltInstance,
  whole: { readonly built: BuiltInstance; readonly found: FromNow },
): Instant {
  const all = whole.found.schedule
  const rest = restOf(built, whole.built, all)
  const ready = [readyOf(whole.built, all)]
  const moved = retimed(built.instance, rest)
  if (moved) ready.push(readyOf(built, moved))
  if (whole.found.isSearchedThrough) {
    const { schedule } = solve(built.instance, { workMost: world.setup.policy.workMost, seed: SEED })
    if (schedule) ready.push(readyOf(built, schedule))
  }
  return Math.min(...ready) as Instant
}

/** The schedule without what is left out. */
function restOf(built: BuiltInstance, whole: BuiltInstance, all: Schedule): Schedule {
  const [part] = built.parts
  const indexOf = new Map(whole.parts[0]?.network.tasks.map((task, index) => [task.key, index]))
  const activities = (part?.network.tasks ?? []).map((task, activity) => ({
    ...all.activities[indexOf.get(task.key)!]!,
    activity,
  }))
  return scheduleWith(built, activities)
}
