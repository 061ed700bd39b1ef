/** Which turns the operations touch: those whose inputs are no longer what they were judged by, and few others. */
import type { Booking } from '../../domain/booking.ts'
import type { SectionId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import type { Turn } from '../../domain/turn.ts'
import { type TurnInput, turnInputOf } from '../timeline/turn-input.ts'
import { roomOf, type World } from '../timeline/world.ts'
import type { WorldAfter } from './world-after.ts'

export interface TouchedTurn {
  readonly input: TurnInput
  readonly before: Turn | null
}

/** @returns by doors, then booking id: who comes first has the crew first. Bookings that have begun are left alone. */
export function turnsTouched(after: WorldAfter, operations: readonly Operation[]): TouchedTurn[] {
  const { world } = after
  const sections = sectionsSpokenOf(after, operations)
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

function sectionsSpokenOf(after: WorldAfter, operations: readonly Operation[]): Set<SectionId> {
  const bookings = after.bookings.flatMap(({ before, after: booking }) =>
    before ? [before, booking] : [booking],
  )
  return new Set([
    ...bookings.flatMap((booking) => roomOf(after.world, booking.roomId).sectionIds),
    ...operations.flatMap((operation) => (operation.kind === 'close' ? operation.closure.sectionIds : [])),
  ])
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

/** Its inputs are the same, and yet it must be looked at: its room closes on it, or it fails and hands were added. */
function mustBeJudged(
  world: World,
  booking: Booking,
  before: Turn | null,
  operations: readonly Operation[],
): boolean {
  return operations.some((operation) => {
    if (operation.kind === 'add-shift') return before?.status === 'failing'
    if (operation.kind !== 'close') return false
    const { closure } = operation
    const fromAt = before?.releaseAt ?? booking.doorsAt
    return (
      roomOf(world, booking.roomId).sectionIds.some((sectionId) => closure.sectionIds.includes(sectionId)) &&
      closure.fromAt < booking.clearAt &&
      closure.toAt > fromAt
    )
  })
}
