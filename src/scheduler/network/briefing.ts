/** The first minutes of a turn with volunteers: who does what, in which order, and what nobody may do. */
import type { Task } from '../../domain/task.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { EXITS_CLEAR, QUALIFIED_ONLY } from './safety-notes.ts'
import { taskText } from './task-text.ts'

/**
 * One person leads it and everybody listens: a task cannot hold however many hands there will be, so it holds the
 * lead's and everything else waits for it. None where the policy has no time for it, and none where the layout
 * stays as it is: there is nothing to share out.
 */
export function briefingTasks({ input, staysAsItIs }: TurnOutline): Task[] {
  const seconds = input.policy.briefingSeconds
  if (seconds === 0 || staysAsItIs) return []
  return [
    fixedTask({
      key: 'briefing',
      kind: 'briefing',
      text: taskText([
        `Brief everybody in ${input.room.name}: what stands now, the layout ${input.toLayout.name} that is wanted, who works with whom, where things go.`,
        'The lead talks, everybody listens; nobody starts before.',
      ]),
      place: input.room.name,
      modes: [{ hands: 1, seconds }],
      after: [],
      safetyNotes: [QUALIFIED_ONLY, EXITS_CLEAR],
    }),
  ]
}
