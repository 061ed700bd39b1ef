/** Earlier or later: how a search for other doors goes on. */
import type { Booking } from '../../../domain/booking.ts'
import type { Instant } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'

export interface Way {
  /** Of the time it takes, 1: later. */
  readonly sign: 1 | -1
  /** The next doors on the clock's five minutes. */
  readonly stepped: (doorsAt: Instant) => Instant
  /** Those before them on the same way. */
  readonly back: (doorsAt: Instant) => Instant
  /**
   * @param tried    the booking at the doors that were tried
   * @param against  what speaks against its turns there
   * @returns further on, on the clock's five minutes, where it may be otherwise; null: no doors that way can help
   */
  readonly leapt: (tried: Booking, against: readonly Reason[]) => Instant | null
}

/** `never`: no doors that way can help; a moment: likely none on this side of it; `unknown`: the reason does not tell. */
export type DoorsBound = 'never' | Instant | 'unknown'

export const isKnown = (bound: DoorsBound): bound is Instant => bound !== 'never' && bound !== 'unknown'
