/** A turn that is part done is planned from now: what can matter to it is loaded, and nothing is written. */
import { instantPlusSeconds } from '../domain/instant.ts'
import { TURN_LONGEST_SECONDS } from '../domain/turn.ts'
import { replannedTurn } from '../scheduler/replan/index.ts'
import type { Store } from '../store/store.ts'
import type { ReplanReply, ReplanRequest } from './decider.ts'

export async function replanReply(
  store: Store,
  { siteId, turnId, progress, askedAt }: ReplanRequest,
): Promise<ReplanReply> {
  const turn = await store.turn(siteId, turnId)
  if (!turn) return { kind: 'no-turn' }
  // Work of the turn begins no earlier, and plans are complete for a day more.
  const window = {
    fromAt: instantPlusSeconds(turn.dueAt, -TURN_LONGEST_SECONDS),
    toAt: instantPlusSeconds(turn.dueAt, 1),
  }
  const snapshot = await store.load(siteId, window, askedAt)
  if (!snapshot) return { kind: 'no-turn' }
  // As it is in the same state of the site as all that stands around it.
  const standing = snapshot.turns.find(({ id }) => id === turn.id) ?? turn
  return replannedTurn(snapshot, standing, progress)
}
