/**
 * A calmer schedule, looked for by simulated annealing (Kirkpatrick, Gelatt and Vecchi 1983): a variation that makes it
 * a little worse is followed now and then, the less often the longer the search goes on.
 */
import { FAR_TICK } from '../far-tick.ts'
import type { Schedule } from '../instance.ts'
import { lowerBounds } from '../lower-bound.ts'
import { prepared } from '../prepared-instance.ts'
import { LineUpCost } from './cost.ts'
import { copied, copyInto, crewOf, type LineUp, type LineUpGround, lineUpOf } from './line-up.ts'
import { LineUpTimes } from './times.ts'
import { vary } from './variation.ts'
import { costAllowed } from './warmth.ts'

/** For each activity that somebody does; fewer find less, more find little more: measured on turns of 24 to 49. */
const ROUND_SCHEDULES_EACH = 120
/** Activities given their times in a round: what is large is looked at less, for nobody waits that long. */
const ROUND_PLACEMENTS_MOST = 50_000

/**
 * After so many schedules without a better one it goes on from the best: it walks about it, and not away. Stints over, in
 * the mean of the golden turns games to banquet and banquet to worship for 4, 5, 6 and 8 people with seeds 1 to 4, four
 * rounds each: 78 without it, 62 with 150, 46 with 50, 44 with 16, 45 with 8.
 */
const RETURN_AFTER = 16

export interface SearchOptions {
  /** By turn: what is later counts against a schedule, and is not offered. */
  readonly readyTicksMost: readonly number[]
  readonly random: () => number
  /** Is given each schedule that may be better than the one it began with, and all that were offered before. */
  readonly offer: (found: Schedule) => void
}

/** @returns so many schedules were generated: always the same number for the same instance */
export function searchRound(
  ground: LineUpGround,
  given: Schedule,
  { readyTicksMost, random, offer }: SearchOptions,
): number {
  const { problem } = ground
  const schedules = Math.min(
    ground.worked.length * ROUND_SCHEDULES_EACH,
    Math.floor(ROUND_PLACEMENTS_MOST / Math.max(1, problem.activityCount)),
  )
  const times = new LineUpTimes(ground)
  // Of the instance itself: here duties are work and hold their lanes, and would be counted twice.
  const leastReadyTicks = lowerBounds(prepared(ground.instance)).map(
    ({ readyTick }, turn) => readyTick ?? problem.releaseTicks[turn]!,
  )
  const cost = new LineUpCost(ground, readyTicksMost, leastReadyTicks)
  const current = lineUpOf(ground, given)
  const tried = copied(current)
  const atAnyTime = new Int32Array(problem.activityCount).fill(FAR_TICK)
  const isLate = () => times.readyTicks().some((tick, turn) => tick > readyTicksMost[turn]!)
  const givenOrder = times.orderOf(current)
  if (ground.worked.length === 0 || !times.isPossible(current, atAnyTime)) return 0
  let currentCost = cost.ofOrder(current, givenOrder) + cost.ofTimes(times.readyTicks())
  let bestCost = isLate() ? Number.POSITIVE_INFINITY : currentCost
  const best = copied(current)
  let leftBestAt = 0
  for (let done = 0; done < schedules; done++) {
    if (done - leftBestAt > RETURN_AFTER && bestCost < Number.POSITIVE_INFINITY) {
      copyInto(current, best)
      currentCost = bestCost
      leftBestAt = done
    }
    const limit = currentCost + costAllowed(done, schedules, random)
    copyInto(tried, current)
    if (!vary(ground, tried, random)) continue
    // Who does what is quickly judged: times are only looked for where they may be worth it, and as long as they are.
    const orderCost = cost.ofOrder(tried, times.orderOf(tried))
    if (!cost.allowEnds(limit - orderCost) || !times.isPossible(tried, cost.endMost)) continue
    copyInto(current, tried)
    currentCost = orderCost + cost.ofTimes(times.readyTicks())
    if (currentCost >= bestCost || isLate() || !isWithinBudgets(ground, tried)) continue
    bestCost = currentCost
    leftBestAt = done
    copyInto(best, tried)
    offer(times.schedule(tried))
  }
  return schedules
}

function isWithinBudgets(ground: LineUpGround, lineUp: LineUp): boolean {
  const { instance, problem, pinned } = ground
  const left = (instance.budgets ?? []).map(({ laneTicksMost }) => laneTicksMost)
  if (left.length === 0) return true
  const take = (lane: number, ticks: number) => {
    const budget = problem.laneBudget[lane]!
    if (budget >= 0) left[budget]! -= ticks
  }
  for (const activity of lineUp.list) {
    for (const lane of crewOf(ground, lineUp, activity))
      take(lane, problem.modeTicks[lineUp.modes[activity]!]!)
  }
  for (const { lanes, startTick, endTick } of pinned)
    for (const lane of lanes) take(lane, endTick - startTick)
  return left.every((ticks) => ticks >= 0)
}
