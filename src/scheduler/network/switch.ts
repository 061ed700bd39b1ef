/** Bringing each device of the room into the state the layout asks for, or home where it asks for nothing. */
import type { Equipment } from '../../domain/equipment.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import type { SwitchStep } from './device-switches.ts'
import type { NetworkInput } from './network-input.ts'
import type { TurnOutline } from './outline.ts'
import { MAKERS_INSTRUCTIONS, QUALIFIED_ONLY } from './safety-notes.ts'
import { durationText, peopleText, taskText } from './task-text.ts'

export interface SwitchTasks {
  readonly tasks: readonly Task[]
  /** The last step of each device that needs the floor clear: nothing may be set before. */
  readonly floorClearEnds: readonly TaskKey[]
}

/**
 * Steps of one device follow each other. A step that needs the floor clear waits for everything to be struck; any
 * other may run from `startKeys` on. Times are the device's own: pace and allowance do not change them.
 */
export function switchTasks(
  { input, deviceSwitches }: TurnOutline,
  startKeys: readonly TaskKey[],
  struckKeys: readonly TaskKey[],
): SwitchTasks {
  const tasks: Task[] = []
  const floorClearEnds: TaskKey[] = []
  for (const { equipment, steps } of deviceSwitches) {
    let previous: TaskKey | null = null
    let lastClear: TaskKey | null = null
    for (const step of steps) {
      const task = switchTask(input, equipment, step)
      const after = new Set(previous === null ? startKeys : [previous])
      if (step.needsFloorClear) {
        for (const key of struckKeys) after.add(key)
        lastClear = task.key
      }
      tasks.push({ ...task, after: [...after] })
      previous = task.key
    }
    if (lastClear !== null) floorClearEnds.push(lastClear)
  }
  return { tasks, floorClearEnds }
}

function switchTask(input: NetworkInput, equipment: Equipment, step: SwitchStep): Task {
  const modes = [{ hands: step.hands, seconds: step.seconds }]
  const spoken = (state: string) => state.replaceAll('-', ' ')
  return {
    key: `switch/${equipment.id}/${step.name}`,
    kind: 'switch',
    zone: null,
    text: taskText([
      `Change ${equipment.name} from ${spoken(step.from)} to ${spoken(step.to)}, about ${durationText(step.seconds)}.`,
      ...(step.needsFloorClear ? ['The floor must be clear until it is done.'] : []),
      step.hands === 0 ? 'It runs by itself; nobody has to stay.' : peopleText(modes),
      ...(step.skill === null
        ? []
        : [`${step.hands === 1 ? 'It takes' : 'One of them must have'} the skill ${step.skill}.`]),
    ]),
    count: null,
    furnishingId: null,
    equipmentId: equipment.id,
    fromPlace: null,
    toPlace: input.room.name,
    workPersonSeconds: step.hands * step.seconds,
    modes,
    skill: step.skill,
    adultsOnly: false,
    uses: [],
    after: [],
    safetyNotes: [QUALIFIED_ONLY, MAKERS_INSTRUCTIONS],
  }
}
