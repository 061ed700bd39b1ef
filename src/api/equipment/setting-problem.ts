import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { Room } from '../../domain/room.ts'
import { levelProblem } from '../../scheduler/network/index.ts'

/** Why a device cannot be in a condition, as half a sentence; null: it can. */
export function settingProblem({ control }: Equipment, setting: EquipmentSetting): string | null {
  if (control.kind === 'level') return levelProblem(control, setting)
  const named = `its states are ${control.states.join(', ')}`
  if (setting.kind !== 'state') return `it has no levels; ${named}`
  return control.states.includes(setting.state) ? null : `${setting.state} is none of its states; ${named}`
}

export const isIn = (device: Equipment, room: Room): boolean =>
  device.sectionIds.some((id) => room.sectionIds.includes(id))
