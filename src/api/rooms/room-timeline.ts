/** A room's bookings and the gaps between them, in order; each gap with the turns that must be done in it. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import type { Closure } from '../../domain/closure.ts'
import { type HalfOpenInterval, overlaps } from '../../domain/half-open-interval.ts'
import type { BookingId } from '../../domain/ids.ts'
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { Room } from '../../domain/room.ts'
import type { Turn } from '../../domain/turn.ts'

export type TimelineEntry = { readonly kind: 'booking'; readonly booking: Booking } | TimelineGap

export interface TimelineGap extends HalfOpenInterval {
  readonly kind: 'gap'
  /** It prepares the booking that ends the gap. */
  readonly turn: Turn | null
  /** It puts the room back into its home layout. */
  readonly homeTurn: Turn | null
  /** Nobody turns the room: it waits as it is set for the next booking of a link. */
  readonly keptAsSet: boolean
}

export interface RoomTimeline {
  readonly entries: readonly TimelineEntry[]
  /** Those of the room's sections, by start. */
  readonly closures: readonly Closure[]
}

/** What a room shares its floor with: itself, and every room with a section in common. */
export const roomsOnTheSameFloor = (room: Room, rooms: readonly Room[]): Room[] =>
  rooms.filter(({ sectionIds }) => sectionIds.some((id) => room.sectionIds.includes(id)))

/**
 * @param bookings  of the site or of more; those elsewhere and cancelled are passed over, those outside the window tell
 *                  only whether a room is kept as it is set
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
  const bookingsHere = bookings
    .filter((booking) => isBlocking(booking) && here.has(booking.roomId))
    .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))
  const turnsHere = turns.filter(({ roomId }) => here.has(roomId))
  return {
    entries: entriesOf(bookingsHere, window, turnsHere),
    closures: closures
      .filter((closure) => closure.sectionIds.some((id) => room.sectionIds.includes(id)))
      .sort((a, b) => a.fromAt - b.fromAt),
  }
}

/** @param bookings  by doors, then id */
function entriesOf(
  bookings: readonly Booking[],
  window: HalfOpenInterval,
  turns: readonly Turn[],
): TimelineEntry[] {
  const turnsByBooking = new Map<BookingId, Turn>(
    turns.filter(({ purpose }) => purpose === 'prepare').map((turn) => [turn.bookingId, turn]),
  )
  const gap = (fromAt: Instant, toAt: Instant, next: Booking | null): TimelineGap => ({
    kind: 'gap',
    fromAt,
    toAt,
    turn: (next && turnsByBooking.get(next.id)) ?? null,
    homeTurn:
      turns.find((turn) => turn.purpose === 'return-home' && overlaps(spanOf(turn), { fromAt, toAt })) ??
      null,
    keptAsSet: bookings.some(
      ({ clearAt, keptUntilAt }) => keptUntilAt !== null && clearAt <= fromAt && toAt <= keptUntilAt,
    ),
  })
  const entries: TimelineEntry[] = []
  let freeFromAt = window.fromAt
  for (const booking of bookings.filter((one) => overlaps(heldBy(one), window))) {
    // Even a gap of no length is one: the turn in it is then all the shorter of time.
    if (booking.doorsAt >= freeFromAt) entries.push(gap(freeFromAt, booking.doorsAt, booking))
    entries.push({ kind: 'booking', booking })
    freeFromAt = laterOf(freeFromAt, booking.clearAt)
  }
  if (freeFromAt < window.toAt) entries.push(gap(freeFromAt, window.toAt, null))
  return entries
}

const spanOf = ({ releaseAt, dueAt }: Turn): HalfOpenInterval => ({ fromAt: releaseAt, toAt: dueAt })
const heldBy = ({ doorsAt, clearAt }: Booking): HalfOpenInterval => ({ fromAt: doorsAt, toAt: clearAt })
