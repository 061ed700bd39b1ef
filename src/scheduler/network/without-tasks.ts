/** A list of tasks once some of them are done or are left out. */
import type { TaskKey, TaskNetwork } from '../../domain/task.ts'

/**
 * The list without some of its tasks. What waited for one of them waits for what that one waited for and is still there:
 * chairs are not set where old ones still stand, though the floor between is clean already.
 * @returns the list itself where none of them is in it
 */
export function withoutTasks(network: TaskNetwork, gone: ReadonlySet<TaskKey>): TaskNetwork {
  if (!network.tasks.some(({ key }) => gone.has(key))) return network
  const byKey = new Map(network.tasks.map((task) => [task.key, task]))
  const waitedFor = new Map<TaskKey, readonly TaskKey[]>()
  const stillThere = (key: TaskKey): readonly TaskKey[] => {
    if (!gone.has(key)) return byKey.has(key) ? [key] : []
    const known = waitedFor.get(key)
    if (known) return known
    const found = distinct((byKey.get(key)?.after ?? []).flatMap(stillThere))
    waitedFor.set(key, found)
    return found
  }
  return {
    resources: network.resources,
    tasks: network.tasks
      .filter(({ key }) => !gone.has(key))
      .map((task) => ({ ...task, after: distinct(task.after.flatMap(stillThere)) })),
    // What is reached already is not waited for any more.
    milestones: network.milestones
      .map((one) => ({ ...one, taskKeys: distinct(one.taskKeys.flatMap(stillThere)) }))
      .filter(({ taskKeys }) => taskKeys.length > 0),
  }
}

const distinct = (keys: readonly TaskKey[]): TaskKey[] => [...new Set(keys)]
