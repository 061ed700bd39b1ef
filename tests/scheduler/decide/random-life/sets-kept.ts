/** Until when rooms are kept as they are set, and until when they should be: from what a link asks for, floor by floor. */
import { type Booking, isBlocking } from '../../../../src/domain/booking.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'

const LONGEST_MS = 31 * 86_400_000

type UntilWhen = Readonly<Record<string, number>>

/** By booking; those that keep no room are left out. */
export const untilWhenKept = ({ bookings }: SiteSnapshot): UntilWhen =>
  Object.fromEntries(
    bookings.flatMap(({ id, keptUntilAt }) => (keptUntilAt === null ? [] : [[id, keptUntilAt]])),
  )

/** The same by what each link asks for. */
export function untilWhenToKeep(snapshot: SiteSnapshot): UntilWhen {
  const live = snapshot.bookings.filter(isBlocking)
  return Object.fromEntries(
    live.flatMap((booking) => {
      const next = isPutBack(snapshot, booking) ? null : nextOfLink(snapshot, live, booking)
      return next && next.doorsAt - booking.doorsAt <= LONGEST_MS ? [[booking.id, next.doorsAt]] : []
    }),
  )
}

/** By a turn that is begun, once the guests have left, or that was due. */
const isPutBack = ({ turns, now }: SiteSnapshot, booking: Booking): boolean =>
  turns.some(({ id, status, dueAt, plan }) => {
    if (id !== `${booking.turnId}-home` || status === 'dropped') return false
    const leftAt = Math.max(booking.clearAt, booking.overrunsUntilAt ?? booking.clearAt)
    return dueAt <= now || (plan !== null && plan.startsAt <= now && plan.startsAt >= leftAt)
  })

/** The same room and layout, and first of its link in every section of the room; null: there is none. */
function nextOfLink(
  snapshot: SiteSnapshot,
  live: readonly Booking[],
  { linkId, keepAsSet, roomId, layoutId, doorsAt }: Booking,
): Booking | null {
  if (linkId === null || !keepAsSet) return null
  const sectionsOf = (id: string) => snapshot.rooms.find((room) => room.id === id)?.sectionIds ?? []
  const later = live.filter((one) => one.linkId === linkId && one.doorsAt > doorsAt)
  const firsts = sectionsOf(roomId).map((sectionId) =>
    later
      .filter((one) => sectionsOf(one.roomId).includes(sectionId))
      .reduce<Booking | null>((first, one) => (first && first.doorsAt <= one.doorsAt ? first : one), null),
  )
  const [next] = firsts
  const isWhole = next && firsts.every((one) => one === next)
  return isWhole && next.roomId === roomId && next.layoutId === layoutId ? next : null
}
