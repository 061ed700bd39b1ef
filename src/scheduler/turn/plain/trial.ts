/** One pass counts one schedule; the best schedule met is kept. */
import { mendBudgets, overdrawn } from './budgets.ts'
import { fitnessOf } from './fitness.ts'
import { parallelPass } from './parallel-pass.ts'
import type { Problem } from './problem.ts'
import type { SeededRandom } from './random.ts'
import { serialPass } from './serial-pass.ts'
import type { Settings } from './settings.ts'
import type { Side } from './side.ts'
import type { Window } from './window.ts'
import type { Work } from './work.ts'

export interface SearchLimits {
  /** Schedules to generate at most. */
  readonly workMost: number
  readonly seed: number
  /** A schedule that takes no longer is good enough. */
  readonly ticksWanted: number
  readonly goOn: () => boolean
}

/** The state of one search. */
export interface Search {
  readonly problem: Problem
  readonly settings: Settings
  readonly work: Work
  readonly random: SeededRandom
  /** Schedules from the beginning of time on, and from its end on. */
  readonly sides: readonly [Side, Side]
  readonly window: Window
  readonly bestStarts: Int32Array
  readonly bestModes: Int32Array
  readonly limits: SearchLimits
  bestTicks: number
  spent: number
}

export function isDone(own: Search): boolean {
  const { workMost, ticksWanted, goOn } = own.limits
  return own.spent >= workMost || own.bestTicks <= ticksWanted || (own.spent > 0 && !goOn())
}

/** Schedules work.list with work.modes into `place` of the side. */
export function tryList(own: Search, side: Side, place: number, isParallel: boolean): void {
  const { work, problem, settings } = own
  const at = place * problem.taskCount
  let excess = mendBudgets(work)
  if (isParallel) side.makespanTicks[place] = parallelPass(work, side.direction, side.starts, at)
  else {
    side.makespanTicks[place] = serialPass(
      work,
      side.direction,
      side.starts,
      at,
      settings.chooseModeSixteenths,
    )
    if (excess > 0) excess = overdrawn(work)
  }
  side.modes.set(work.modes, at)
  side.fitness[place] = fitnessOf(work, side, place, excess)
  own.spent++
  if (excess === 0 && side.makespanTicks[place]! < own.bestTicks) keepBest(own, side, place)
}

/** Backward schedules are turned round. */
function keepBest(own: Search, side: Side, place: number): void {
  const { taskCount, modeDurationTicks } = own.problem
  const at = place * taskCount
  const makespan = side.makespanTicks[place]!
  own.bestTicks = makespan
  for (let task = 0; task < taskCount; task++) {
    const mode = side.modes[at + task]!
    const start = side.starts[at + task]!
    own.bestModes[task] = mode
    own.bestStarts[task] = side.direction.isForward ? start : makespan - start - modeDurationTicks[mode]!
  }
}
