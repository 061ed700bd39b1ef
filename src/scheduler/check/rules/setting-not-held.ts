import type { Equipment, EquipmentSetting } from '../../../domain/equipment.ts'
import { levelProblem } from '../../network/equipment-setting.ts'
import { listText } from '../../wording/list-text.ts'
import { deviceUses, settingText, stateText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** A state that is none of the device's, or a level in its dead band. */
export function settingNotHeld(reading: SetupReading): Found[] {
  return reading.setup.equipment.flatMap((device) =>
    deviceUses(reading, device).flatMap(({ layout, index, setting }): Found[] => {
      if (index === null || isHeld(device, setting)) return []
      const can = conditionsText(device)
      return [
        {
          code: 'setting-not-held',
          about: aboutRow('layout', layout),
          message: `layout ${layout.name} asks ${settingText(setting)} of the ${device.name}, which can only be ${can}`,
          fix: `ask ${can}`,
          field: `/equipment/${index}/setting`,
        },
      ]
    }),
  )
}

function isHeld({ control }: Equipment, setting: EquipmentSetting): boolean {
  return control.kind === 'level'
    ? levelProblem(control, setting) === null
    : setting.kind === 'state' && control.states.includes(setting.state)
}

function conditionsText({ control }: Equipment): string {
  if (control.kind === 'states') return listText(control.states.map(stateText), 'or')
  const { lowestPercent, highestPercent, canBeOff } = control
  const range =
    lowestPercent < highestPercent ? `${lowestPercent} to ${highestPercent} %` : `${highestPercent} %`
  return canBeOff ? `off or ${range}` : range
}
