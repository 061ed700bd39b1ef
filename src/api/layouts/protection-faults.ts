/** Devices that a use can damage must be out of harm's way in every layout for it. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { Layout } from '../../domain/layout.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { homeSetting } from '../../scheduler/network/index.ts'
import { isIn } from '../equipment/setting-problem.ts'
import { bodyFault, type Fault } from '../problems.ts'

export function protectionFaults(layout: Layout, setup: SiteSetup): Fault[] {
  const room = setup.rooms.find(({ id }) => id === layout.roomId)
  if (!room) return []
  return setup.equipment
    .filter((device) => isIn(device, room))
    .flatMap((device) => deviceFault(layout, device))
}

function deviceFault(layout: Layout, device: Equipment): Fault[] {
  const protection = device.protections.find(({ during }) => during.includes(layout.kind))
  if (!protection) return []
  const index = layout.equipment.findIndex(({ equipmentId }) => equipmentId === device.id)
  const named = layout.equipment[index]?.setting
  const setting = named ?? homeSetting(device)
  if (isSame(setting, protection.setting)) return []
  const must = `${layout.kind} can damage ${device.name}: then it must be ${textOf(protection.setting)}`
  return named
    ? [bodyFault(`/equipment/${index}/setting`, `${must}, and the layout asks for ${textOf(setting)}`)]
    : [
        bodyFault(
          '/equipment',
          `${must}. The layout does not name it, so it would be at home: ${textOf(setting)}; name it`,
        ),
      ]
}

const isSame = (a: EquipmentSetting, b: EquipmentSetting): boolean => textOf(a) === textOf(b)

function textOf(setting: EquipmentSetting): string {
  if (setting.kind === 'state') return setting.state
  return setting.kind === 'off' ? 'off' : `at ${setting.levelPercent} %`
}
