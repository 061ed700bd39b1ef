/** A turn as it stands after a decision, with what it was before and what speaks against it. */
import type { Reason, TurnSide } from '../../domain/reason.ts'
import type { Turn } from '../../domain/turn.ts'

export interface JudgedTurn {
  readonly before: Turn | null
  readonly after: Turn
  /** Its place beside the operations: it prepares what is asked for, or what comes next; null: neither. */
  readonly side: TurnSide | null
  /** In order of precedence, as the request sees them; the judgement of `after` tells them from its own booking. */
  readonly reasons: readonly Reason[]
}

export interface JudgeOptions {
  /** Only yes or no is wanted: no search for the hands that would do, and nothing after the first turn that fails. */
  readonly isTrial?: boolean
}
