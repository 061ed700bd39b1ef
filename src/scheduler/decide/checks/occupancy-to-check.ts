/** Within the posted limit, and more people than the published table of the site allows on this floor: somebody should ask. */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { layoutOf, roomOf, type World } from '../../timeline/world.ts'
import { computedLoad } from './computed-load.ts'

export function occupancyToCheck(world: World, booking: Booking): Reason[] {
  const room = roomOf(world, booking.roomId)
  if (room.occupantLimitPosted === null || booking.headcount > room.occupantLimitPosted) return []
  const layout = layoutOf(world, booking.layoutId)
  const load = computedLoad(world, room, layout)
  if (load === null || booking.headcount <= load.people) return []
  return [
    {
      code: 'occupancy-to-check',
      bookingId: booking.id,
      roomId: room.id,
      layoutId: layout.id,
      headcount: booking.headcount,
      occupantLoadComputed: load.people,
      source: load.source,
    },
  ]
}
