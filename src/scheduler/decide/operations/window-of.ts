/** The spans a snapshot must be complete for, so that deciding on it equals deciding on everything. */
import { type Booking, heldUntilAt } from '../../../domain/booking.ts'
import {
  CREW_AFTER_CLEAR_MOST_SECONDS,
  CREW_BEFORE_DOORS_MOST_SECONDS,
} from '../../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import { TURN_LONGEST_SECONDS } from '../../../domain/turn.ts'
import { NEAREST_DOORS_WITHIN_SECONDS } from '../nearest-yes/doors-within.ts'

/**
 * @param storedBookings  as they are stored: those that operations speak of, with all of their links, and those to come
 *                        whose guests or crew are there when the span of a `set-up` or `judge` begins
 * @param returnHomeAfterSeconds  of the policy in force
 * @returns from 48 h before the earliest doors until the latest clear, further where what is asked reaches further. What is needed of the turn that follows, however
 *          far on, and of plans that run late is loaded with the window: see SiteSnapshot
 */
export function windowOf(
  operations: readonly Operation[],
  storedBookings: readonly Booking[],
  now: Instant,
  returnHomeAfterSeconds: number | null = null,
): HalfOpenInterval {
  const bookings = [
    ...storedBookings,
    ...operations.flatMap((one) =>
      one.kind === 'book' || one.kind === 'hold' || one.kind === 'change' ? [one.booking] : [],
    ),
  ]
  const spans = [
    ...bookings.map((booking) => ({ fromAt: booking.doorsAt, toAt: heldUntilAt(booking) })),
    ...operations.flatMap((operation) => spanOf(operation, now)),
  ]
  if (spans.length === 0) return { fromAt: now, toAt: now }
  const earliestAt = Math.min(...spans.map((span) => span.fromAt)) as Instant
  const latestAt = Math.max(...spans.map((span) => span.toAt)) as Instant
  const home = homeSeconds(operations, returnHomeAfterSeconds)
  const further = furtherSeconds(operations)
  return {
    // A room that is put back after so long may be one from which a booking was gone for as long.
    fromAt: instantPlusSeconds(earliestAt, -Math.max(TURN_LONGEST_SECONDS, home) - further.before),
    toAt: instantPlusSeconds(latestAt, (home === 0 ? 0 : TURN_LONGEST_SECONDS) + further.after),
  }
}

function furtherSeconds(operations: readonly Operation[]): {
  readonly before: number
  readonly after: number
} {
  const kinds = new Set(operations.map(({ kind }) => kind))
  // Ways out of a turn that fails are other doors too.
  if (kinds.has('polish'))
    return { before: NEAREST_DOORS_WITHIN_SECONDS, after: NEAREST_DOORS_WITHIN_SECONDS }
  // The hands of what is given up are free for turns that fail elsewhere.
  if (kinds.has('cancel') || kinds.has('lapse'))
    return { before: TURN_LONGEST_SECONDS, after: CREW_AFTER_CLEAR_MOST_SECONDS + TURN_LONGEST_SECONDS }
  return { before: 0, after: 0 }
}

/** By the policy that is, and the one that shall be; 0: rooms are not put back. */
function homeSeconds(operations: readonly Operation[], returnHomeAfterSeconds: number | null): number {
  const asked = operations.flatMap((one) =>
    one.kind === 'set-up'
      ? one.writes.flatMap((write) =>
          write.kind === 'policy' ? (write.after.returnHomeAfterSeconds ?? []) : [],
        )
      : [],
  )
  return Math.max(0, returnHomeAfterSeconds ?? 0, ...asked)
}

/** The same and 48 h more on either side: complete also for the nearest doors that may be offered instead. */
export function windowWithAlternatives(
  operations: readonly Operation[],
  storedBookings: readonly Booking[],
  now: Instant,
  returnHomeAfterSeconds: number | null = null,
): HalfOpenInterval {
  const { fromAt, toAt } = windowOf(operations, storedBookings, now, returnHomeAfterSeconds)
  return {
    fromAt: instantPlusSeconds(fromAt, -NEAREST_DOORS_WITHIN_SECONDS),
    toAt: instantPlusSeconds(toAt, NEAREST_DOORS_WITHIN_SECONDS),
  }
}

function spanOf(operation: Operation, now: Instant): HalfOpenInterval[] {
  if (operation.kind === 'clear-later') return [{ fromAt: now, toAt: laterOf(now, operation.clearAt) }]
  if (operation.kind !== 'set-up' && operation.kind !== 'judge') return []
  const { fromAt, toAt } = operation.span
  // The crew of an event may be at work long before its doors.
  return [{ fromAt, toAt: instantPlusSeconds(toAt, CREW_BEFORE_DOORS_MOST_SECONDS) }]
}
