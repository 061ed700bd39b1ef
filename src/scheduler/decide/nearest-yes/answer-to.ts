/** The answer to operations that nobody has asked for yet: first roughly, then as it would be given. */
import type { Operation } from '../../../domain/operation.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Verdict } from '../../../domain/verdict.ts'
import { worldAfter } from '../operations/world-after.ts'
import { reasonsOf } from '../reasons-of.ts'
import { type JudgedTurns, judgeTurns } from '../turns/judge-turns.ts'
import { judgedTogether } from '../turns/judged-together.ts'
import type { JudgedTurn } from '../turns/judged-turn.ts'

export interface ShortAnswer {
  readonly verdict: Verdict
  /** In order of precedence, those that make it tight too. */
  readonly reasons: readonly Reason[]
  readonly turns: readonly JudgedTurn[]
}

/** A trial tries so many schedules for one turn: what is easily turned is found by fewer. */
export const TRIAL_WORK_MOST = 12

/** Quick, and without moving the plans of others: its yes is likely, its no may be none. */
export function tried(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  workMost = snapshot.policy.workMost,
): ShortAnswer {
  const options = { isTrial: true, workMost: Math.min(workMost, snapshot.policy.workMost) }
  return shortly(judgeTurns(worldAfter(snapshot, operations), snapshot.turns, operations, options))
}

/** As a decision would answer it. */
export function answered(snapshot: SiteSnapshot, operations: readonly Operation[]): ShortAnswer {
  return shortly(judgedTogether(worldAfter(snapshot, operations), snapshot.turns, operations))
}

function shortly(judged: JudgedTurns): ShortAnswer {
  const reasons = reasonsOf(judged)
  const verdict = reasons.some(speaksAgainst) ? 'does-not-fit' : reasons.length > 0 ? 'tight' : 'fits'
  return { verdict, reasons, turns: judged.turns }
}
