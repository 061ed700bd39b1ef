/** From what a search found about a turn to how it stands: its plan, its numbers, what speaks against it. */
import type { World } from '../../timeline/world.ts'
import { planOf } from '../plan/plan-of.ts'
import { timedPlan } from '../plan/shaped-plan.ts'
import type { FoundPart } from './found-part.ts'
import type { JudgedTurn } from './judged-turn.ts'
import { judgementOf } from './turn-judgement.ts'
import { ownReasons, reasonsSeenFrom } from './turn-reasons.ts'
import { turnRow } from './unreachable-turn.ts'

export function judgedFrom(world: World, found: FoundPart): JudgedTurn {
  const { part, before, side, kept, options } = found
  const { input } = part
  const timed = kept || options.isTrial ? found.findings : timedPlan(world, found.findings)
  const { schedule, workDone, built } = timed
  // A plan that is late is kept all the same: the crew needs it, and it needs its hands.
  const plan = kept ?? (schedule && planOf(built, part, schedule, workDone, found.priceSeconds ?? null))
  const asFound = timed === found.findings ? found : { ...found, findings: timed }
  const own = ownReasons(world, asFound)
  const judgement = judgementOf(world, asFound, plan, own)
  return {
    input,
    before,
    side,
    wasSearched: found.wasSearched,
    reasons: own.length === 0 ? [] : reasonsSeenFrom(side, own, asFound),
    after: {
      ...turnRow(input),
      status: judgement.verdict === 'does-not-fit' ? 'failing' : 'ready',
      judgement,
      plan,
    },
  }
}
