/** What changes for whom, so that only those are told: tasks that somebody now has, and had not, and the other way round. */
import type { LaneId } from '../../domain/ids.ts'
import type { PlannedTask } from '../../domain/plan.ts'

export interface TaskTold {
  readonly key: string
  readonly text: string
}

export interface LaneChange {
  readonly laneId: LaneId
  /** By start. */
  readonly newTasks: readonly TaskTold[]
  /** By start as it was. */
  readonly goneTasks: readonly TaskTold[]
}

/**
 * Other times alone are no change: people do one thing after the other.
 * @param before  what people carry, without what is done and what is running
 * @param after   the same of the plan made anew
 * @returns by lane id; those for whom nothing changes are left out
 */
export function laneChanges(before: readonly PlannedTask[], after: readonly PlannedTask[]): LaneChange[] {
  const had = tasksByLane(before)
  const has = tasksByLane(after)
  return [...new Set([...had.keys(), ...has.keys()])]
    .sort()
    .map((laneId) => ({
      laneId,
      newTasks: notAmong(has.get(laneId) ?? [], had.get(laneId) ?? []),
      goneTasks: notAmong(had.get(laneId) ?? [], has.get(laneId) ?? []),
    }))
    .filter(({ newTasks, goneTasks }) => newTasks.length + goneTasks.length > 0)
}

function tasksByLane(tasks: readonly PlannedTask[]): Map<LaneId, PlannedTask[]> {
  const byLane = new Map<LaneId, PlannedTask[]>()
  for (const task of tasks.toSorted((a, b) => a.startsAt - b.startsAt || (a.key < b.key ? -1 : 1))) {
    for (const laneId of task.laneIds) {
      const list = byLane.get(laneId)
      if (list) list.push(task)
      else byLane.set(laneId, [task])
    }
  }
  return byLane
}

/** A task that says something else now, other pieces or another place, is another one. */
function notAmong(tasks: readonly PlannedTask[], others: readonly PlannedTask[]): TaskTold[] {
  const known = new Map(others.map(({ key, text }) => [key, text]))
  return tasks.filter(({ key, text }) => known.get(key) !== text).map(({ key, text }) => ({ key, text }))
}
