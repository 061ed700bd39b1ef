/** What plans of the rest of a turn are made on: the hands there are now, and all that is held. */
import type { Plan } from '../../domain/plan.ts'
import type { TaskNetwork } from '../../domain/task.ts'
import type { Turn } from '../../domain/turn.ts'
import type { TurnProgress } from '../../domain/turn-progress.ts'
import {
  type BuiltInstance,
  builtInstance,
  lateUntilAt,
  type TurnPart,
} from '../decide/plan/built-instance.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import { assumedIn, type HandsNow, withHandsNow } from './hands-now.ts'
import { heldMeanwhile } from './held-meanwhile.ts'
import { paidSecondsWorked, withPaidTimeWorked } from './paid-time-left.ts'
import type { RunningNow } from './running-now.ts'

export interface GroundAsked {
  readonly world: World
  readonly turn: Turn
  /** That people carry. */
  readonly plan: Plan
  readonly input: TurnInput
  /** All other turns: what their plans hold is not there. */
  readonly others: readonly Turn[]
  readonly done: TurnProgress['done']
  readonly running: readonly RunningNow[]
  readonly hands: HandsNow
}

/** From tasks to what is solved, with the hands there are now and all that is held. */
export function groundFor({ world, turn, plan, input, others, done, running, hands }: GroundAsked) {
  const holding = [...others, heldMeanwhile(turn, running)]
  const named = [...new Set(plan.tasks.flatMap(({ laneIds }) => laneIds))].sort()
  const options = { untilAt: lateUntilAt(world, input), handsAssumed: assumedIn(plan) }
  const paidSeconds = paidSecondsWorked(world, plan, done, running, options.untilAt)
  return (network: TaskNetwork): BuiltInstance => {
    const part: TurnPart = { input, network, events: [] }
    const built = withPaidTimeWorked(builtInstance(world, [part], holding, options), paidSeconds)
    return withHandsNow(world, built, hands, named, holding)
  }
}
