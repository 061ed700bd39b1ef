/**
 * A schedule made anew, by those who did the same work in the plan that people carry: hands that can stand in for one
 * another change places, so that as few of them as can be are told something new.
 */
import type { LaneId } from '../../domain/ids.ts'
import type { TaskKey } from '../../domain/task.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { type Schedule, scheduleFaults } from '../turn/index.ts'

/**
 * @param before  who had each task
 * @returns the schedule with all its times, and with other hands where that leaves more tasks with who had them
 */
export function nearestLanes(
  built: BuiltInstance,
  schedule: Schedule,
  before: ReadonlyMap<TaskKey, readonly LaneId[]>,
): Schedule {
  const { instance, lanes } = built
  const agrees = instance.lanes.map(() => new Map<number, number>())
  const indexOf = new Map(lanes.map(({ laneId }, index) => [laneId, index]))
  for (const { activity, lanes: own } of schedule.activities) {
    const task = taskOf(built, activity)
    for (const had of (task && before.get(task.key)) ?? []) {
      const to = indexOf.get(had)
      if (to === undefined) continue
      for (const lane of own) agrees[lane]!.set(to, (agrees[lane]!.get(to) ?? 0) + 1)
    }
  }
  const goesTo = instance.lanes.map((_, index) => index)
  for (const alike of alikeLanes(built)) {
    const pairs = alike
      .flatMap((lane) => alike.map((to) => ({ lane, to, tasks: agrees[lane]!.get(to) ?? 0 })))
      .sort((a, b) => b.tasks - a.tasks || a.lane - b.lane || a.to - b.to)
    const from = new Set(alike)
    const free = new Set(alike)
    for (const { lane, to } of pairs) {
      if (!from.has(lane) || !free.has(to)) continue
      from.delete(lane)
      free.delete(to)
      goesTo[lane] = to
    }
  }
  const activities = schedule.activities.map((one) => ({
    ...one,
    lanes: one.lanes.map((lane) => goesTo[lane]!),
  }))
  const nearer = { ...schedule, activities }
  return scheduleFaults(instance, nearer).length === 0 ? nearer : schedule
}

const taskOf = ({ parts }: BuiltInstance, activity: number) => {
  const part = parts[0]
  return part?.network.tasks[activity - part.firstActivity]
}

/** Lanes with the same skills, times and holds, two or more of them. */
function alikeLanes({ instance }: BuiltInstance): number[][] {
  const groups = new Map<string, number[]>()
  for (const [index, { key: _, ...lane }] of instance.lanes.entries()) {
    const name = JSON.stringify([lane.skillMask, lane.available, lane.busy, lane.budget ?? null])
    const group = groups.get(name)
    if (group) group.push(index)
    else groups.set(name, [index])
  }
  return [...groups.values()].filter(({ length }) => length > 1)
}
