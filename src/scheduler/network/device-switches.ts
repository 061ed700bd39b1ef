/** Which devices are not as the wanted layout asks, and the steps that bring each of them there. */
import type {
  Equipment,
  EquipmentSetting,
  LevelControl,
  ReadinessCheck,
  Transition,
} from '../../domain/equipment.ts'
import { earlyStepCount, isOff } from './early-steps.ts'
import { equipmentPath } from './equipment-path.ts'
import { homeSetting, levelProblem, sameSetting, settingText } from './equipment-setting.ts'
import type { NetworkInput } from './network-input.ts'
import { StateUnreachable } from './state-unreachable.ts'

/** One step of one device. */
export interface SwitchStep {
  /** Last part of its key. */
  readonly name: string
  readonly from: string
  readonly to: string
  readonly seconds: number
  /** 0: it runs by itself. */
  readonly hands: number
  readonly skill: Transition['skill']
  readonly needsFloorClear: boolean
  readonly needsQuiet: boolean
  readonly needsDark: boolean
  readonly needsWallOpen: boolean
}

/** What one device needs, in order: steps, then time to warm up, then a try. At least one of them. */
export interface DeviceSwitch {
  readonly equipment: Equipment
  readonly steps: readonly SwitchStep[]
  /** Of the steps, from the first: those that do not wait until everything in the room is set. */
  readonly earlySteps: number
  /** 0: it serves at once, or it was on before. Of ventilation: until the room is aired. */
  readonly warmUpSeconds: number
  /** null: nothing is tried out. */
  readonly readinessCheck: ReadinessCheck | null
}

/**
 * The devices that are not as the wanted layout asks, by id, each with the quickest way there; and those that are, and
 * have to be tried out before a new use. What was on already is warm. Nothing is tried out at home, nor where the very
 * layout stays and the device was not touched. Airing the room is the warm-up of its ventilation: after guests also of
 * ventilation that is on already and stays on; a room whose layout leaves the ventilation off is not aired.
 * @throws StateUnreachable when a device cannot be brought there, or cannot hold what is asked at all
 * @throws Error when the layout names a device that the room does not have
 */
export function deviceSwitches({
  equipmentFrom,
  toLayout,
  sameLayout,
  outgoing,
}: NetworkInput): DeviceSwitch[] {
  const hadGuests = outgoing !== null && outgoing.headcount > 0
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
      const isSame = sameSetting(setting, wanted)
      const isHome = sameSetting(wanted, homeSetting(equipment))
      const readinessCheck = isHome || (isSame && sameLayout) ? null : equipment.readinessCheck
      const comesOn = !isSame && !isHome && !isOff(wanted) && (isOff(setting) || isAtHome(equipment, setting))
      const airs = equipment.kind === 'ventilation' && hadGuests && !isOff(wanted)
      const warmUpSeconds = comesOn || airs ? equipment.warmUpSeconds : 0
      if (isSame && readinessCheck === null && warmUpSeconds === 0) return []
      const steps = isSame ? [] : stepsTo(equipment, setting, wanted)
      const earlySteps = earlyStepCount(equipment, steps, setting, wanted)
      return [{ equipment, steps, earlySteps, warmUpSeconds, readinessCheck }]
    })
}

const isAtHome = (equipment: Equipment, setting: EquipmentSetting): boolean =>
  sameSetting(setting, homeSetting(equipment))

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
  return path.map(({ from, to, seconds, hands, skill, ...needs }) => ({
    name: `${from}/${to}`,
    from,
    to,
    seconds,
    hands,
    // What runs by itself holds nobody, so nobody can be asked to have a skill for it.
    skill: hands === 0 ? null : skill,
    needsFloorClear: needs.needsFloorClear,
    needsQuiet: needs.needsQuiet,
    needsDark: needs.needsDark,
    needsWallOpen: needs.needsWallOpen,
  }))
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
    needsQuiet: false,
    needsDark: false,
    needsWallOpen: false,
  }
}
