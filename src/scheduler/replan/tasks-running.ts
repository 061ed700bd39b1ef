/** What is left of a list of tasks once some of them are running. */
import type { Task, TaskKey, TaskNetwork } from '../../domain/task.ts'

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
