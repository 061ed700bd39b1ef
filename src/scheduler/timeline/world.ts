/** A snapshot made ready for questions: what is live, in order, and by id. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import type { Closure } from '../../domain/closure.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { FurnishingId, LayoutId, RoomId, SectionId, StoragePlaceId, TurnId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Observation } from '../../domain/observation.ts'
import type { Room } from '../../domain/room.ts'
import type { Section } from '../../domain/section.ts'
import type { SiteSetup, SiteSnapshot } from '../../domain/snapshot.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { Turn } from '../../domain/turn.ts'

export interface World {
  readonly setup: SiteSetup
  readonly now: Instant
  readonly window: HalfOpenInterval
  /** Turns due from here on are yet to be looked at after a change of the hall; null: all are. */
  readonly judgedThroughAt: Instant | null
  /** Those that keep others out, by doors, then id. */
  readonly bookings: readonly Booking[]
  /** The same by each section that they hold. */
  readonly bookingsBySection: ReadonlyMap<SectionId, readonly Booking[]>
  readonly closures: readonly Closure[]
  /** By `seenAt`, then id. */
  readonly observations: readonly Observation[]
  /** Dropped ones left out. */
  readonly turnsById: ReadonlyMap<TurnId, Turn>
  /** Here and below retired rows too: a booking of the past may still have left them standing. */
  readonly roomsById: ReadonlyMap<RoomId, Room>
  readonly sectionsById: ReadonlyMap<SectionId, Section>
  readonly layoutsById: ReadonlyMap<LayoutId, Layout>
  readonly furnishingsById: ReadonlyMap<FurnishingId, Furnishing>
  readonly storagePlacesById: ReadonlyMap<StoragePlaceId, StoragePlace>
}

export function worldOf(snapshot: SiteSnapshot): World {
  const bookings = liveInOrder(snapshot.bookings)
  const roomsById: ReadonlyMap<RoomId, Room> = byId(snapshot.retired.rooms, snapshot.rooms)
  return {
    setup: snapshot,
    now: snapshot.now,
    window: snapshot.window,
    judgedThroughAt: snapshot.judgedThroughAt,
    bookings,
    bookingsBySection: bySection(bookings, roomsById),
    closures: snapshot.closures,
    turnsById: new Map(
      snapshot.turns.filter((turn) => turn.status !== 'dropped').map((turn) => [turn.id, turn]),
    ),
    observations: snapshot.observations,
    roomsById,
    sectionsById: byId(snapshot.retired.sections, snapshot.sections),
    layoutsById: byId(snapshot.retired.layouts, snapshot.layouts),
    furnishingsById: byId(snapshot.retired.furnishings, snapshot.furnishings),
    storagePlacesById: byId(snapshot.retired.storagePlaces, snapshot.storagePlaces),
  }
}

function bySection(
  bookings: readonly Booking[],
  roomsById: ReadonlyMap<RoomId, Room>,
): Map<SectionId, Booking[]> {
  const found = new Map<SectionId, Booking[]>()
  for (const booking of bookings) {
    for (const sectionId of roomsById.get(booking.roomId)?.sectionIds ?? []) {
      const list = found.get(sectionId)
      if (list) list.push(booking)
      else found.set(sectionId, [booking])
    }
  }
  return found
}

/** The hall has changed under what is due then, and it is yet to be looked at: until then it stands as it stood. */
export const isStale = ({ judgedThroughAt }: World, at: Instant): boolean =>
  judgedThroughAt !== null && at >= judgedThroughAt

/** Index of the first one in a section with doors at that moment or later; the number of all when there is none. */
export function firstFrom(bookings: readonly Booking[], at: Instant): number {
  let low = 0
  let high = bookings.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (bookings[middle]!.doorsAt < at) low = middle + 1
    else high = middle
  }
  return low
}

export const liveInOrder = (bookings: readonly Booking[]): Booking[] =>
  bookings.filter(isBlocking).sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))

/** The room with this id. Ids were checked where they came in, so a missing one is a bug. */
export function roomOf(world: World, roomId: RoomId): Room {
  return known(world.roomsById.get(roomId), roomId)
}
export function layoutOf(world: World, layoutId: LayoutId): Layout {
  return known(world.layoutsById.get(layoutId), layoutId)
}

export function sharesSection(
  a: { sectionIds: readonly SectionId[] },
  b: { sectionIds: readonly SectionId[] },
): boolean {
  return a.sectionIds.some((sectionId) => b.sectionIds.includes(sectionId))
}

function known<Thing>(thing: Thing | undefined, id: string): Thing {
  if (thing === undefined) throw new Error(`the snapshot does not hold ${id}`)
  return thing
}

const byId = <Id, Row extends { id: Id }>(retired: readonly Row[], inForce: readonly Row[]): Map<Id, Row> =>
  new Map([...retired, ...inForce].map((row) => [row.id, row]))
