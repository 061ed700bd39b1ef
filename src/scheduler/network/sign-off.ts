/** The last look, by which the room is ready. */
import type { Task, TaskKey } from '../../domain/task.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { EXITS_CLEAR, LIMIT_DECIDES } from './safety-notes.ts'
import { peopleText, taskText } from './task-text.ts'

export function signOffTask({ input }: TurnOutline, after: readonly TaskKey[]): Task {
  const { room, toLayout, rates, equipmentFrom } = input
  return fixedTask({
    key: 'sign-off',
    kind: 'sign-off',
    text: taskText([
      `Check ${room.name} against the layout ${toLayout.name}: exits and aisles clear${toLayout.seats ? `, ${toLayout.seats} seats counted` : ''}${equipmentFrom.length > 0 ? ', each device in the state it must be in' : ''}.`,
      'Then say that the room is ready.',
      peopleText(rates.signOffModes),
    ]),
    place: room.name,
    modes: rates.signOffModes,
    after,
    safetyNotes: [EXITS_CLEAR, LIMIT_DECIDES],
  })
}
