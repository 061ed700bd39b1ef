/** Moments that are offered lie on the five minutes of the clock. */
import type { Instant } from '../../../domain/instant.ts'

const FIVE_MINUTES_MS = 5 * 60_000

export const upToFiveMinutes = (at: number): Instant =>
  (Math.ceil(at / FIVE_MINUTES_MS) * FIVE_MINUTES_MS) as Instant

export const downToFiveMinutes = (at: number): Instant =>
  (Math.floor(at / FIVE_MINUTES_MS) * FIVE_MINUTES_MS) as Instant
