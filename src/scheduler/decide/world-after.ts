/** The world as it would be when the operations are done, before anybody asks whether they can be. */
import type { Booking } from '../../domain/booking.ts'
import type { BookingId } from '../../domain/ids.ts'
import type { Operation } from '../../domain/operation.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import { type World, worldOf } from '../timeline/world.ts'
import { setupAfter } from './setup-after.ts'

export interface WorldAfter {
  readonly world: World
  /** Each booking that an operation speaks of, as it was (null: new) and as it shall be, in order of operations. */
  readonly bookings: readonly { readonly before: Booking | null; readonly after: Booking }[]
}

/** Operations were checked by `operationProblems`: a booking that is not there is a bug. */
export function worldAfter(snapshot: SiteSnapshot, operations: readonly Operation[]): WorldAfter {
  const bookings = new Map(snapshot.bookings.map((booking) => [booking.id, booking]))
  const spokenOf: BookingId[] = []
  const put = (booking: Booking) => {
    if (!spokenOf.includes(booking.id)) spokenOf.push(booking.id)
    bookings.set(booking.id, booking)
  }
  let withSetup = snapshot
  for (const operation of operations) {
    switch (operation.kind) {
      case 'book':
      case 'change':
        put(operation.booking)
        break
      case 'cancel': {
        const booking = bookings.get(operation.bookingId)
        if (!booking) throw new Error(`the snapshot does not hold ${operation.bookingId}`)
        put({ ...booking, status: 'CANCELLED', version: booking.version + 1 })
        break
      }
      case 'set-up':
        withSetup = setupAfter(withSetup, operation.writes)
        break
      default:
        return operation satisfies never
    }
  }
  const before = new Map(snapshot.bookings.map((booking) => [booking.id, booking]))
  return {
    world: worldOf({ ...withSetup, bookings: [...bookings.values()] }),
    bookings: spokenOf.map((id) => ({ before: before.get(id) ?? null, after: bookings.get(id)! })),
  }
}
