/**
 * The best plan that so many tries find, with the bound that says how good it is: where nothing but resources and precedence
 * counts by one search (`plain/`), else by another (`with-lanes/`). Same instance, options and version: same answer.
 */

import type { TurnInstance } from './instance.ts'
import { instanceProblems } from './instance-problems.ts'
import { KnownBounds } from './known-bounds.ts'
import { lowerBounds } from './lower-bound.ts'
import { plainInstance } from './plain/plain-instance.ts'
import { plainPlanFound } from './plain/plain-plan-found.ts'
import { type PreparedInstance, prepared } from './prepared-instance.ts'
import type { PlanSearched, SolveOptions, SolveResult } from './solve-question.ts'
import { scheduleFromDraft } from './with-lanes/found-plan.ts'
import { type Effort, workLeft } from './with-lanes/improvement.ts'
import { bestPlanWithLanes } from './with-lanes/search.ts'

export type { SolveOptions, SolveResult } from './solve-question.ts'

/** Part of the key of cached plans: moved on whenever the same input may give another answer. */
export const SOLVER_VERSION = 'turn-5'

/** @throws when the instance is malformed, with the problems in the message */
export function solve(instance: TurnInstance, options: SolveOptions): SolveResult {
  const problems = instanceProblems(instance)
  if (problems.length > 0) throw new Error(`malformed instance: ${problems.join('; ')}`)
  const problem = prepared(instance)
  const boundTicks = lowerBounds(problem).map(({ readyTick }) => readyTick)
  if (!boundTicks.every((tick) => tick !== null)) {
    return { schedule: null, workDone: 0, boundTicks, proof: 'bound', exhausted: false }
  }
  const bounds = new KnownBounds(problem, boundTicks)
  const isAcceptable = (readyTicks: readonly number[]): boolean =>
    readyTicks.every(
      (tick, turn) => tick <= (options.acceptableReadyTicks?.[turn] ?? Number.NEGATIVE_INFINITY),
    )
  const isGoodEnough = (readyTicks: readonly number[]): boolean =>
    bounds.areReached(readyTicks) || isAcceptable(readyTicks)

  const plain = plainInstance(instance)
  const found = plain
    ? plainPlanFound(instance, plain, bounds.ticks[0]!, options)
    : planWithLanesFound(problem, options, isGoodEnough)
  const readyTicks = found.schedule?.readyTicks ?? null
  if (!readyTicks || !isGoodEnough(readyTicks)) bounds.lookAt(readyTicks)
  const isLate = !readyTicks?.every((tick, turn) => tick <= problem.dueTicks[turn]!)
  const isProven = (readyTicks && bounds.areReached(readyTicks)) || (isLate && bounds.excludeDue())
  return {
    ...found,
    boundTicks: bounds.ticks,
    proof: isProven ? 'bound' : 'none-found',
  }
}

function planWithLanesFound(
  problem: PreparedInstance,
  { workMost, seed, goOn }: SolveOptions,
  isGoodEnough: (readyTicks: readonly number[]) => boolean,
): PlanSearched {
  const effort: Effort = { workMost, workDone: 0, goOn }
  const best = bestPlanWithLanes(problem, effort, seed, (plan) => isGoodEnough(plan.readyTicks))
  return {
    schedule: best && scheduleFromDraft(problem, best),
    workDone: effort.workDone,
    exhausted: best ? !isGoodEnough(best.readyTicks) : workLeft(effort) < 1,
  }
}
