/** A moment: whole milliseconds since 1970-01-01T00:00Z. Inside the program always this, at the edges ISO 8601. */
import { z } from 'zod'

/** The years the service plans in. A date outside is a slip of the keyboard, not a booking. */
export const EARLIEST_AT = Date.UTC(2000, 0, 1)
export const LATEST_AT = Date.UTC(2100, 0, 1)

export const Instant = z
  .int()
  .min(EARLIEST_AT)
  .max(LATEST_AT)
  .brand<'Instant'>()
  .meta({ id: 'Instant', description: 'A moment: ISO 8601 with offset, in the zone of the site' })
export type Instant = z.infer<typeof Instant>

/** The same moment moved by whole seconds, earlier when negative. Bounds are checked where instants enter, not here. */
export const instantPlusSeconds = (instant: Instant, seconds: number): Instant =>
  (instant + seconds * 1000) as Instant

/** Whole seconds from one moment to another, negative when `to` is the earlier; parts of a second are dropped. */
export const secondsBetween = (from: Instant, to: Instant): number => Math.trunc((to - from) / 1000)

export const laterOf = (a: Instant, b: Instant): Instant => (a >= b ? a : b)
export const earlierOf = (a: Instant, b: Instant): Instant => (a <= b ? a : b)
