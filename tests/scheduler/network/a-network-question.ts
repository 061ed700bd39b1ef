/** Questions that tests ask of a network. */
import type { Task, TaskNetwork } from '../../../src/domain/task.ts'

export const keyed = ({ tasks }: TaskNetwork, key: string): Task => {
  const task = tasks.find((one) => one.key === key)
  if (!task) throw new Error(`there is no ${key} among ${tasks.map((one) => one.key).join(', ')}`)
  return task
}

export const ofKind = ({ tasks }: TaskNetwork, kind: Task['kind']): Task[] =>
  tasks.filter((task) => task.kind === kind)

export const piecesIn = (tasks: readonly Task[]): number =>
  tasks.reduce((sum, task) => sum + (task.count ?? 0), 0)

/** Everything that must be done before a task, near or far. */
export function mustPrecede({ tasks }: TaskNetwork, key: string): Set<string> {
  const afterByKey = new Map(tasks.map((task) => [task.key, task.after]))
  const found = new Set<string>()
  const open = [key]
  while (open.length > 0) {
    for (const earlier of afterByKey.get(open.pop()!) ?? []) {
      if (!found.has(earlier)) open.push(earlier)
      found.add(earlier)
    }
  }
  return found
}
