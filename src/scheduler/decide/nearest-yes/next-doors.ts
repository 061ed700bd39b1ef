/** Where the search for other doors goes on from, by what speaks against those tried. */
import type { Booking } from '../../../domain/booking.ts'
import type { Instant } from '../../../domain/instant.ts'
import type { Reason, ReasonCode, TurnSide } from '../../../domain/reason.ts'

export interface DoorsToTry {
  /** On the clock's five minutes. */
  readonly doorsAt: Instant
  /** Only the time of a turn was in the way, and is not any more by the plans that were found. */
  readonly isLikely: boolean
}

/**
 * @param tried    the booking at the doors that were tried
 * @param against  what speaks against it there; empty: something that no reason names
 * @returns further on the same way; null: no doors that way can help
 */
export type NextDoors = (tried: Booking, against: readonly Reason[]) => DoorsToTry | null

/** `never`: no doors that way can help; a moment: none on this side of it; `unknown`: the reason does not tell. */
export type DoorsBound = 'never' | Instant | 'unknown'

/** Another time cannot help against these. */
const timeless: ReadonlySet<ReasonCode> = new Set([
  'headcount-over-posted-limit',
  'headcount-over-computed-load',
  'headcount-over-seats',
])

export const isTimeless = ({ code }: Reason): boolean => timeless.has(code)

export const isKnown = (bound: DoorsBound): bound is Instant => bound !== 'never' && bound !== 'unknown'

/** It is known how late the turn on that side would be. */
export const isLate = (reason: Reason, side: TurnSide): boolean =>
  (reason.code === 'hands-short' ||
    reason.code === 'turn-before-too-long' ||
    reason.code === 'turn-after-too-long') &&
  reason.side === side &&
  reason.readyAt !== null
