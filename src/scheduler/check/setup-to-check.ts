import type { Booking } from '../../domain/booking.ts'
import type { Closure } from '../../domain/closure.ts'
import type { PersonId } from '../../domain/ids.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'

export interface SetupToCheck extends SiteSetup {
  readonly closures: readonly Closure[]
  /** As far ahead as is wanted; cancelled and past ones do not count. Without any, nothing is said to be booked. */
  readonly bookings?: readonly Booking[]
  /** Names are kept apart from people, so that they can be erased. Somebody without one is called by id. */
  readonly personNames?: ReadonlyMap<PersonId, string>
}
