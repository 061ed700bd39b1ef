/** What has to be turned before each coming booking, as far as bookings are known. */
import type { Booking } from '../../domain/booking.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { SectionId } from '../../domain/ids.ts'
import { instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import { TURN_LONGEST_SECONDS } from '../../domain/turn.ts'
import type { SetupReading } from './setup-reading.ts'

export interface ComingTurn {
  readonly booking: Booking
  readonly room: Room
  readonly layout: Layout
  /** The last one before on any of the same floor; null: none is known that is still to come or going on. */
  readonly after: { readonly booking: Booking; readonly layout: Layout; readonly room: Room } | null
  /** What is left of the time from the one before, at most 48 h before doors, until doors. */
  readonly span: HalfOpenInterval
}

/** By doors, then id; only of rooms and layouts in force, with doors still to come. */
export function comingTurns({ bookings, rooms, layouts, now }: SetupReading): ComingTurn[] {
  const lastBySection = new Map<SectionId, NonNullable<ComingTurn['after']>>()
  return bookings.flatMap((booking): ComingTurn[] => {
    const room = rooms.get(booking.roomId)
    const layout = layouts.get(booking.layoutId)
    if (!room || !layout) return []
    const [after] = room.sectionIds
      .flatMap((id) => lastBySection.get(id) ?? [])
      .sort((a, b) => b.booking.clearAt - a.booking.clearAt || (a.booking.id < b.booking.id ? -1 : 1))
    for (const id of room.sectionIds) lastBySection.set(id, { booking, layout, room })
    const earliestAt = laterOf(now, instantPlusSeconds(booking.doorsAt, -TURN_LONGEST_SECONDS))
    const fromAt = after ? laterOf(earliestAt, after.booking.clearAt) : earliestAt
    if (fromAt >= booking.doorsAt) return []
    return [{ booking, room, layout, after: after ?? null, span: { fromAt, toAt: booking.doorsAt } }]
  })
}
