/** The best plan that so many schedules find for a plain instance. */
import type { PlainInstance } from './plain-instance.ts'
import { preparedProblem } from './problem.ts'
import { search } from './search.ts'
import { settingsFor } from './settings.ts'

export interface PlainPlanOptions {
  readonly workMost: number
  readonly seed: number
  /** One that takes no longer is good enough. */
  readonly ticksWanted: number
  readonly goOn: () => boolean
}

export interface PlainPlan {
  /** From the release on, by task. */
  readonly starts: readonly number[]
  /** By task, its place among the modes of the task. */
  readonly modes: readonly number[]
  readonly ticks: number
}

export interface PlainPlanFound {
  /** null: none was found. */
  readonly plan: PlainPlan | null
  readonly workDone: number
}

export function plainPlan(instance: PlainInstance, options: PlainPlanOptions): PlainPlanFound {
  const problem = preparedProblem(instance)
  if (!problem) return { plan: null, workDone: 0 }
  const found = search(problem, options, settingsFor(problem, options.workMost))
  if (found.makespanTicks === undefined) return { plan: null, workDone: found.schedules }
  const starts = new Array<number>(problem.taskCount)
  const modes = new Array<number>(problem.taskCount)
  for (const [task, start] of found.starts.entries()) {
    starts[problem.originalTask[task]!] = start
    modes[problem.originalTask[task]!] = problem.originalMode[found.modes[task]!]!
  }
  return { plan: { starts, modes, ticks: found.makespanTicks }, workDone: found.schedules }
}
