/** How a write of a booking is answered. */
import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { type Changes, DecisionAnswer } from '../../domain/decision.ts'
import type { BookingId } from '../../domain/ids.ts'
import type { Site } from '../../domain/site.ts'
import { type Answer, jsonAnswer } from '../answer.ts'
import { etagOf } from '../if-match.ts'

export const WrittenBooking = z.object({ booking: Booking, decision: DecisionAnswer })

/** As the decision writes it. */
export function bookingAfter(changes: Changes, id: BookingId): Booking {
  const change = changes.bookings.find(({ after }) => after.id === id)
  if (!change) throw new Error(`the decision does not write the booking it was asked for, ${id}`)
  return change.after
}

export function writtenAnswer(
  status: 200 | 201,
  site: Site,
  booking: Booking,
  decision: DecisionAnswer,
  more: object = {},
): Answer {
  const location = `/v1/sites/${site.id}/bookings/${booking.id}`
  return jsonAnswer(status, { booking, ...more, decision }, site.zone, {
    etag: etagOf(booking),
    ...(status === 201 ? { location } : {}),
  })
}
