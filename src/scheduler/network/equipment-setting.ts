/** What a device may be set to, where it belongs, and how that is said. */
import type { Equipment, EquipmentSetting, LevelControl } from '../../domain/equipment.ts'

/**
 * Why a device with a level cannot hold a setting.
 * @returns a sentence for whoever wrote the layout, or null when it can
 */
export function levelProblem(control: LevelControl, setting: EquipmentSetting): string | null {
  switch (setting.kind) {
    case 'state':
      return `${setting.state} is a named state: this device can be ${levelsHeld(control)}`
    case 'off':
      return control.canBeOff ? null : `off cannot be held: this device can be ${levelsHeld(control)}`
    case 'level': {
      const { levelPercent } = setting
      const held = levelPercent >= control.lowestPercent && levelPercent <= control.highestPercent
      return held ? null : `${levelPercent} % cannot be held: this device can be ${levelsHeld(control)}`
    }
    default:
      return setting satisfies never
  }
}

function levelsHeld({ lowestPercent, highestPercent, canBeOff }: LevelControl): string {
  const range =
    lowestPercent < highestPercent ? `${lowestPercent} to ${highestPercent} %` : `${highestPercent} %`
  return canBeOff ? `off or ${range}` : range
}

/** Where a device belongs when a layout does not name it. */
export function homeSetting(equipment: Equipment): EquipmentSetting {
  const { control } = equipment
  return control.kind === 'states' ? { kind: 'state', state: control.homeState } : control.homeSetting
}

export function sameSetting(a: EquipmentSetting, b: EquipmentSetting): boolean {
  if (a.kind === 'state') return b.kind === 'state' && a.state === b.state
  if (a.kind === 'level') return b.kind === 'level' && a.levelPercent === b.levelPercent
  return b.kind === 'off'
}

/** `off`, `30 %`, or the name of the state as the site wrote it. */
export function settingText(setting: EquipmentSetting): string {
  if (setting.kind === 'state') return setting.state
  return setting.kind === 'off' ? 'off' : `${setting.levelPercent} %`
}
