/** A hold whose time is over is given up, and with it every booking of its link. On a timer, and before each decision. */
import { ActorId, type LinkId, type SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Store } from '../store/store.ts'
import type { Decider } from '../worker/decider.ts'

/** Who gives it up, in the audit. */
const service = ActorId.parse('actor_service')
/** Those of all sites come in one list. */
const HOLDS_READ_MOST = 1_000
/** So many are given up in one call, each with its link. */
export const HOLDS_LAPSED_MOST = 20

export interface LapseParts {
  readonly store: Store
  readonly decider: Decider
  readonly clock: () => Instant
}

/**
 * One after the other, the one that ran out first in front: decided together they would load all that lies between them.
 * What cannot be decided on is left as it stands.
 * @returns how many holds were given up, links counted once; with HOLDS_LAPSED_MOST there may be more
 * @throws Conflict when somebody else was faster: what was given up until then is written
 * @throws DeciderBusy
 */
export async function lapseExpired({ store, decider, clock }: LapseParts, siteId: SiteId): Promise<number> {
  const now = clock()
  const expired = await store.holdsExpired(now, HOLDS_READ_MOST)
  const linksDone = new Set<LinkId>()
  let tried = 0
  let lapsed = 0
  for (const hold of expired.filter((one) => one.siteId === siteId)) {
    if (tried === HOLDS_LAPSED_MOST) break
    const booking = await store.booking(siteId, hold.bookingId)
    if (booking?.status !== 'TENTATIVE') continue
    const { id: bookingId, linkId } = booking
    if (linkId !== null && linksDone.has(linkId)) continue
    if (linkId !== null) linksDone.add(linkId)
    tried += 1
    const answer = await decider.decide({ siteId, operations: [{ kind: 'lapse', bookingId }], now })
    if (answer.kind !== 'decided' || !answer.decision.changes) continue
    await store.commit({
      siteId,
      planningVersionExpected: answer.planningVersion,
      actorId: service,
      action: 'lapse',
      reason: 'the hold is over',
      at: now,
      changes: answer.decision.changes,
    })
    lapsed += 1
  }
  return lapsed
}
