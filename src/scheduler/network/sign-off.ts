/** The last look, by which the room is ready. */
import type { Task, TaskKey } from '../../domain/task.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { firstModeNumbers } from './reckoned-numbers.ts'
import { EXITS_CLEAR, LIMIT_DECIDES } from './safety-notes.ts'
import { signOffText } from './task-catalogue/room-texts.ts'

export function signOffTask(outline: TurnOutline, after: readonly TaskKey[]): Task {
  const { input } = outline
  const modes = input.rates.signOffModes
  return fixedTask(outline, {
    key: 'sign-off',
    kind: 'sign-off',
    text: signOffText(input, modes),
    place: input.room.name,
    modes,
    // That the ways out are clear is not for a minor to answer for. Common practice, no source.
    adultsOnly: true,
    after,
    safetyNotes: [EXITS_CLEAR, LIMIT_DECIDES],
    reckon: () => ({ what: 'sign-off', ...firstModeNumbers(input, 'signOffModes') }),
  })
}
