/** What a search found about one turn of an instance, with what is needed to judge it. */
import type { Closure } from '../../../domain/closure.ts'
import type { TurnSide } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { BuiltPart } from '../plan/built-instance.ts'
import type { FoundTurn } from '../plan/find-plan.ts'
import type { JudgeOptions } from './judged-turn.ts'

export interface FoundPart extends FoundTurn {
  /** The turn of the instance that is spoken of. */
  readonly part: BuiltPart
  /** As stored, or null. */
  readonly before: Turn | null
  readonly side: TurnSide | null
  /** Of a store or passage, without which it would be ready; null: there is none. */
  readonly closedWay: Closure | null
  /** All other turns: what their plans hold was not there for this one. */
  readonly others: readonly Turn[]
  readonly options: JudgeOptions
  /** Where one was looked for that people follow easily: what that costs. */
  readonly priceSeconds?: number
}
