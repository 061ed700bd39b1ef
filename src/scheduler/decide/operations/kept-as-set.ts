/** Between which bookings of a link a room is kept as it is set. */
import { BOOKING_LONGEST_SECONDS, type Booking, leftAt } from '../../../domain/booking.ts'
import { homeTurnId } from '../../../domain/home-turn-id.ts'
import type { BookingId } from '../../../domain/ids.ts'
import { secondsBetween } from '../../../domain/instant.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { sharesSection } from '../../timeline/world.ts'

/** What is asked of the rooms of a site. */
export interface Rooms {
  /** In one room, or in rooms with a section in common. */
  readonly shareFloor: (a: Booking, b: Booking) => boolean
  /** Somebody has begun to put the room of a booking back after it, or was due to be done with it. */
  readonly isPutBack: (booking: Booking) => boolean
}

/** Retired rooms too: a booking of the past may have been there. */
export function roomsOf({ rooms, retired, turns, now }: SiteSnapshot): Rooms {
  const roomsById = new Map([...retired.rooms, ...rooms].map((room) => [room.id, room]))
  const turnsById = new Map(turns.map((turn) => [turn.id, turn]))
  return {
    shareFloor: (a, b) => {
      const [one, other] = [roomsById.get(a.roomId), roomsById.get(b.roomId)]
      return one !== undefined && other !== undefined && sharesSection(one, other)
    },
    isPutBack: (booking) => {
      const home = turnsById.get(homeTurnId(booking.turnId))
      if (!home || home.status === 'dropped') return false
      const startsAt = home.plan?.startsAt ?? home.dueAt
      return home.dueAt <= now || (startsAt <= now && startsAt >= leftAt(booking))
    },
  }
}

/** A booking, and the next of its link: between them the room can stay as it is set. */
interface SetToKeep {
  readonly booking: Booking
  readonly next: Booking
}

/**
 * The next one that needs any of the floor has the same room with the same layout. Who of the link is elsewhere
 * meanwhile does not matter; for one that has a part of the room it is turned.
 * @param members  by doors
 * @returns by doors of the first of each two; empty: there is nothing to keep
 */
function setsToKeep(members: readonly Booking[], { shareFloor }: Rooms): SetToKeep[] {
  return members.flatMap((booking, index) => {
    const next = members.slice(index + 1).find((other) => shareFloor(booking, other))
    return next &&
      next.roomId === booking.roomId &&
      next.layoutId === booking.layoutId &&
      next.doorsAt >= booking.clearAt
      ? [{ booking, next }]
      : []
  })
}

/** A booking holds its room for 31 days at most, from its doors; so it does with the time for which it is kept. */
const isTooLong = ({ booking, next }: SetToKeep): boolean =>
  secondsBetween(booking.doorsAt, next.doorsAt) > BOOKING_LONGEST_SECONDS

/**
 * The bookings of a link with what each keeps its room for: until doors of the next there, if that is not too far on and
 * the room still stands as it was set.
 * @param members  by doors
 */
export function keptAsSet(members: readonly Booking[], rooms: Rooms): Map<BookingId, Booking> {
  const nextById = new Map(
    setsToKeep(members, rooms)
      .filter((set) => set.booking.keepAsSet && !isTooLong(set) && !rooms.isPutBack(set.booking))
      .map(({ booking, next }) => [booking.id, next]),
  )
  return new Map(
    members.map((booking) => [
      booking.id,
      { ...booking, keptUntilAt: nextById.get(booking.id)?.doorsAt ?? null },
    ]),
  )
}

/**
 * Why bookings have no set to keep, and what to do, as a sentence; null: they have. Whether somebody else is there
 * already is for the decision to say.
 * @param members  by doors
 */
export function keepsNoSet(members: readonly Booking[], rooms: Rooms): string | null {
  const sets = setsToKeep(members, rooms)
  const [first] = sets
  if (!first)
    return (
      'there is nothing to keep as set: no two of them follow one another in the same room with the same layout; ' +
      'give two of them one room and one layout, or link them without keepAsSet'
    )
  const far = sets.find(isTooLong)
  if (far)
    return (
      `a room is kept as set for 31 days at most, and “${far.next.title}” comes later than that after ` +
      `“${far.booking.title}”; link them without keepAsSet`
    )
  return sets.every(({ booking }) => rooms.isPutBack(booking))
    ? `there is nothing to keep as set: putting the room back after “${first.booking.title}” has begun; link them without keepAsSet`
    : null
}
