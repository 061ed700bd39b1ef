import { equipmentPath } from '../../network/equipment-path.ts'
import { listText } from '../../wording/list-text.ts'
import { deviceUses, statesUsed, stateText } from '../device-use.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { sharesSection } from '../shares-section.ts'

/** Ways that lead only through steps which wait for a movable wall, where no room of the device has one. */
export function deviceConditionNeverMet(reading: SetupReading): Found[] {
  const { setup } = reading
  return setup.equipment.flatMap((device) => {
    const { control } = device
    if (control.kind !== 'states') return []
    const rooms = setup.rooms.filter((room) => sharesSection(room, device))
    const hasWall = setup.equipment.some(
      (other) => other.kind === 'movable-wall' && rooms.some((room) => sharesSection(room, other)),
    )
    if (hasWall) return []
    const withoutWall = {
      ...control,
      transitions: control.transitions.filter(({ needsWallOpen }) => !needsWallOpen),
    }
    const states = statesUsed(device, deviceUses(reading, device))
    return states.flatMap((to): Found[] => {
      const from = states.filter(
        (state) => equipmentPath(control, state, to) && !equipmentPath(withoutWall, state, to),
      )
      const [first] = from
      if (first === undefined) return []
      const way = equipmentPath(control, first, to) ?? []
      const waits = control.transitions.findIndex((step) => step.needsWallOpen && way.includes(step))
      return [
        {
          code: 'device-condition-never-met',
          about: aboutRow('equipment', device),
          message: `the ${device.name} gets from ${listText(from.map(stateText), 'or')} to ${stateText(to)} only with a movable wall open, and there is none where it is`,
          fix: 'enter the movable wall as a device of the room, or take the condition off the transition',
          field: `/control/transitions/${waits}/needsWallOpen`,
        },
      ]
    })
  })
}
