/** Leaving out what a room can be used without: tasks that are marked `optional`. */
import type { Task } from '../../../domain/task.ts'
import { withoutTasks } from '../../network/without-tasks.ts'
import { listText } from '../../wording/list-text.ts'
import { circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import type { Candidate, HelpAsked } from './candidate.ts'

/** All of them together; which of them to leave out first, when a turn runs late, is another question. */
export function withoutOptionalHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const optional = circumstances.part.network.tasks.filter((task) => task.optional === true)
  if (optional.length === 0) return []
  const taskKeys = optional.map(({ key }) => key)
  const names = [...new Set(optional.map(nameOf))].sort()
  return [
    {
      change: { kind: 'without-optional', taskKeys },
      what: `Without ${listText(names)}`,
      isNeverLater: true,
      readyAt: () => {
        const changed = circumstancesOf(snapshot, turn, (network) => withoutTasks(network, new Set(taskKeys)))
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
