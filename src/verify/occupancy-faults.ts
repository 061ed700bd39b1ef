/** What bookings hold: exactly what follows from them and their rooms, and nothing twice. */
import { type Booking, heldUntilAt, isBlocking } from '../domain/booking.ts'
import type { RoomId, SiteId } from '../domain/ids.ts'
import { Room } from '../domain/room.ts'
import type { StoredFile, StoredOccupancy } from '../store/stored-file.ts'
import { ROWS_A_PAGE, readableBookings, readColumns, storedRows } from './read-columns.ts'
import type { SectionsOfRooms } from './sections-of-rooms.ts'
import type { StoredFault } from './stored-fault.ts'

/** So many overlaps of one site are named. */
const OVERLAPS_MOST = 1_000

export function* occupancyFaults(
  file: StoredFile,
  siteId: SiteId,
  sections: SectionsOfRooms,
): Generator<StoredFault> {
  const rooms = readableRooms(file, siteId)
  for (const bookings of pagesOf(readableBookings(file, siteId))) {
    const held = new Map<string, StoredOccupancy>()
    for (const row of file.occupancy(siteId, bookings[0]!.id, bookings.at(-1)!.id))
      held.set(`${row.bookingId} ${row.sectionId}`, row)
    for (const booking of bookings) {
      for (const sectionId of sections.of(booking, rooms.get(booking.roomId))) {
        const place = `${booking.id} ${sectionId}`
        const what = faultOf(booking, held.get(place))
        if (what !== null) yield { siteId, where: `${sectionId} held by ${booking.id}`, what }
        held.delete(place)
      }
    }
    const read = new Set<string>(bookings.map(({ id }) => id))
    for (const { bookingId, sectionId } of held.values()) {
      const what = 'follows from no booking and its room'
      if (read.has(bookingId)) yield { siteId, where: `${sectionId} held by ${bookingId}`, what }
    }
  }
  for (const { sectionId, bookingId, otherBookingId } of file.overlaps(siteId, OVERLAPS_MOST)) {
    yield { siteId, where: sectionId, what: `${otherBookingId} and ${bookingId} hold it at once` }
  }
}

function faultOf(booking: Booking, held: StoredOccupancy | undefined): string | null {
  if (!held) return 'is not there, and follows from the booking and its room'
  if (held.fromAt !== booking.doorsAt || held.toAt !== heldUntilAt(booking))
    return 'is held at another time than the booking says'
  if (held.blocking !== isBlocking(booking))
    return held.blocking
      ? 'keeps others out, and the booking is cancelled'
      : 'keeps nobody out, and the booking stands'
  return null
}

function readableRooms(file: StoredFile, siteId: SiteId): ReadonlyMap<RoomId, Room> {
  const rooms = new Map<RoomId, Room>()
  for (const { document } of storedRows(file, 'room', siteId)) {
    try {
      const room = Room.parse(readColumns({ document }).document)
      rooms.set(room.id, room)
    } catch {
      // Told where rows are read.
    }
  }
  return rooms
}

function* pagesOf<Row>(rows: Iterable<Row>): Generator<Row[]> {
  let page: Row[] = []
  for (const row of rows) {
    page.push(row)
    if (page.length < ROWS_A_PAGE) continue
    yield page
    page = []
  }
  if (page.length > 0) yield page
}
