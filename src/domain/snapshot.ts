/**
 * Everything a decision may look at. `window` is the span that is complete: every booking, closure and plan of the
 * site that touches it is here, and for each section the last booking before it and the first after it. Plans and
 * closures are complete for a day more, and around the doors of each first booking after the window, from 48 h before
 * until a day after: that is where its turn may be planned anew, or run late.
 */
import type { Booking } from './booking.ts'
import type { Closure } from './closure.ts'
import type { Equipment } from './equipment.ts'
import type { Furnishing } from './furnishing.ts'
import type { HalfOpenInterval } from './half-open-interval.ts'
import type { Instant } from './instant.ts'
import type { Layout } from './layout.ts'
import type { Person } from './person.ts'
import type { Policy } from './policy.ts'
import type { Room } from './room.ts'
import type { Section } from './section.ts'
import type { Shift } from './shift.ts'
import type { Site } from './site.ts'
import type { StoragePlace } from './storage-place.ts'
import type { Turn } from './turn.ts'

/** How the hall is set up: what changes seldom. */
export interface SiteSetup {
  readonly site: Site
  readonly sections: readonly Section[]
  readonly rooms: readonly Room[]
  readonly layouts: readonly Layout[]
  readonly furnishings: readonly Furnishing[]
  readonly storagePlaces: readonly StoragePlace[]
  readonly equipment: readonly Equipment[]
  readonly people: readonly Person[]
  readonly shifts: readonly Shift[]
  readonly policy: Policy
}

export interface SiteSnapshot extends SiteSetup {
  readonly now: Instant
  readonly planningVersion: number
  readonly window: HalfOpenInterval
  readonly closures: readonly Closure[]
  readonly bookings: readonly Booking[]
  readonly turns: readonly Turn[]
}
