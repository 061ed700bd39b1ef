/** A look at the room before anything is moved. */
import type { Task, TaskKey } from '../../domain/task.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { EXITS_CLEAR } from './safety-notes.ts'
import { peopleText, taskText } from './task-text.ts'

export const WALKTHROUGH_KEY = 'walkthrough'

export function walkthroughTask({ input, zones, staysAsItIs }: TurnOutline, after: readonly TaskKey[]): Task {
  const { room, rates } = input
  return fixedTask({
    key: WALKTHROUGH_KEY,
    kind: 'walkthrough',
    text: taskText([
      `Walk through ${room.name}: everybody out, lost property aside, count what stands, look for damage and wet floor.`,
      ...(zones.length > 1 && !staysAsItIs
        ? [`Agree on the ${zones.length} zones, equal strips across the room, and which end is zone 1.`]
        : []),
      peopleText(rates.walkthroughModes),
    ]),
    place: room.name,
    modes: rates.walkthroughModes,
    after,
    safetyNotes: [EXITS_CLEAR],
  })
}
