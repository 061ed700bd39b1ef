/** Spans that together hold the doors of every booking: a month at most each, and not too many bookings. */
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'

const LONGEST_SECONDS = 31 * 86_400

/**
 * @param doors  in order
 * @param bookingsMost  1 or more: in one span, but for doors at one moment, which stay together
 * @returns in order and apart; spans without doors are left out
 */
export function* windowsOfBookings(
  doors: readonly Instant[],
  bookingsMost: number,
): Generator<HalfOpenInterval> {
  for (let index = 0; index < doors.length; ) {
    const fromAt = doors[index]!
    const monthAt = instantPlusSeconds(fromAt, LONGEST_SECONDS)
    let next = index + 1
    while (
      next < doors.length &&
      doors[next]! < monthAt &&
      (next - index < bookingsMost || doors[next] === doors[next - 1])
    )
      next += 1
    const nextAt = doors[next]
    yield { fromAt, toAt: nextAt !== undefined && nextAt < monthAt ? nextAt : monthAt }
    index = next
  }
}
