/** Bringing each device of the room into the state the layout asks for, or home where it asks for nothing. */
import type { Equipment } from '../../domain/equipment.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import type { DeviceSwitch, SwitchStep } from './device-switches.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { ownNumber } from './reckoned-numbers.ts'
import { LIGHT_TO_WALK_BY, MAKERS_INSTRUCTIONS, NO_SUDDEN_SOUND, QUALIFIED_ONLY } from './safety-notes.ts'
import { readinessText, switchText, warmUpText } from './task-catalogue/device-texts.ts'

export interface SwitchTasks {
  readonly tasks: readonly Task[]
  /** The last step of each device that needs the floor clear: nothing may be set before. */
  readonly floorClearEnds: readonly TaskKey[]
  /** The last task of each device before it is tried out. */
  readonly deviceEnds: readonly TaskKey[]
  readonly quietKeys: ReadonlySet<TaskKey>
  readonly darkKeys: ReadonlySet<TaskKey>
}

/**
 * Steps of one device follow each other, then it warms up, then it is tried out. A step that needs the floor clear
 * waits for everything to be struck, one that needs a movable wall open for the movable walls of the room; any other
 * may run from `startKeys` on. Walls come first in the list, and none waits for another. Times are the device's own:
 * pace and allowance do not change them.
 */
export function switchTasks(
  outline: TurnOutline,
  startKeys: readonly TaskKey[],
  struckKeys: readonly TaskKey[],
): SwitchTasks {
  const tasks: Task[] = []
  const floorClearEnds: TaskKey[] = []
  const deviceEnds: TaskKey[] = []
  const quietKeys = new Set<TaskKey>()
  const darkKeys = new Set<TaskKey>()
  const wallEnds: TaskKey[] = []
  const add = (task: Task, needs: { readonly needsQuiet: boolean; readonly needsDark: boolean }) => {
    tasks.push(task)
    if (needs.needsQuiet) quietKeys.add(task.key)
    if (needs.needsDark) darkKeys.add(task.key)
    return task.key
  }
  const isWall = ({ equipment }: DeviceSwitch) => equipment.kind === 'movable-wall'
  const wallsFirst = [
    ...outline.deviceSwitches.filter(isWall),
    ...outline.deviceSwitches.filter((one) => !isWall(one)),
  ]
  for (const device of wallsFirst) {
    const { equipment, steps, warmUpSeconds, readinessCheck } = device
    let previous: readonly TaskKey[] = startKeys
    let lastClear: TaskKey | null = null
    for (const step of steps) {
      const after = new Set(previous)
      if (step.needsFloorClear) for (const key of struckKeys) after.add(key)
      if (step.needsWallOpen && !isWall(device)) for (const key of wallEnds) after.add(key)
      const key = add(switchTask(outline, equipment, step, [...after]), step)
      if (step.needsFloorClear) lastClear = key
      previous = [key]
    }
    if (lastClear !== null) floorClearEnds.push(lastClear)
    if (isWall(device) && steps.length > 0) wallEnds.push(...previous)
    if (warmUpSeconds > 0) {
      previous = [add(warmUpTask(outline, equipment, previous), { needsQuiet: false, needsDark: false })]
    }
    if (steps.length > 0) deviceEnds.push(...previous)
    if (readinessCheck) {
      add(readinessTask(outline, equipment, readinessCheck, previous), readinessCheck)
    }
  }
  return { tasks, floorClearEnds, deviceEnds, quietKeys, darkKeys }
}

/** How many tasks `switchTasks` makes. */
export const switchTaskCount = ({ deviceSwitches }: TurnOutline): number =>
  deviceSwitches.reduce(
    (sum, { steps, warmUpSeconds, readinessCheck }) =>
      sum + steps.length + (warmUpSeconds > 0 ? 1 : 0) + (readinessCheck ? 1 : 0),
    0,
  )

function switchTask(
  outline: TurnOutline,
  equipment: Equipment,
  step: SwitchStep,
  after: readonly TaskKey[],
): Task {
  return fixedTask(outline, {
    key: `switch/${equipment.id}/${step.name}`,
    kind: 'switch',
    text: switchText(equipment, step),
    place: outline.input.room.name,
    modes: [{ hands: step.hands, seconds: step.seconds }],
    equipmentId: equipment.id,
    skill: step.skill,
    after,
    safetyNotes: [QUALIFIED_ONLY, MAKERS_INSTRUCTIONS, ...(step.needsDark ? [LIGHT_TO_WALK_BY] : [])],
    reckon: () => ({
      what: 'switching',
      seconds: ownNumber(`${step.from} to ${step.to}`, step.seconds, 'seconds', equipment.name),
      hands: ownNumber('people', step.hands, 'hands', equipment.name),
    }),
  })
}

function warmUpTask(outline: TurnOutline, equipment: Equipment, after: readonly TaskKey[]): Task {
  const seconds = equipment.warmUpSeconds
  return fixedTask(outline, {
    key: `warm-up/${equipment.id}`,
    kind: 'warm-up',
    text: warmUpText(equipment),
    place: outline.input.room.name,
    modes: [{ hands: 0, seconds }],
    equipmentId: equipment.id,
    after,
    safetyNotes: [MAKERS_INSTRUCTIONS],
    reckon: () => ({
      what: 'warming up',
      seconds: ownNumber('until it serves', seconds, 'seconds', equipment.name),
      hands: ownNumber('people', 0, 'hands', equipment.name),
    }),
  })
}

function readinessTask(
  outline: TurnOutline,
  equipment: Equipment,
  check: NonNullable<DeviceSwitch['readinessCheck']>,
  after: readonly TaskKey[],
): Task {
  const { seconds, hands } = check
  return fixedTask(outline, {
    key: `sound-check/${equipment.id}`,
    kind: 'sound-check',
    text: readinessText(equipment, check, outline.input.room.name),
    place: outline.input.room.name,
    modes: [{ hands, seconds }],
    equipmentId: equipment.id,
    skill: check.skill,
    after,
    safetyNotes: [
      equipment.kind === 'sound' ? NO_SUDDEN_SOUND : QUALIFIED_ONLY,
      ...(check.needsDark ? [LIGHT_TO_WALK_BY] : []),
    ],
    reckon: () => ({
      what: 'trying out',
      seconds: ownNumber(check.what, seconds, 'seconds', equipment.name),
      hands: ownNumber('people', hands, 'hands', equipment.name),
    }),
  })
}
