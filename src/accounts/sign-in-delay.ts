/**
 * How long whoever failed to sign in waits: not at all for the first few times, then twice as long each time, at last a
 * quarter of an hour. After a day without failure it begins anew. Common practice, no source.
 */
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'
import type { Trouble } from '../store/accounts/account-store.ts'

/** Of one account; an address is shared by many, so more of it is taken. */
export const FAILURES_FREE = { account: 5, address: 20 } as const
const LONGEST_SECONDS = 900
const FORGOTTEN_SECONDS = 86_400

const isForgotten = ({ lastAt }: Trouble, now: Instant): boolean =>
  instantPlusSeconds(lastAt, FORGOTTEN_SECONDS) <= now

/** @returns 0: at once */
export function secondsToWait(trouble: Trouble | null, of: keyof typeof FAILURES_FREE, now: Instant): number {
  if (trouble === null || isForgotten(trouble, now)) return 0
  const beyond = trouble.failures - FAILURES_FREE[of]
  if (beyond < 0) return 0
  const seconds = Math.min(LONGEST_SECONDS, 2 ** Math.min(beyond, 30))
  return Math.max(0, Math.ceil((instantPlusSeconds(trouble.lastAt, seconds) - now) / 1000))
}

/** One more than there were, or the first after all were forgotten. */
export const failuresAfter = (trouble: Trouble | null, now: Instant): number =>
  trouble === null || isForgotten(trouble, now) ? 1 : trouble.failures + 1
