import { homeSetting, sameSetting } from '../../network/index.ts'
import { deviceUses, settingText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { sharesSection } from '../shares-section.ts'

/** Two rooms used at once, one of which needs the device and the other one says nothing: they keep each other out. */
export function sharedDeviceUnnamed(reading: SetupReading): Found[] {
  const { rooms } = reading
  return reading.setup.equipment.flatMap((device) => {
    const home = homeSetting(device)
    const uses = deviceUses(reading, device)
    const wanted = uses.filter(({ index, setting }) => index !== null && !sameSetting(setting, home))
    return uses.flatMap(({ layout, index }): Found[] => {
      const room = rooms.get(layout.roomId)
      const beside = wanted.find((use) => {
        const other = rooms.get(use.layout.roomId)
        return room && other && !sharesSection(room, other)
      })
      if (index !== null || !room || !beside) return []
      const other = rooms.get(beside.layout.roomId)!
      return [
        {
          code: 'shared-device-unnamed',
          about: aboutRow('layout', layout),
          message: `the ${device.name} stands in ${other.name} too; layout ${layout.name} does not name it, so it wants it ${settingText(home)}, and keeps out ${beside.layout.name}, which wants it ${settingText(beside.setting)}`,
          fix: `say in ${layout.name} how the ${device.name} must be`,
          field: '/equipment',
        },
      ]
    })
  })
}
