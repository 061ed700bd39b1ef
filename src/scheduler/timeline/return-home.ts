/** A room that nobody needs for a while is put back into its home layout. */
import { type Booking, leftAt } from '../../domain/booking.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import { homeTurnId } from '../../domain/home-turn-id.ts'
import { earlierOf, type Instant, instantPlusSeconds, secondsBetween } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import { TURN_LONGEST_SECONDS, type Turn } from '../../domain/turn.ts'
import { firstFrom, isStale, roomOf, type World } from './world.ts'

/**
 * The time in which the room of a booking is put back after it; null: it stays as it is, because the policy does not ask
 * for it, the room has no home layout or stands in it, it is kept as set, somebody needs part of it before, or nobody was
 * asked to while there was time.
 */
export function homeSpan(world: World, booking: Booking): HalfOpenInterval | null {
  const { returnHomeAfterSeconds } = world.setup.policy
  const room = roomOf(world, booking.roomId)
  if (returnHomeAfterSeconds === null || booking.keptUntilAt !== null) return null
  if (room.homeLayoutId === null || room.homeLayoutId === booking.layoutId) return null
  if (booking.clearAt <= world.now && !wayHome(world, booking)) return null
  const fromAt = leftAt(booking)
  const nextAt = nextDoorsAt(world, booking)
  if (nextAt !== null && secondsBetween(fromAt, nextAt) < returnHomeAfterSeconds) return null
  // The other half is left for the turn of whoever comes next.
  const withinSeconds = Math.min(Math.floor(returnHomeAfterSeconds / 2), TURN_LONGEST_SECONDS)
  return { fromAt, toAt: instantPlusSeconds(fromAt, withinSeconds) }
}

/**
 * Since when the room of a booking stands as it does at home; null: as the booking left it. What was begun is done, and
 * so is what was due, whatever the policy says by now, and whoever comes sooner than was known then.
 * @param byAt  for whom the room is looked at: doors
 */
export function homeSince(world: World, booking: Booking, byAt: Instant): Instant | null {
  const begun = wayHomeBegun(world, booking)
  if (begun) return begun.dueAt <= byAt ? begun.dueAt : begun.plan.readyAt
  const turn = wayHome(world, booking)
  const isPast = turn !== null && turn.dueAt <= world.now
  // Who followed a booking that was clear before the window is not all in the snapshot; its own turn is.
  if (isPast || booking.clearAt < world.window.fromAt || isStale(world, booking.clearAt))
    return turn && turn.dueAt <= byAt ? turn.dueAt : null
  const span = homeSpan(world, booking)
  return span !== null && span.toAt <= byAt ? span.toAt : null
}

/** The turn that puts its room back, when its work has begun by its plan; not while the guests are still there. */
export function wayHomeBegun(world: World, booking: Booking): (Turn & { readonly plan: Plan }) | null {
  const turn = wayHome(world, booking)
  const plan = turn?.plan ?? null
  const hasBegun = plan !== null && plan.startsAt <= world.now && plan.startsAt >= leftAt(booking)
  return turn && hasBegun ? { ...turn, plan } : null
}

const wayHome = (world: World, { turnId }: Booking): Turn | null =>
  world.turnsById.get(homeTurnId(turnId)) ?? null

/** Of the next booking in any section of the room; null: none is known. */
function nextDoorsAt(world: World, booking: Booking): Instant | null {
  const doors = roomOf(world, booking.roomId).sectionIds.flatMap((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    const next = here.slice(firstFrom(here, booking.doorsAt)).find(({ id }) => id !== booking.id)
    return next ? [next.doorsAt] : []
  })
  return doors.length === 0 ? null : doors.reduce(earlierOf)
}
