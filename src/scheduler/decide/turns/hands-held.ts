/** How many of those on duty are at work for others meanwhile, and for whom. */
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import type { BookingId } from '../../../domain/ids.ts'
import { earlierOf, laterOf, secondsBetween } from '../../../domain/instant.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { LaneOnDuty } from '../../timeline/lanes-on-duty.ts'
import { handsMost } from '../../timeline/staffed-time.ts'
import { type HeldLane, reservationsOf } from '../plan/reservations.ts'

export interface HandsHeld {
  /** The most at one time. */
  readonly handsHeld: number
  /** Those for whom they work longest first. */
  readonly heldFor: BookingId[]
}

/** More than this are not named anywhere. */
const HELD_FOR_MOST = 20

/** @param others  the turns whose plans hold hands */
export function handsHeld(
  others: readonly Turn[],
  lanes: readonly LaneOnDuty[],
  window: HalfOpenInterval,
): HandsHeld {
  if (window.fromAt >= window.toAt) return { handsHeld: 0, heldFor: [] }
  const reservations = reservationsOf(others, window)
  const laneIds = new Set(lanes.map(({ laneId }) => laneId))
  const held = [...laneIds].flatMap((laneId) => reservations.ofLane(laneId))
  const asLanes = lanes.filter(({ laneId }, index) => lanes[index - 1]?.laneId !== laneId)
  const heldLanes = asLanes.map((lane) => ({ ...lane, onDuty: reservations.ofLane(lane.laneId) }))
  return { handsHeld: handsMost(heldLanes, window), heldFor: bookingsByTime(others, held, window) }
}

/** Each once, those that hold longest first, then by id. */
export function bookingsByTime(
  others: readonly Turn[],
  held: readonly HeldLane[],
  window: HalfOpenInterval,
): BookingId[] {
  const bookingOf = new Map(others.map(({ id, bookingId }) => [id, bookingId]))
  const seconds = new Map<BookingId, number>()
  for (const { turnId, fromAt, toAt } of held) {
    const bookingId = bookingOf.get(turnId)
    const inside = secondsBetween(laterOf(fromAt, window.fromAt), earlierOf(toAt, window.toAt))
    if (bookingId !== undefined && inside > 0) seconds.set(bookingId, (seconds.get(bookingId) ?? 0) + inside)
  }
  return [...seconds]
    .sort(([a, most], [b, next]) => next - most || (a < b ? -1 : 1))
    .slice(0, HELD_FOR_MOST)
    .map(([bookingId]) => bookingId)
}
