/**
 * A device may stand in several sections, and how it stands before a booking follows from who was last in any of them.
 * Of a booking first after the window, in a section where others come before it, that is not loaded with the window.
 */
import { and, desc, eq, lte, sql } from 'drizzle-orm'
import type { Booking } from '../domain/booking.ts'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import type { SectionId } from '../domain/ids.ts'
import type { SiteSetup } from '../domain/snapshot.ts'
import type { Engine } from './engine.ts'

/** Of two that begin together the one with the smaller id is before the other. */
const LAST_MOST = 2

/** By section and doors: ids of the last bookings there that begin no later. */
export function lastInSectionQuery({ db, tables: { sectionOccupancy: held } }: Engine) {
  return db
    .select({ id: held.bookingId })
    .from(held)
    .where(
      and(
        eq(held.sectionId, sql.placeholder('sectionId')),
        // The condition of the partial index on blocking rows has to be met literally.
        sql`${held.blocking}`,
        lte(held.fromAt, sql.placeholder('doorsAt')),
      ),
    )
    .orderBy(desc(held.fromAt))
    .limit(LAST_MOST)
    .prepare()
}

/** Sections in which somebody may have left a device of the room of a booking as it stands before it. */
export function sectionsAskedBeyond(
  setup: SiteSetup,
  { toAt }: HalfOpenInterval,
  loaded: readonly Booking[],
): { readonly sectionId: SectionId; readonly doorsAt: Booking['doorsAt'] }[] {
  const rooms = new Map([...setup.retired.rooms, ...setup.rooms].map((room) => [room.id, room]))
  return loaded
    .filter(({ doorsAt }) => doorsAt >= toAt)
    .flatMap(({ roomId, doorsAt }) => {
      const own = new Set<SectionId>(rooms.get(roomId)?.sectionIds)
      const shared = setup.equipment.filter(({ sectionIds }) => sectionIds.some((id) => own.has(id)))
      const beyond = new Set(shared.flatMap(({ sectionIds }) => sectionIds.filter((id) => !own.has(id))))
      return [...beyond].map((sectionId) => ({ sectionId, doorsAt }))
    })
}
