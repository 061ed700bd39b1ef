/** What the layouts of every room a device is in ask of it. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { EquipmentId, RoomId } from '../../domain/ids.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import { homeSetting } from '../network/equipment-setting.ts'
import { sharesSection } from './shares-section.ts'

export interface DeviceUse {
  readonly layout: Layout
  /** Place in `layout.equipment`; null: not named, so it belongs at home. */
  readonly index: number | null
  readonly setting: EquipmentSetting
}

/** For each device, in the order of the layouts. */
export function usesByDevice(
  devices: readonly Equipment[],
  layouts: readonly Layout[],
  rooms: ReadonlyMap<RoomId, Room>,
): ReadonlyMap<EquipmentId, readonly DeviceUse[]> {
  return new Map(
    devices.map((device) => {
      const roomIds = new Set(
        [...rooms.values()].filter((room) => sharesSection(room, device)).map(({ id }) => id),
      )
      const uses = layouts.filter(({ roomId }) => roomIds.has(roomId)).map((layout) => useIn(layout, device))
      return [device.id, uses]
    }),
  )
}

function useIn(layout: Layout, device: Equipment): DeviceUse {
  const index = layout.equipment.findIndex(({ equipmentId }) => equipmentId === device.id)
  const named = layout.equipment[index]
  return named
    ? { layout, index, setting: named.setting }
    : { layout, index: null, setting: homeSetting(device) }
}
