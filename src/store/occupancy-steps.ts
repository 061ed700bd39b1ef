/** The statements by which bookings give up and take the sections of their rooms. */
import { and, eq, gt, inArray, notInArray, type SQLWrapper, sql } from 'drizzle-orm'
import { type Booking, heldUntilAt, isBlocking } from '../domain/booking.ts'
import type { RoomId, SectionId } from '../domain/ids.ts'
import type { CommitStatements } from './commit-statements.ts'
import { type Db, once, type Step } from './engine.ts'
import type { PendingWrite } from './pending-write.ts'
import { hasOtherSections } from './put-setup.ts'
import { BOOKING_LONGEST_MILLISECONDS, type Tables } from './tables.ts'

/**
 * Rows of occupancy follow from bookings and their rooms: those of a changed booking go, and come anew with its new place
 * and time; so do those of coming bookings of a room that is made of other sections now.
 */
export function giveUpSections(tx: Db, t: Tables, write: PendingWrite): Step[] {
  const { sectionOccupancy: held } = t
  const changedIds = write.bookings.filter(({ before }) => before).map(({ after }) => after.id)
  const giveUp = (bookingIds: string[] | SQLWrapper): Step => ({
    run: tx.delete(held).where(inArray(held.bookingId, bookingIds)).returning({ id: held.bookingId }),
  })
  return [
    ...(changedIds.length === 0 ? [] : [giveUp(changedIds)]),
    ...roomsOfOtherSections(write).map((roomId) => giveUp(comingBookingIds(tx, t, write, roomId))),
  ]
}

/** `heldUntilAt` in SQL: a room is never kept until before it is clear. */
const heldUntil = ({ booking }: Tables) => sql<number>`coalesce(${booking.keptUntilAt}, ${booking.clearAt})`

/** Bookings that are over, and whose room is not kept after them, keep the sections that they had. */
export function takeOtherSections(tx: Db, t: Tables, write: PendingWrite): Step[] {
  const { booking, roomSection, sectionOccupancy: held } = t
  return roomsOfOtherSections(write).map((roomId) => ({
    run: tx
      .insert(held)
      .select(
        tx
          .select({
            bookingId: booking.id,
            sectionId: roomSection.sectionId,
            fromAt: booking.doorsAt,
            toAt: heldUntil(t).as('toAt'),
            blocking: sql<boolean>`${booking.status} <> 'CANCELLED'`.as('blocking'),
          })
          .from(booking)
          .innerJoin(roomSection, eq(roomSection.roomId, booking.roomId))
          .where(inArray(booking.id, comingBookingIds(tx, t, write, roomId))),
      )
      .returning({ id: held.bookingId }),
  }))
}

const roomsOfOtherSections = ({ setup }: PendingWrite): RoomId[] =>
  setup.flatMap((change) =>
    change.kind === 'room' && change.before && hasOtherSections(change) ? [change.after.id] : [],
  )

/** Of a room, and not written by this commit. No booking is longer: without that bound the whole past would be walked. */
function comingBookingIds(tx: Db, t: Tables, { commit, bookings }: PendingWrite, roomId: RoomId) {
  const { booking } = t
  const writtenIds = bookings.map(({ after }) => after.id)
  return tx
    .select({ id: booking.id })
    .from(booking)
    .where(
      and(
        eq(booking.roomId, roomId),
        gt(booking.doorsAt, sql`${commit.at - BOOKING_LONGEST_MILLISECONDS}`),
        gt(heldUntil(t), commit.at),
        writtenIds.length === 0 ? undefined : notInArray(booking.id, writtenIds),
      ),
    )
}

export function takeSections(
  { takeSection }: CommitStatements,
  booking: Booking,
  sectionIds: readonly SectionId[],
): Step[] {
  return sectionIds.map((sectionId) => ({
    run: takeSection({
      bookingId: booking.id,
      sectionId,
      fromAt: booking.doorsAt,
      toAt: heldUntilAt(booking),
      blocking: isBlocking(booking),
    }),
    rows: once(`Section ${sectionId} was not taken`),
  }))
}
