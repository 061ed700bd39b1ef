/** Which version of a booking somebody means to change (RFC 9110, sections 8.8.3 and 13.1.1). */
import type { Booking } from '../../domain/booking.ts'
import { Problem } from '../problems.ts'

export const etagOf = (booking: Booking): string => `"${booking.version}"`

/** @throws Problem version-mismatch when the header names only versions that are not the current one */
export function refuseStale(header: string, booking: Booking): void {
  const named = header.split(',').map((tag) => tag.trim())
  if (named.includes('*') || named.includes(etagOf(booking))) return
  const current = `The booking is at version ${etagOf(booking)}, If-Match says ${header.slice(0, 80)}.`
  throw new Problem('version-mismatch', `${current} Read it again before you change it.`)
}
