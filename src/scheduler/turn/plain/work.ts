/** What one search keeps at hand: the list and modes about to be scheduled, and scratch space. */
import type { Problem } from './problem.ts'
import type { SeededRandom } from './random.ts'
import { emptyTimetable, type Timetable } from './timetable.ts'

export interface Work {
  readonly problem: Problem
  readonly random: SeededRandom
  readonly timetable: Timetable
  /** A list every pass of the direction it is meant for can follow: predecessors first. */
  readonly list: Int32Array
  /** The mode of each task. */
  readonly modes: Int32Array
  /** What the budgets have left with these modes; below zero is overdrawn. */
  readonly budgetLeft: Int32Array
  readonly taskScratch: Int32Array
  readonly tickScratch: Int32Array
}

export function preparedWork(problem: Problem, random: SeededRandom): Work {
  return {
    problem,
    random,
    timetable: emptyTimetable(problem),
    list: new Int32Array(problem.taskCount),
    modes: problem.modesFrom.slice(0, problem.taskCount),
    budgetLeft: new Int32Array(problem.budgetCount),
    taskScratch: new Int32Array(problem.taskCount),
    tickScratch: new Int32Array(problem.horizonTicks + 2),
  }
}
