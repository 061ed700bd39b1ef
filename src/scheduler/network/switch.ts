/** Bringing each device of the room into the state the layout asks for, or home where it asks for nothing. */
import type { Equipment, EquipmentSetting, LevelControl, Transition } from '../../domain/equipment.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import { equipmentPath } from './equipment-path.ts'
import { homeSetting, levelProblem, sameSetting, settingText } from './equipment-setting.ts'
import type { NetworkInput } from './network-input.ts'
import type { TurnOutline } from './outline.ts'
import { MAKERS_INSTRUCTIONS, QUALIFIED_ONLY } from './safety-notes.ts'
import { StateUnreachable } from './state-unreachable.ts'
import { durationText, peopleText, taskText } from './task-text.ts'

/** One step of one device. */
interface SwitchStep {
  /** Last part of its key. */
  readonly name: string
  readonly from: string
  readonly to: string
  readonly seconds: number
  /** 0: it runs by itself. */
  readonly hands: number
  readonly skill: Transition['skill']
  readonly needsFloorClear: boolean
}

/** What one device needs, in order; at least one step. */
export interface DeviceSwitch {
  readonly equipment: Equipment
  readonly steps: readonly SwitchStep[]
}

/**
 * The devices that are not as the wanted layout asks, by id, each with the quickest way there.
 * @throws StateUnreachable when a device cannot be brought there, or cannot hold what is asked at all
 * @throws Error when the layout names a device that the room does not have
 */
export function deviceSwitches({ equipmentFrom, toLayout }: NetworkInput): DeviceSwitch[] {
  for (const { equipmentId } of toLayout.equipment) {
    if (!equipmentFrom.some(({ equipment }) => equipment.id === equipmentId)) {
      throw new Error(
        `${equipmentId} is named by the layout ${toLayout.id}, and is not among the room's devices`,
      )
    }
  }
  return [...equipmentFrom]
    .sort((a, b) => (a.equipment.id < b.equipment.id ? -1 : 1))
    .flatMap(({ equipment, setting }): DeviceSwitch[] => {
      const asked = toLayout.equipment.find((one) => one.equipmentId === equipment.id)?.setting
      const wanted = asked ?? homeSetting(equipment)
      return sameSetting(setting, wanted) ? [] : [{ equipment, steps: stepsTo(equipment, setting, wanted) }]
    })
}

/** Whether any device needs the floor empty on its way. */
export const needFloorClear = (switches: readonly DeviceSwitch[]): boolean =>
  switches.some(({ steps }) => steps.some((step) => step.needsFloorClear))

function stepsTo(equipment: Equipment, from: EquipmentSetting, to: EquipmentSetting): SwitchStep[] {
  const { control } = equipment
  const unreachable = new StateUnreachable(equipment.id, equipment.name, settingText(from), settingText(to))
  if (control.kind === 'level') {
    if (levelProblem(control, to) !== null) throw unreachable
    return [levelStep(control, from, to)]
  }
  if (from.kind !== 'state' || to.kind !== 'state') throw unreachable
  const path = equipmentPath(control, from.state, to.state)
  if (path === null) throw unreachable
  return path.map(({ from, to, seconds, hands, skill, needsFloorClear }) => {
    // What runs by itself holds nobody, so nobody can be asked to have a skill for it.
    return {
      name: `${from}/${to}`,
      from,
      to,
      seconds,
      hands,
      skill: hands === 0 ? null : skill,
      needsFloorClear,
    }
  })
}

function levelStep(control: LevelControl, from: EquipmentSetting, to: EquipmentSetting): SwitchStep {
  const { setSeconds, hands, skill } = control
  return {
    name: to.kind === 'level' ? `${to.levelPercent}-percent` : 'off',
    from: settingText(from),
    to: settingText(to),
    seconds: setSeconds,
    hands,
    skill,
    needsFloorClear: false,
  }
}

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
