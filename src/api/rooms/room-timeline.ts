/** A room's bookings and the gaps between them, in order; each gap with the turn that must be done in it. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import type { Closure } from '../../domain/closure.ts'
import { type HalfOpenInterval, overlaps } from '../../domain/half-open-interval.ts'
import type { BookingId } from '../../domain/ids.ts'
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { Room } from '../../domain/room.ts'
import type { Turn } from '../../domain/turn.ts'

export type TimelineEntry =
  | { readonly kind: 'booking'; readonly booking: Booking }
  | { readonly kind: 'gap'; readonly fromAt: Instant; readonly toAt: Instant; readonly turn: Turn | null }

export interface RoomTimeline {
  readonly entries: readonly TimelineEntry[]
  /** Those of the room's sections, by start. */
  readonly closures: readonly Closure[]
}

/** What a room shares its floor with: itself, and every room with a section in common. */
export const roomsOnTheSameFloor = (room: Room, rooms: readonly Room[]): Room[] =>
  rooms.filter(({ sectionIds }) => sectionIds.some((id) => room.sectionIds.includes(id)))

/**
 * @param bookings  of the site or of more; those elsewhere, cancelled or outside the window are passed over
 * @param turns     of the site or of more
 * @returns entries that follow one another without holes from one end of the window to the other, except that a
 *          booking may stick out; an empty window of bookings is one gap
 */
export function roomTimeline(
  room: Room,
  rooms: readonly Room[],
  window: HalfOpenInterval,
  bookings: readonly Booking[],
  turns: readonly Turn[],
  closures: readonly Closure[],
): RoomTimeline {
  const here = new Set(roomsOnTheSameFloor(room, rooms).map(({ id }) => id))
  const turnsByBooking = new Map<BookingId, Turn>(turns.map((turn) => [turn.bookingId, turn]))
  const inOrder = bookings
    .filter((booking) => isBlocking(booking) && here.has(booking.roomId) && overlaps(heldBy(booking), window))
    .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))
  return {
    entries: entriesOf(inOrder, window, turnsByBooking),
    closures: closures
      .filter((closure) => closure.sectionIds.some((id) => room.sectionIds.includes(id)))
      .sort((a, b) => a.fromAt - b.fromAt),
  }
}

function entriesOf(
  bookings: readonly Booking[],
  window: HalfOpenInterval,
  turnsByBooking: ReadonlyMap<BookingId, Turn>,
): TimelineEntry[] {
  const entries: TimelineEntry[] = []
  let freeFromAt = window.fromAt
  for (const booking of bookings) {
    // Even a gap of no length is one: the turn in it is then all the shorter of time.
    const turn = turnsByBooking.get(booking.id) ?? null
    if (booking.doorsAt >= freeFromAt)
      entries.push({ kind: 'gap', fromAt: freeFromAt, toAt: booking.doorsAt, turn })
    entries.push({ kind: 'booking', booking })
    freeFromAt = laterOf(freeFromAt, booking.clearAt)
  }
  if (freeFromAt < window.toAt) {
    entries.push({ kind: 'gap', fromAt: freeFromAt, toAt: window.toAt, turn: null })
  }
  return entries
}

const heldBy = ({ doorsAt, clearAt }: Booking): HalfOpenInterval => ({ fromAt: doorsAt, toAt: clearAt })
