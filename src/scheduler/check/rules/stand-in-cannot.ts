import type { Equipment, EquipmentSetting } from '../../../domain/equipment.ts'
import { levelProblem } from '../../network/equipment-setting.ts'
import { listText } from '../../wording/list-text.ts'
import { deviceUses, distinctSettings, settingText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Conditions that layouts ask for by name and a stand-in cannot be in. */
export function standInCannot(reading: SetupReading): Found[] {
  return reading.setup.equipment.flatMap((device) => {
    const asked = distinctSettings(deviceUses(reading, device).filter(({ index }) => index !== null))
    return device.standInIds.flatMap((id, place): Found[] => {
      const standIn = reading.devices.get(id)
      const cannot = standIn ? asked.filter((setting) => !canBe(standIn, setting)) : []
      if (!standIn || cannot.length === 0) return []
      return [
        {
          code: 'stand-in-cannot',
          about: aboutRow('equipment', device),
          message: `the ${standIn.name} stands in for the ${device.name} and cannot be ${listText(cannot.map(settingText), 'or')}, which layouts ask for`,
          fix: `give the ${standIn.name} what it lacks, or let something else stand in`,
          field: `/standInIds/${place}`,
        },
      ]
    })
  })
}

const canBe = ({ control }: Equipment, setting: EquipmentSetting): boolean =>
  control.kind === 'level'
    ? levelProblem(control, setting) === null
    : setting.kind === 'state' && control.states.includes(setting.state)
