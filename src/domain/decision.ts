/** The answer to one or several operations, taken together. A "no" has nothing to write. */
import { z } from 'zod'
import { Alternative } from './alternative.ts'
import type { Booking } from './booking.ts'
import { BookingId, TurnId } from './ids.ts'
import type { Instant } from './instant.ts'
import { Reason } from './reason.ts'
import type { SetupWrite } from './setup.ts'
import type { Turn } from './turn.ts'
import { TurnBrief } from './turn.ts'
import { Verdict } from './verdict.ts'

/** A reason as it is answered: the numbers, the sentence, and whether a coordinator may decide otherwise. */
export const AnsweredReason = z.intersection(
  Reason,
  z.object({ message: z.string(), overridable: z.boolean() }),
)
export type AnsweredReason = z.infer<typeof AnsweredReason>

/** A turn, other than the one before and the one after, that stands otherwise than before: its plan, its verdict, its numbers. */
export const AffectedTurn = z.object({
  turnId: TurnId,
  bookingId: BookingId,
  verdict: Verdict,
  message: z
    .string()
    .nullable()
    .meta({ description: 'What weighs most against it, told from its booking; null: nothing does' }),
})
export type AffectedTurn = z.infer<typeof AffectedTurn>

export const DecisionAnswer = z.object({
  verdict: Verdict,
  reasons: z.array(AnsweredReason),
  before: TurnBrief.nullable(),
  after: TurnBrief.nullable(),
  affected: z
    .array(AffectedTurn)
    .meta({ description: 'Other turns that now stand otherwise: in verdict, readiness or plan' }),
  alternatives: z.array(Alternative),
})
export type DecisionAnswer = z.infer<typeof DecisionAnswer>

/** A row as it was and as it shall be; `before` null: it is new. Plans ride on their turn. */
export interface RowChange<Row> {
  readonly before: Row | null
  readonly after: Row
}

/** What a "yes" writes, all of it or nothing. */
export interface Changes {
  readonly bookings: readonly RowChange<Booking>[]
  readonly turns: readonly RowChange<Turn>[]
  readonly setup: readonly SetupWrite[]
  /**
   * Turns due from here on are looked at later, nearest first: the hall has changed under them. Left out: nothing is put
   * off; null: all are looked at by now.
   */
  readonly judgedThroughAt?: Instant | null
}

export type Decision =
  | (DecisionAnswer & { readonly verdict: 'fits' | 'tight'; readonly changes: Changes })
  | (DecisionAnswer & { readonly verdict: 'does-not-fit'; readonly changes: null })
  /**
   * What cannot be refused (a cancellation, a change of the set-up) is written even where a turn then fails; so is what
   * somebody takes at their own risk.
   */
  | (DecisionAnswer & { readonly verdict: 'does-not-fit'; readonly changes: Changes })
