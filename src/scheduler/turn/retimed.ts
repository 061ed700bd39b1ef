/** A plan for what has become of its instance: the same work by the same people in the same order, at other times. */

import type { Schedule, TurnInstance } from './instance.ts'
import { prepared } from './prepared-instance.ts'
import { draftKeeping } from './with-lanes/draft-keeping.ts'
import { foundPlan, scheduleFromDraft } from './with-lanes/found-plan.ts'
import { keptOf } from './with-lanes/kept.ts'
import { pinnedPlacement } from './with-lanes/pinned-placement.ts'
import { Timetable } from './with-lanes/timetable.ts'

/**
 * One pass in the order in which the schedule starts things (then as precedence wants it). Each activity keeps its mode,
 * and its lanes if all of them are there at one tick before the horizon; else lanes are chosen for it anew. What is pinned
 * stays pinned. On the instance it was made for no turn is ready later, unless a detour makes some walk shorter.
 * @param instance without problems (`instanceProblems`)
 * @param schedule made for another version of it: durations, hours, releases may differ; activities and modes are the same
 * @returns null when something finds no place before the horizon, or the schedule speaks of other activities
 */
export function retimed(instance: TurnInstance, schedule: Schedule): Schedule | null {
  const problem = prepared(instance)
  const kept = keptOf(problem, schedule)
  const pinned = kept && pinnedPlacement(problem, kept)
  if (!kept || !pinned) return null
  const ticks = schedule.activities.map((planned) => planned.startTick)
  const draft = draftKeeping(new Timetable(problem), pinned, kept, ticks, {
    earliestStarts: problem.releaseTicks,
    latestEnds: new Int32Array(problem.turnCount).fill(problem.horizonTick),
    keepsLanes: true,
  })
  return draft && scheduleFromDraft(problem, foundPlan(problem, draft))
}
