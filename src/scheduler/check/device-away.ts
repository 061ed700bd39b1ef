/** Times in which a device that layouts ask for is away, and nothing stands in for it. */
import type { Booking } from '../../domain/booking.ts'
import type { Equipment } from '../../domain/equipment.ts'
import type { EquipmentId } from '../../domain/ids.ts'
import type { StockChange } from '../../domain/stock-change.ts'
import { deviceUses } from './device-use.ts'
import type { SetupReading } from './setup-reading.ts'
import { countsFromNow, holdsAt, isOver, meets, type Shortage, shortages } from './shortage.ts'
import type { DeviceUse } from './uses-by-device.ts'
import { whenText } from './when-text.ts'

export interface DeviceAway {
  readonly device: Equipment
  readonly shortage: Shortage
  /** Layouts that ask for it by name, at least one. */
  readonly asked: readonly DeviceUse[]
  /** Bookings of such a layout in that time, by doors. */
  readonly booked: readonly Booking[]
  readonly why: StockChange['why']
}

/** By device, then time. A stand-in serves while it is in service itself. */
export function deviceAway(reading: SetupReading): DeviceAway[] {
  const { setup, devices, now, bookings } = reading
  const changesByDevice = awayByDevice(reading)
  const isThere = (id: EquipmentId, at: SetupReading['now']): boolean =>
    devices.has(id) && !changesByDevice.get(id)?.some((change) => holdsAt(change, at))
  return setup.equipment.flatMap((device): DeviceAway[] => {
    const own = changesByDevice.get(device.id) ?? []
    const asked = deviceUses(reading, device).filter(({ index }) => index !== null)
    if (own.length === 0 || asked.length === 0) return []
    const serving = [device.id, ...device.standInIds]
    const changes = serving.flatMap((id) => changesByDevice.get(id) ?? [])
    const layoutIds = new Set(asked.map(({ layout }) => layout.id))
    const countAt = (at: SetupReading['now']): number => serving.filter((id) => isThere(id, at)).length
    return shortages(1, countsFromNow(changes, now, countAt)).map((shortage) => ({
      device,
      shortage,
      asked,
      booked: bookings.filter(
        ({ layoutId, doorsAt, clearAt }) =>
          layoutIds.has(layoutId) && meets(shortage, { fromAt: doorsAt, toAt: clearAt }),
      ),
      why: own.find((change) => holdsAt(change, shortage.leastAt))?.why ?? 'out-of-service',
    }))
  })
}

/** What takes a device away and is not over, by `fromAt`, then id. */
export function awayByDevice({ setup, now }: SetupReading): ReadonlyMap<EquipmentId, readonly StockChange[]> {
  const byDevice = new Map<EquipmentId, StockChange[]>()
  const inOrder = setup.stockChanges
    .filter((change) => change.why !== 'borrowed' && !isOver(change, now))
    .sort((a, b) => a.fromAt - b.fromAt || (a.id < b.id ? -1 : 1))
  for (const change of inOrder) {
    if (change.of.kind !== 'equipment') continue
    const known = byDevice.get(change.of.equipmentId)
    if (known) known.push(change)
    else byDevice.set(change.of.equipmentId, [change])
  }
  return byDevice
}

export const awayWord = (why: StockChange['why']): string =>
  why === 'lent-out' ? 'lent out' : 'out of service'

/** `the projector is out of service until Sat 28 Nov 09:00, nothing stands in for it` */
export const deviceAwayText = ({ device, shortage, why }: DeviceAway, reading: SetupReading): string =>
  `the ${device.name} is ${awayWord(why)} ${whenText(shortage, reading)}, nothing stands in for it`
