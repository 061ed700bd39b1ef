/** More people than the published table of the site allows on this floor, where nobody has entered a posted limit. */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { layoutOf, roomOf, type World } from '../../timeline/world.ts'
import { computedLoad } from './computed-load.ts'

export function headcountOverComputedLoad(world: World, booking: Booking): Reason[] {
  const room = roomOf(world, booking.roomId)
  if (room.occupantLimitPosted !== null) return []
  const layout = layoutOf(world, booking.layoutId)
  const load = computedLoad(world, room, layout)
  if (load === null || booking.headcount <= load.people) return []
  return [
    {
      code: 'headcount-over-computed-load',
      bookingId: booking.id,
      roomId: room.id,
      layoutId: layout.id,
      headcount: booking.headcount,
      occupantLoadComputed: load.people,
      source: load.source,
    },
  ]
}
