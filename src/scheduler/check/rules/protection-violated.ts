import { sameSetting } from '../../network/equipment-setting.ts'
import { deviceUses, settingText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function protectionViolated(reading: SetupReading): Found[] {
  return reading.setup.equipment.flatMap((device) =>
    deviceUses(reading, device).flatMap(({ layout, index, setting }): Found[] => {
      const violated = device.protections.find(
        (protection) => protection.during.includes(layout.kind) && !sameSetting(protection.setting, setting),
      )
      if (!violated) return []
      const safe = settingText(violated.setting)
      return [
        {
          code: 'protection-violated',
          about: aboutRow('layout', layout),
          message: `layout ${layout.name} leaves the ${device.name} at ${settingText(setting)}, where ${layout.kind} can damage it: it must be ${safe}`,
          fix: `ask ${safe} of the ${device.name} in this layout`,
          field: index === null ? '/equipment' : `/equipment/${index}/setting`,
        },
      ]
    }),
  )
}
