/** What a page shows around the plan of a turn; a page is shown without it where it cannot be had now. */
import type { Turn } from '../../domain/turn.ts'
import { DeciderBusy } from '../../worker/decider.ts'
import { DeciderStopped } from '../../worker/thread-decider.ts'
import type { ApiContext } from '../context.ts'
import type { AroundTurn } from './around-turn-parts.ts'

const HANDS_MOST = 12

/** @returns null: the turn is not to come, or too much is waiting to be decided */
export async function aroundTurnNow(
  { batchDecider: decider, clock }: ApiContext,
  { siteId, id: turnId }: Turn,
): Promise<AroundTurn | null> {
  const about = { siteId, turnId, now: clock() }
  try {
    const curve = await decider.aroundTurn({
      ...about,
      asked: { kind: 'hands-curve', handsMost: HANDS_MOST, doorsAt: null },
    })
    const help = await decider.aroundTurn({ ...about, asked: { kind: 'what-would-help' } })
    return curve.kind === 'hands-curve' && help.kind === 'what-would-help'
      ? { curve: curve.curve, help: help.help }
      : null
  } catch (error) {
    if (error instanceof DeciderBusy || error instanceof DeciderStopped) return null
    throw error
  }
}
