/** Turns that are judged although what they follow from is what it was. */
import type { Booking } from '../../../domain/booking.ts'
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import type { SectionId } from '../../../domain/ids.ts'
import type { Operation } from '../../../domain/operation.ts'
import { isOfBooking } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import { roomOf, type World } from '../../timeline/world.ts'
import { bookingReasons } from '../checks/index.ts'
import { underWaySince } from '../operations/under-way.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import { textOf } from '../text-of.ts'

/**
 * The set-up changed around it: whether its plan still holds, or a failing one is now ready, is only known by judging
 * it. A plan that holds is kept, so this is cheap where nothing really changed. A turn that is under way is only planned
 * anew from what somebody saw there since it began, or because its room is closed on it.
 */
export function mustBeJudged(
  world: World,
  booking: Booking,
  around: HalfOpenInterval,
  before: Turn | null,
  operations: readonly Operation[],
): boolean {
  const { sectionIds } = roomOf(world, booking.roomId)
  const isHere = (ids: readonly SectionId[]) => sectionIds.some((id) => ids.includes(id))
  const begunAt = before && underWaySince(before, world.now)
  return operations.some((operation) => {
    // What is promised for good must be ready now: a hold may have come to fail since.
    if (operation.kind === 'confirm')
      return operation.bookingId === booking.id && before?.status === 'failing'
    if (operation.kind !== 'set-up' && operation.kind !== 'judge') return false
    if (!overlaps(around, operation.span)) return false
    if (operation.kind === 'judge') return begunAt === null
    return operation.writes.some((write) => {
      if (write.kind === 'closure') {
        const rows = [write.after, ...(write.before ? [write.before] : [])]
        const waysClosed = rows.some((row) => row.storagePlaceIds.length + row.passageIds.length > 0)
        const exitsHere = world.setup.exits.filter(({ sectionId }) => isHere([sectionId])).map(({ id }) => id)
        const exitsClosed = rows.some(({ exitIds }) => exitIds.some((id) => exitsHere.includes(id)))
        return rows.some((row) => isHere(row.sectionIds)) || (begunAt === null && (waysClosed || exitsClosed))
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

/** A hold that becomes firm must be one that can be turned; and nothing that speaks against a booking is left unsaid. */
export function mustBeAnswered(after: WorldAfter, booking: Booking, before: Turn | null): boolean {
  const asked = after.bookings.find((change) => change.after.id === booking.id)
  if (!asked || before === null || underWaySince(before, after.world.now) !== null) return false
  if (asked.before?.status === 'TENTATIVE' && booking.status === 'CONFIRMED') return true
  const said = before.judgement.reasons.filter(isOfBooking)
  return textOf(said) !== textOf(bookingReasons(after.world, booking))
}
