/** The answer to operations that nobody has asked for yet, as it would be given. */
import type { Operation } from '../../../domain/operation.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Verdict } from '../../../domain/verdict.ts'
import { worldAfter } from '../operations/world-after.ts'
import { reasonsOf } from '../reasons-of.ts'
import { judgedTogether } from '../turns/judged-together.ts'
import type { JudgedTurn } from '../turns/judged-turn.ts'

export interface ShortAnswer {
  readonly verdict: Verdict
  /** In order of precedence, those that make it tight too. */
  readonly reasons: readonly Reason[]
  readonly turns: readonly JudgedTurn[]
}

/** With neighbours planned anew together where the rest of the crew does not suffice: the chance that a request has. */
export function answered(snapshot: SiteSnapshot, operations: readonly Operation[]): ShortAnswer {
  const judged = judgedTogether(worldAfter(snapshot, operations), snapshot.turns, operations)
  const reasons = reasonsOf(judged)
  const verdict = reasons.some(speaksAgainst) ? 'does-not-fit' : reasons.length > 0 ? 'tight' : 'fits'
  return { verdict, reasons, turns: judged.turns }
}
