/** A look at the room before anything is moved. */
import type { Task, TaskKey } from '../../domain/task.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { firstModeNumbers } from './reckoned-numbers.ts'
import { EXITS_CLEAR } from './safety-notes.ts'
import { walkthroughText } from './task-catalogue/room-texts.ts'

export function walkthroughTask(outline: TurnOutline, after: readonly TaskKey[]): Task {
  const { input, zones, staysAsItIs } = outline
  const modes = input.rates.walkthroughModes
  return fixedTask(outline, {
    key: 'walkthrough',
    kind: 'walkthrough',
    text: walkthroughText(input, zones, staysAsItIs, modes),
    place: input.room.name,
    modes,
    after,
    safetyNotes: [EXITS_CLEAR],
    reckon: () => ({ what: 'walkthrough', ...firstModeNumbers(input, 'walkthroughModes') }),
  })
}
