/**
 * Everything a decision may look at. `window` is the span that is complete: every booking, closure and plan of the
 * site that touches it is here, and for each section the last booking before it and the first after it. Plans and
 * closures are complete for a day more, and around each booking that begins in the window or first after it, from 48 h
 * before doors until a day after clear: that is where its turn may be planned anew or run late, and its crew be at work.
 */
import type { Booking } from './booking.ts'
import type { Closure } from './closure.ts'
import type { Equipment } from './equipment.ts'
import type { Exit } from './exit.ts'
import type { Furnishing } from './furnishing.ts'
import type { HalfOpenInterval } from './half-open-interval.ts'
import type { Instant } from './instant.ts'
import type { Layout } from './layout.ts'
import type { Observation } from './observation.ts'
import type { Passage } from './passage.ts'
import type { Person } from './person.ts'
import type { Policy } from './policy.ts'
import type { RateSet } from './rate-set.ts'
import type { Room } from './room.ts'
import type { Section } from './section.ts'
import type { Shift } from './shift.ts'
import type { Site } from './site.ts'
import type { StockChange } from './stock-change.ts'
import type { StoragePlace } from './storage-place.ts'
import type { Tool } from './tool.ts'
import type { Turn } from './turn.ts'

/** How the hall is set up: what changes seldom. Rows in force, by id; what is retired stands apart. */
export interface SiteSetup {
  readonly site: Site
  readonly sections: readonly Section[]
  readonly exits: readonly Exit[]
  readonly passages: readonly Passage[]
  readonly rooms: readonly Room[]
  readonly storagePlaces: readonly StoragePlace[]
  readonly furnishings: readonly Furnishing[]
  readonly tools: readonly Tool[]
  readonly equipment: readonly Equipment[]
  readonly layouts: readonly Layout[]
  readonly people: readonly Person[]
  readonly shifts: readonly Shift[]
  readonly stockChanges: readonly StockChange[]
  /** null: the defaults. */
  readonly rateSet: RateSet | null
  readonly policy: Policy
  readonly retired: RetiredSetup
}

/** No new booking can use these; one of the past may still have left them standing. */
export interface RetiredSetup {
  readonly sections: readonly Section[]
  readonly rooms: readonly Room[]
  readonly storagePlaces: readonly StoragePlace[]
  readonly furnishings: readonly Furnishing[]
  readonly equipment: readonly Equipment[]
  readonly layouts: readonly Layout[]
  readonly shifts: readonly Shift[]
}

export interface SiteSnapshot extends SiteSetup {
  readonly now: Instant
  readonly planningVersion: number
  readonly window: HalfOpenInterval
  readonly closures: readonly Closure[]
  /**
   * The last one of each room before the window and those within it, and the same around each booking around which
   * closures are complete; by `seenAt`, then id.
   */
  readonly observations: readonly Observation[]
  readonly bookings: readonly Booking[]
  readonly turns: readonly Turn[]
  /** Turns due from here on are yet to be looked at after a change of the hall; null: all are. */
  readonly judgedThroughAt: Instant | null
}
