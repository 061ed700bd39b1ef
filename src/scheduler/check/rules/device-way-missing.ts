import { equipmentPath } from '../../network/equipment-path.ts'
import { listText } from '../../wording/list-text.ts'
import { deviceUses, statesUsed, stateText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** One finding for each state that cannot be reached from every state a layout leaves the device in. */
export function deviceWayMissing(reading: SetupReading): Found[] {
  return reading.setup.equipment.flatMap((device) => {
    const { control } = device
    if (control.kind !== 'states') return []
    const states = statesUsed(device, deviceUses(reading, device))
    return states.flatMap((to): Found[] => {
      const from = states.filter((state) => state !== to && equipmentPath(control, state, to) === null)
      if (from.length === 0) return []
      const way = `from ${listText(from.map(stateText), 'or')} to ${stateText(to)}`
      return [
        {
          code: 'device-way-missing',
          about: aboutRow('equipment', device),
          message: `nothing says how the ${device.name} gets ${way}`,
          fix: 'add the transitions that lead there, with their times and hands',
          field: '/control/transitions',
        },
      ]
    })
  })
}
