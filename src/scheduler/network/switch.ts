/** Bringing each device of the room into the state the layout asks for, or home where it asks for nothing. */
import type { Equipment } from '../../domain/equipment.ts'
import type { EquipmentId } from '../../domain/ids.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import type { DeviceSwitch, SwitchStep } from './device-switches.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { ownNumber } from './reckoned-numbers.ts'
import { LIGHT_TO_WALK_BY, MAKERS_INSTRUCTIONS, NO_SUDDEN_SOUND, QUALIFIED_ONLY } from './safety-notes.ts'
import { readinessText, switchText, warmUpText } from './task-catalogue/device-texts.ts'

export interface SwitchTasks {
  readonly tasks: readonly Task[]
  /** The last task of each device before it is tried out. */
  readonly deviceEnds: readonly TaskKey[]
  readonly quietKeys: ReadonlySet<TaskKey>
  readonly darkKeys: ReadonlySet<TaskKey>
}

/** What devices do before the room is worked in, and where each of them is left then. */
export interface EarlySwitchTasks {
  readonly tasks: readonly Task[]
  /** The last step of each device that needs the floor clear: nothing may be cleaned, marked or set before. */
  readonly floorClearEnds: readonly TaskKey[]
  /** Of devices that have early tasks: the last of these. */
  readonly endByDevice: ReadonlyMap<EquipmentId, TaskKey>
  readonly wallEnds: readonly TaskKey[]
  readonly quietKeys: ReadonlySet<TaskKey>
  readonly darkKeys: ReadonlySet<TaskKey>
}

const isWall = ({ equipment }: DeviceSwitch): boolean => equipment.kind === 'movable-wall'

const wallsFirst = ({ deviceSwitches }: TurnOutline): DeviceSwitch[] => [
  ...deviceSwitches.filter(isWall),
  ...deviceSwitches.filter((one) => !isWall(one)),
]

/**
 * Early steps of one device follow each other; when no late one follows, it warms up. A step that needs the floor clear
 * waits for everything to be struck and for whoever carries things through the room, one that needs a movable wall
 * open for the movable walls of the room; any other may run from `startKeys` on. Walls come first in the list, and none
 * waits for another. Times are the device's own: pace and allowance do not change them.
 * @param floorClearKeys  after which nobody and nothing that has to go is on the floor
 */
export function earlySwitchTasks(
  outline: TurnOutline,
  startKeys: readonly TaskKey[],
  floorClearKeys: readonly TaskKey[],
): EarlySwitchTasks {
  const made = new MadeTasks()
  const floorClearEnds: TaskKey[] = []
  const endByDevice = new Map<EquipmentId, TaskKey>()
  const wallEnds: TaskKey[] = []
  for (const device of wallsFirst(outline)) {
    const { equipment, steps, earlySteps, warmUpSeconds } = device
    let previous: TaskKey | null = null
    let lastClear: TaskKey | null = null
    for (const step of steps.slice(0, earlySteps)) {
      const after: TaskKey[] = [
        ...(previous === null ? startKeys : [previous]),
        ...(step.needsFloorClear ? floorClearKeys : []),
        ...(step.needsWallOpen && !isWall(device) ? wallEnds : []),
      ]
      previous = made.add(switchTask(outline, equipment, step, distinct(after)), step)
      if (step.needsFloorClear) lastClear = previous
    }
    if (lastClear !== null) floorClearEnds.push(lastClear)
    if (isWall(device) && previous !== null) wallEnds.push(previous)
    if (warmUpSeconds > 0 && earlySteps === steps.length) {
      previous = made.add(warmUpTask(outline, equipment, previous === null ? startKeys : [previous]))
    }
    if (previous !== null) endByDevice.set(equipment.id, previous)
  }
  return { ...made, floorClearEnds, endByDevice, wallEnds }
}

/**
 * The late steps of each device, its warm-up where it was not early, and trying out, which is late for every device:
 * all of it when nobody works in the room any more. A step that needs a movable wall open waits for that too.
 * @param roomKeys  after which everything in the room is cleaned and set; not empty
 */
export function lateSwitchTasks(
  outline: TurnOutline,
  early: EarlySwitchTasks,
  roomKeys: readonly TaskKey[],
): SwitchTasks {
  const made = new MadeTasks()
  const deviceEnds: TaskKey[] = []
  for (const device of wallsFirst(outline)) {
    const { equipment, steps, earlySteps, warmUpSeconds, readinessCheck } = device
    let end = early.endByDevice.get(equipment.id) ?? null
    let previous: readonly TaskKey[] = end === null ? roomKeys : distinct([end, ...roomKeys])
    for (const step of steps.slice(earlySteps)) {
      const after = step.needsWallOpen && !isWall(device) ? [...previous, ...early.wallEnds] : previous
      end = made.add(switchTask(outline, equipment, step, distinct(after)), step)
      previous = [end]
    }
    if (warmUpSeconds > 0 && earlySteps < steps.length) {
      end = made.add(warmUpTask(outline, equipment, previous))
      previous = [end]
    }
    if (steps.length > 0 && end !== null) deviceEnds.push(end)
    if (readinessCheck) {
      made.add(readinessTask(outline, equipment, readinessCheck, previous), readinessCheck)
    }
  }
  return {
    tasks: made.tasks,
    deviceEnds,
    quietKeys: new Set([...early.quietKeys, ...made.quietKeys]),
    darkKeys: new Set([...early.darkKeys, ...made.darkKeys]),
  }
}

/** Tasks in the order they are made, and which of them need quiet or dark. */
class MadeTasks {
  readonly tasks: Task[] = []
  readonly quietKeys = new Set<TaskKey>()
  readonly darkKeys = new Set<TaskKey>()

  add(
    task: Task,
    needs: { readonly needsQuiet: boolean; readonly needsDark: boolean } | null = null,
  ): TaskKey {
    this.tasks.push(task)
    if (needs?.needsQuiet) this.quietKeys.add(task.key)
    if (needs?.needsDark) this.darkKeys.add(task.key)
    return task.key
  }
}

const distinct = (keys: readonly TaskKey[]): TaskKey[] => [...new Set(keys)]

/** How many tasks the two functions above make together. */
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
      what: equipment.kind === 'ventilation' ? 'airing' : 'warming up',
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
