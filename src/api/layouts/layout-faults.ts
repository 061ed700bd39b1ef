/** What can be wrong with a layout beyond its shape: pieces the site does not have, conditions a device cannot hold. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { levelProblem } from '../../scheduler/network/index.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const layoutFaults = (layout: Layout, setup: SiteSetup): Fault[] => [
  ...unknownIds(() => '/roomId', [layout.roomId], setup.rooms, 'room'),
  ...furnishingFaults(layout, setup),
  ...equipmentFaults(layout, setup),
]

function furnishingFaults(layout: Layout, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/furnishings/${index}/furnishingId`
  const ids = layout.furnishings.map(({ furnishingId }) => furnishingId)
  return [
    ...unknownIds(at, ids, setup.furnishings, 'furnishing'),
    ...repeated(at, ids, 'furnishing'),
    ...layout.furnishings.flatMap(({ furnishingId, count }, index) => {
      const owned = setup.furnishings.find(({ id }) => id === furnishingId)
      if (!owned || count <= owned.countOwned) return []
      const message = `the layout asks for ${count} ${owned.namePlural}, the site owns ${owned.countOwned}`
      return [bodyFault(`/furnishings/${index}/count`, message)]
    }),
  ]
}

function equipmentFaults(layout: Layout, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/equipment/${index}/equipmentId`
  const ids = layout.equipment.map(({ equipmentId }) => equipmentId)
  const room = setup.rooms.find(({ id }) => id === layout.roomId)
  return [
    ...unknownIds(at, ids, setup.equipment, 'equipment'),
    ...repeated(at, ids, 'equipment'),
    ...layout.equipment.flatMap(({ equipmentId, setting }, index) => {
      const device = setup.equipment.find(({ id }) => id === equipmentId)
      if (!device) return []
      const problem = settingProblem(device, setting)
      return [
        ...(room && !isIn(device, room)
          ? [bodyFault(at(index), `${device.name} is not in ${room.name}`)]
          : []),
        ...(problem === null ? [] : [bodyFault(`/equipment/${index}/setting`, `${device.name}: ${problem}`)]),
      ]
    }),
  ]
}

const isIn = (device: Equipment, room: Room): boolean =>
  device.sectionIds.some((id) => room.sectionIds.includes(id))

function settingProblem({ control }: Equipment, setting: EquipmentSetting): string | null {
  if (control.kind === 'level') return levelProblem(control, setting)
  const named = `its states are ${control.states.join(', ')}`
  if (setting.kind !== 'state') return `it has no levels; ${named}`
  return control.states.includes(setting.state) ? null : `${setting.state} is none of its states; ${named}`
}
