/** The booking, from doors to clear, is not within one stretch of the room's opening hours. */
import type { Booking } from '../../../domain/booking.ts'
import { covers, type HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { openingStretches } from '../../timeline/opening-stretches.ts'
import { roomOf, type World } from '../../timeline/world.ts'

/** How far around a booking the nearest opening is looked for: four days. */
const AROUND_SECONDS = 4 * 86_400

export function outsideOpeningHours(world: World, booking: Booking): Reason[] {
  const room = roomOf(world, booking.roomId)
  const held = { fromAt: booking.doorsAt, toAt: booking.clearAt }
  const stretches = openingStretches(room, world.setup.site.zone, {
    fromAt: instantPlusSeconds(held.fromAt, -AROUND_SECONDS),
    toAt: instantPlusSeconds(held.toAt, AROUND_SECONDS),
  })
  if (stretches === null || stretches.some((stretch) => covers(stretch, held))) return []
  const nearest = nearestTo(stretches, held)
  return [
    {
      code: 'outside-opening-hours',
      bookingId: booking.id,
      roomId: room.id,
      opensAt: nearest?.fromAt ?? null,
      closesAt: nearest?.toAt ?? null,
    },
  ]
}

/** The one with most of the booking in it; with none, the one whose opening is nearest to doors. */
function nearestTo(stretches: readonly HalfOpenInterval[], held: HalfOpenInterval): HalfOpenInterval | null {
  const inside = (stretch: HalfOpenInterval) =>
    Math.max(0, Math.min(stretch.toAt, held.toAt) - Math.max(stretch.fromAt, held.fromAt))
  const away = (instant: Instant) => Math.abs(instant - held.fromAt)
  return (
    [...stretches].sort(
      (a, b) => inside(b) - inside(a) || away(a.fromAt) - away(b.fromAt) || a.fromAt - b.fromAt,
    )[0] ?? null
  )
}
