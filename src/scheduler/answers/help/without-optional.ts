/** Leaving out what a room can be used without: tasks that are marked `optional`. */
import type { Task, TaskKey, TaskNetwork } from '../../../domain/task.ts'
import { listText } from '../../wording/list-text.ts'
import { circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import type { Candidate, HelpAsked } from './candidate.ts'

/** All of them together; which of them to leave out first, when a turn runs late, is another question. */
export function withoutOptionalHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const optional = circumstances.part.network.tasks.filter((task) => task.optional === true)
  if (optional.length === 0) return []
  const names = [...new Set(optional.map(nameOf))].sort()
  return [
    {
      change: { kind: 'without-optional', taskKeys: optional.map(({ key }) => key) },
      what: `Without ${listText(names)}`,
      readyAt: () => {
        const changed = circumstancesOf(snapshot, turn, withoutOptional)
        return changed && readyAtIn(changed, search)
      },
    },
  ]
}

function nameOf({ kind }: Task): string {
  switch (kind) {
    case 'mark-out':
      return 'marking out'
    case 'bins':
      return 'emptying bins'
    case 'settings':
      return 'place settings'
    case 'set':
      return 'lining up rows'
    default:
      return kind
  }
}

/** What waited for an optional task waits for what that had waited for. */
export function withoutOptional(network: TaskNetwork): TaskNetwork {
  const gone = new Map<TaskKey, readonly TaskKey[]>()
  const tasks: Task[] = []
  const instead = (keys: readonly TaskKey[]): TaskKey[] => [
    ...new Set(keys.flatMap((key) => gone.get(key) ?? [key])),
  ]
  // Each task comes after those it waits for: what stands in for those that are gone is known by then.
  for (const task of network.tasks) {
    const after = instead(task.after)
    if (task.optional === true) gone.set(task.key, after)
    else tasks.push({ ...task, after })
  }
  const milestones = network.milestones
    .map(({ milestone, taskKeys }) => ({ milestone, taskKeys: instead(taskKeys) }))
    .filter(({ taskKeys }) => taskKeys.length > 0)
  return { ...network, tasks, milestones }
}
