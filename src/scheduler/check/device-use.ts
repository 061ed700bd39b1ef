/** What layouts ask of a device, and the steps between those conditions. */
import type { Equipment, EquipmentSetting, StateName, Transition } from '../../domain/equipment.ts'
import { equipmentPath } from '../network/equipment-path.ts'
import { sameSetting } from '../network/equipment-setting.ts'
import type { SetupReading } from './setup-reading.ts'
import type { DeviceUse } from './uses-by-device.ts'

export const deviceUses = (reading: SetupReading, { id }: Equipment): readonly DeviceUse[] =>
  reading.deviceUses.get(id) ?? []

/** Each condition once, in the order layouts ask for it. */
export function distinctSettings(uses: readonly DeviceUse[]): EquipmentSetting[] {
  const distinct: EquipmentSetting[] = []
  for (const { setting } of uses) {
    if (!distinct.some((known) => sameSetting(known, setting))) distinct.push(setting)
  }
  return distinct
}

/** The states layouts ask for that the device has, each once, in the order they are listed. */
export function statesUsed(device: Equipment, uses: readonly DeviceUse[]): StateName[] {
  if (device.control.kind !== 'states') return []
  return [...new Set(device.control.states)].filter((state) =>
    uses.some(({ setting }) => setting.kind === 'state' && setting.state === state),
  )
}

/** Every step on the quickest way from one state that layouts ask for to another, in the order they are listed. */
export function stepsUsed(device: Equipment, uses: readonly DeviceUse[]): Transition[] {
  const { control } = device
  if (control.kind !== 'states') return []
  const states = statesUsed(device, uses)
  const steps = new Set(
    states.flatMap((from) =>
      states.flatMap((to) => (from === to ? [] : (equipmentPath(control, from, to) ?? []))),
    ),
  )
  return control.transitions.filter((step) => steps.has(step))
}

/** `game input` for `game-input` */
export const stateText = (state: StateName): string => state.replaceAll('-', ' ')

export function settingText(setting: EquipmentSetting): string {
  if (setting.kind === 'state') return stateText(setting.state)
  return setting.kind === 'off' ? 'off' : `${setting.levelPercent} %`
}
