/**
 * A device that the layout wants otherwise than at home is out of service or lent out between doors and clear, and so is
 * all that stands in for it. What is only to be at home does no work, and is not missed.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { EquipmentId } from '../../../domain/ids.ts'
import type { Reason } from '../../../domain/reason.ts'
import type { StockChange } from '../../../domain/stock-change.ts'
import { homeSetting, sameSetting } from '../../network/index.ts'
import { layoutOf, roomOf, sharesSection, type World } from '../../timeline/world.ts'

/** In the order in which the layout names them. */
export function equipmentUnavailable(world: World, booking: Booking): Reason[] {
  const away = firstAwayDuring(world, booking)
  if (away.size === 0) return []
  const { equipment } = world.setup
  const room = roomOf(world, booking.roomId)
  const layout = layoutOf(world, booking.layoutId)
  return layout.equipment.flatMap(({ equipmentId, setting }): Reason[] => {
    const change = away.get(equipmentId)
    const device = equipment.find(({ id }) => id === equipmentId)
    if (!change || !device || sameSetting(setting, homeSetting(device))) return []
    // Nobody changes devices in the middle of an event: one of them must be there for all of it.
    const isStoodInFor = equipment.some(
      (other) => device.standInIds.includes(other.id) && !away.has(other.id) && sharesSection(other, room),
    )
    if (isStoodInFor) return []
    const { fromAt, toAt } = change
    return [
      {
        code: 'equipment-unavailable',
        bookingId: booking.id,
        equipmentId,
        layoutId: layout.id,
        fromAt,
        toAt,
      },
    ]
  })
}

/** What takes each device away for any part of the booking: of several changes the first, by `fromAt`, then id. */
function firstAwayDuring({ setup }: World, { doorsAt, clearAt }: Booking): Map<EquipmentId, StockChange> {
  const first = new Map<EquipmentId, StockChange>()
  for (const change of setup.stockChanges) {
    const { of, why, fromAt, toAt } = change
    if (of.kind !== 'equipment' || why === 'borrowed') continue
    if (fromAt >= clearAt || (toAt !== null && toAt <= doorsAt)) continue
    const known = first.get(of.equipmentId)
    if (!known || fromAt < known.fromAt || (fromAt === known.fromAt && change.id < known.id)) {
      first.set(of.equipmentId, change)
    }
  }
  return first
}
