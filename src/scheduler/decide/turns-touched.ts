/** Which turns the operations touch: those whose inputs are no longer what they were judged by, and few others. */
import type { Booking } from '../../domain/booking.ts'
import type { SectionId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import type { Turn } from '../../domain/turn.ts'
import { type TurnInput, turnInputOf } from '../timeline/turn-input.ts'
import { roomOf, type World } from '../timeline/world.ts'
import { underWaySince } from './under-way.ts'
import type { WorldAfter } from './world-after.ts'

export interface TouchedTurn {
  readonly input: TurnInput
  readonly before: Turn | null
}

/** @returns by doors, then booking id: who comes first has the crew first. Bookings that have begun are left alone. */
export function turnsTouched(after: WorldAfter, operations: readonly Operation[]): TouchedTurn[] {
  const { world } = after
  const sections = sectionsSpokenOf(after)
  const touched: TouchedTurn[] = []
  for (const booking of world.bookings) {
    // What stood before a booking that begins before the window is not in the snapshot: nothing can be said of it.
    if (booking.doorsAt <= world.now || booking.doorsAt < world.window.fromAt) continue
    const before = world.turnsByBooking.get(booking.id) ?? null
    if (!inSections(world, booking, sections) && !mustBeJudged(world, booking, before, operations)) continue
    const input = turnInputOf(world, booking)
    if (hasChanged(input, before) || mustBeJudged(world, booking, before, operations))
      touched.push({ input, before })
  }
  return touched
}

function sectionsSpokenOf(after: WorldAfter): Set<SectionId> {
  const bookings = after.bookings.flatMap(({ before, after: booking }) =>
    before ? [before, booking] : [booking],
  )
  return new Set(bookings.flatMap((booking) => roomOf(after.world, booking.roomId).sectionIds))
}

const inSections = (world: World, booking: Booking, sections: ReadonlySet<SectionId>): boolean =>
  roomOf(world, booking.roomId).sectionIds.some((sectionId) => sections.has(sectionId))

const hasChanged = (input: TurnInput, before: Turn | null): boolean =>
  before === null ||
  before.inputHash !== input.inputHash ||
  before.releaseAt !== input.releaseAt ||
  before.dueAt !== input.dueAt ||
  before.roomId !== input.room.id ||
  before.toLayoutId !== input.booking.layoutId ||
  before.predecessorBookingIds.length !== input.predecessorBookingIds.length ||
  before.predecessorBookingIds.some((id, index) => id !== input.predecessorBookingIds[index])

/**
 * The set-up changed around it: whether its plan still holds, or a failing one is now ready, is only known by judging
 * it. A plan that holds is kept, so this is cheap where nothing really changed. A turn that is under way is only planned
 * anew from what somebody saw there since it began, or because its room is closed on it.
 */
function mustBeJudged(
  world: World,
  booking: Booking,
  before: Turn | null,
  operations: readonly Operation[],
): boolean {
  const { sectionIds } = roomOf(world, booking.roomId)
  const isHere = (ids: readonly SectionId[]) => sectionIds.some((id) => ids.includes(id))
  const begunAt = before && underWaySince(before, world.now)
  return operations.some((operation) => {
    if (operation.kind !== 'set-up') return false
    const { span, writes } = operation
    const fromAt = before?.releaseAt ?? booking.doorsAt
    if (fromAt >= span.toAt || booking.clearAt <= span.fromAt) return false
    if (writes.length === 0) return begunAt === null
    return writes.some((write) => {
      if (write.kind === 'closure') {
        const rows = [write.after, ...(write.before ? [write.before] : [])]
        const waysClosed = rows.some((row) => row.storagePlaceIds.length + row.passageIds.length > 0)
        return rows.some((row) => isHere(row.sectionIds)) || (begunAt === null && waysClosed)
      }
      if (begunAt === null) return true
      return (
        write.kind === 'observation' &&
        write.after.seenAt >= begunAt &&
        isHere(roomOf(world, write.after.roomId).sectionIds)
      )
    })
  })
}
