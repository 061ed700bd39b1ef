/** What is left of a list of tasks once some of them are done, are running, or are left out. */
import type { Task, TaskKey, TaskNetwork } from '../../domain/task.ts'

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
      .map((one) => ({ ...one, taskKeys: one.taskKeys.filter((key) => byKey.has(key) && !gone.has(key)) }))
      .filter(({ taskKeys }) => taskKeys.length > 0),
  }
}

/**
 * The list in which tasks that are running take no hands and nothing else, only the time that is left of them: those who
 * are at it hold what they hold. What waits for one of them also waits for what it should have waited for.
 * @param secondsLeft  of each, 1 or more
 */
export function withRunning(network: TaskNetwork, secondsLeft: ReadonlyMap<TaskKey, number>): TaskNetwork {
  if (secondsLeft.size === 0) return network
  const byKey = new Map(network.tasks.map((task) => [task.key, task]))
  const behind = (key: TaskKey): readonly TaskKey[] =>
    secondsLeft.has(key) ? [key, ...(byKey.get(key)?.after ?? []).flatMap(behind)] : [key]
  return {
    ...network,
    tasks: network.tasks.map((task): Task => {
      const seconds = secondsLeft.get(task.key)
      return seconds === undefined
        ? { ...task, after: distinct(task.after.flatMap(behind)) }
        : { ...task, modes: [{ hands: 0, seconds }], skill: null, adultsOnly: false, uses: [], after: [] }
    }),
  }
}

const distinct = (keys: readonly TaskKey[]): TaskKey[] => [...new Set(keys)]
