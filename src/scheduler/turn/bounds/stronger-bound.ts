/**
 * A bound by refutation: suppose that the turn is ready by some tick, and see whether what follows contradicts itself
 * (destructive improvement, after Klein and Scholl, Computing lower bounds by destructive improvement, 1999).
 */
import { earliestTicks } from '../critical-path.ts'
import type { PreparedInstance } from '../prepared-instance.ts'
import { neededWork } from './needed-work.ts'
import { Supposition } from './supposition.ts'

/** Work over a longer time is left to the bound that is known. */
const SPAN_MOST_TICKS = 10_000

/**
 * Counted is what the turn needs, as for `lowerBoundTicks`; budgets and walks between pieces of this work are not.
 * @param fromTick no plan has the turn ready before it
 * @param untilTick how far it is worth looking: a plan has the turn ready then
 * @returns from `fromTick` to `untilTick`: no plan has the turn ready before it. `fromTick` where nothing more is proven,
 * or where the turn is something pinned
 */
export function strongerBoundTicks(
  problem: PreparedInstance,
  turn: number,
  fromTick: number,
  untilTick: number,
): number {
  if (fromTick >= untilTick) return fromTick
  const supposition = suppositionUntil(problem, turn, untilTick)
  if (supposition === null) return fromTick
  let low = fromTick
  let high = untilTick
  // First whether the plan is the best there is; then by halves.
  let next = high - 1
  while (low < high && supposition.isAffordable) {
    if (supposition.isRefuted(untilTick - next)) low = next + 1
    else high = next
    next = (low + high) >> 1
  }
  return low
}

/** Whether it is proven that no plan has the turn ready before `tick`; false where that is not found out. */
export function cannotBeReadyBefore(problem: PreparedInstance, turn: number, tick: number): boolean {
  const supposition = suppositionUntil(problem, turn, tick)
  return supposition?.isAffordable === true && supposition.isRefuted(1)
}

function suppositionUntil(problem: PreparedInstance, turn: number, untilTick: number): Supposition | null {
  const work = neededWork(problem, turn, earliestTicks(problem).start, untilTick)
  return work === null || work.spanTicks > SPAN_MOST_TICKS ? null : new Supposition(problem, work)
}
