/** How long somebody stays signed in. Common practice, no source. */
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'

/** Without a request. */
const IDLE_SECONDS = 12 * 3600
/** Whatever they do: a fortnight, so that a phone in the hall lasts from week to week. */
const LONGEST_SECONDS = 14 * 86_400
/** It is written down no more often than this. */
const SEEN_EVERY_SECONDS = 60

export interface SessionTimes {
  readonly createdAt: Instant
  readonly seenAt: Instant
}

export const isSessionOver = ({ createdAt, seenAt }: SessionTimes, now: Instant): boolean =>
  instantPlusSeconds(seenAt, IDLE_SECONDS) <= now || instantPlusSeconds(createdAt, LONGEST_SECONDS) <= now

export const isSeenLongAgo = (seenAt: Instant, now: Instant): boolean =>
  instantPlusSeconds(seenAt, SEEN_EVERY_SECONDS) <= now

/** Whatever began before is over, and is cleared away. */
export const sessionsOverBefore = (now: Instant): Instant => instantPlusSeconds(now, -LONGEST_SECONDS)
