/** A turn as it stands after a decision, with what it was before and what speaks against it. */
import type { Reason, TurnSide } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'

export interface JudgedTurn {
  readonly input: TurnInput
  readonly before: Turn | null
  readonly after: Turn
  /** Its place beside the operations: it prepares what is asked for, or what comes next; null: neither. */
  readonly side: TurnSide | null
  /** In order of precedence, as the request sees them; the judgement of `after` tells them from its own booking. */
  readonly reasons: readonly Reason[]
  /** No plan that stood would do: it was looked for anew. */
  readonly wasSearched: boolean
}

export interface JudgeOptions {
  /** Only yes or no is wanted: no search for the hands that would do, and nothing after the first turn that fails. */
  readonly isTrial?: boolean
  /** Schedules to try for one turn at most. Default: as the policy says. */
  readonly workMost?: number
}
