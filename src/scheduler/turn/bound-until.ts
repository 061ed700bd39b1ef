/** How early a turn can be ready at best, looked into more closely than `lowerBoundTicks` does. */
import { cannotBeReadyBefore, strongerBoundTicks } from './bounds/stronger-bound.ts'
import type { TurnInstance } from './instance.ts'
import { lowerBoundTicks } from './lower-bound.ts'
import { prepared } from './prepared-instance.ts'

/**
 * @param instance without problems (`instanceProblems`)
 * @param untilTick how far it is worth looking: a plan has the turn ready then, or later is too late anyway
 * @returns no plan has the turn ready before it; never later than `untilTick`; null: no plan is possible
 */
export function boundUntilTick(instance: TurnInstance, turnIndex: number, untilTick: number): number | null {
  const { readyTick } = lowerBoundTicks(instance, turnIndex, untilTick)
  if (readyTick === null || readyTick >= untilTick) return readyTick
  return strongerBoundTicks(prepared(instance), turnIndex, readyTick, untilTick)
}

/**
 * The same for a plan that stands: its ready tick where it is proven that none is ready sooner, else what is plain to see.
 * One question is asked instead of one for each halving.
 */
export function boundOfPlanTick(instance: TurnInstance, turnIndex: number, readyTick: number): number | null {
  const { readyTick: boundTick } = lowerBoundTicks(instance, turnIndex, readyTick)
  if (boundTick === null || boundTick >= readyTick) return boundTick
  return cannotBeReadyBefore(prepared(instance), turnIndex, readyTick) ? readyTick : boundTick
}
