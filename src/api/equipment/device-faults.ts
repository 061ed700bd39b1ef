/** What can be wrong where a layout or an observation says in what condition devices are. */
import type { EquipmentSetting } from '../../domain/equipment.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { isIn, settingProblem } from './setting-problem.ts'

/** @param list  of the row, at `/equipment` */
export function deviceFaults(
  list: readonly { readonly equipmentId: string; readonly setting: EquipmentSetting }[],
  roomId: string,
  setup: SiteSetup,
): Fault[] {
  const at = (index: number) => `/equipment/${index}/equipmentId`
  const ids = list.map(({ equipmentId }) => equipmentId)
  const room = setup.rooms.find(({ id }) => id === roomId)
  return [
    ...unknownIds(at, ids, setup.equipment, 'equipment', setup.retired.equipment),
    ...repeated(at, ids, 'equipment'),
    ...list.flatMap(({ equipmentId, setting }, index) => {
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
