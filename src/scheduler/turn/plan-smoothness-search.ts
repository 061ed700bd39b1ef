/**
 * A calmer schedule, looked for by simulated annealing (Kirkpatrick, Gelatt and Vecchi 1983): a variation that makes it
 * a little worse is followed now and then, the less often the longer the search goes on.
 */
import type { Schedule } from './instance.ts'
import { STINTS_WANTED_MOST, stintsOver } from './plan-smoothness.ts'
import {
  copied,
  copyInto,
  crewOf,
  type LineUp,
  type LineUpGround,
  lineUpOf,
} from './plan-smoothness-line-up.ts'
import { LineUpTimes } from './plan-smoothness-times.ts'
import { vary } from './plan-smoothness-variation.ts'

/** For each activity that somebody does; fewer find less, more find little more: measured on turns of 24 to 49. */
const ROUND_SCHEDULES_EACH = 120

/**
 * How the search weighs one against the other; what is found is compared exactly. Stints over are weighed evenly, and only
 * a little by who has most: where all have many, a step up that weighs ever more is never taken. Measured on golden turns.
 */
const WEIGHTS = {
  stintOver: 2,
  uneven: 0.25,
  change: 2,
  zoneChange: 0.4,
  parting: 0.4,
  readyTick: 0.02,
  lateTick: 3,
}
/** By so much worse than what it came from a line-up may be, give or take. */
const WARMTH_FIRST = 1.5
const WARMTH_LAST = 0.1

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
  const schedules = ground.worked.length * ROUND_SCHEDULES_EACH
  const times = new LineUpTimes(ground)
  const cost = new LineUpCost(ground, times, readyTicksMost)
  const current = lineUpOf(ground, given)
  const tried = copied(current)
  if (ground.worked.length === 0 || !times.isPossible(current)) return 0
  let currentCost = cost.of(current)
  let bestCost = cost.lateTicks > 0 ? Number.POSITIVE_INFINITY : currentCost
  for (let done = 0; done < schedules; done++) {
    const warmth = WARMTH_FIRST * (WARMTH_LAST / WARMTH_FIRST) ** (done / schedules)
    copyInto(tried, current)
    if (!vary(ground, tried, random) || !times.isPossible(tried)) continue
    const triedCost = cost.of(tried)
    if (triedCost > currentCost && random() >= Math.exp((currentCost - triedCost) / warmth)) continue
    copyInto(current, tried)
    currentCost = triedCost
    if (triedCost >= bestCost || cost.lateTicks > 0 || !isWithinBudgets(ground, tried)) continue
    bestCost = triedCost
    offer(times.schedule(tried))
  }
  return schedules
}

/** What a line-up costs by its times; what is pinned is left out. */
class LineUpCost {
  lateTicks = 0
  private readonly ground: LineUpGround
  private readonly times: LineUpTimes
  private readonly readyTicksMost: readonly number[]
  /** By lane: its last activity so far, -1: none; and its stints. */
  private readonly last: Int32Array
  private readonly stints: Int32Array

  constructor(ground: LineUpGround, times: LineUpTimes, readyTicksMost: readonly number[]) {
    this.ground = ground
    this.times = times
    this.readyTicksMost = readyTicksMost
    this.last = new Int32Array(ground.problem.laneCount)
    this.stints = new Int32Array(ground.problem.laneCount)
  }

  /** Of the line-up that was given its times last. */
  of(lineUp: LineUp): number {
    const { ground, times, last, stints } = this
    const { slotFirst, modeHands } = ground.problem
    last.fill(-1)
    stints.fill(0)
    let cost = 0
    for (let at = 0; at < times.placedCount; at++) {
      const activity = times.placed[at]!
      const first = slotFirst[activity]!
      const behind = first + modeHands[lineUp.modes[activity]!]!
      for (let slot = first; slot < behind; slot++) cost += this.stepCost(lineUp, slot, activity)
      for (let slot = first; slot < behind; slot++) last[lineUp.lanes[slot]!] = activity
    }
    for (const count of stints) {
      cost += WEIGHTS.stintOver * Math.max(0, count - STINTS_WANTED_MOST) + WEIGHTS.uneven * stintsOver(count)
    }
    return cost + this.timeCost()
  }

  private stepCost(lineUp: LineUp, slot: number, activity: number): number {
    const { groups, zones } = this.ground
    const lane = lineUp.lanes[slot]!
    const before = this.last[lane]!
    if (before < 0) {
      this.stints[lane] = 1
      return 0
    }
    let cost = this.isParting(lineUp, before, activity, lane) ? WEIGHTS.parting : 0
    if (groups[before] !== groups[activity]) {
      this.stints[lane]! += 1
      cost += WEIGHTS.change
    } else if (zones[before] !== zones[activity]) cost += WEIGHTS.zoneChange
    return cost
  }

  /** As `isParting` has it; without making lists, for this is what most of the time goes into. */
  private isParting({ modes, lanes }: LineUp, before: number, after: number, lane: number): boolean {
    const { slotFirst, modeHands } = this.ground.problem
    const first = slotFirst[before]!
    const behind = first + modeHands[modes[before]!]!
    const firstAfter = slotFirst[after]!
    const behindAfter = firstAfter + modeHands[modes[after]!]!
    for (let slot = first; slot < behind; slot++) {
      const other = lanes[slot]!
      if (other === lane) continue
      for (let next = firstAfter; next < behindAfter; next++) if (lanes[next] === other) return false
    }
    return behind - first > 1
  }

  private timeCost(): number {
    const { weights } = this.ground.problem
    let cost = 0
    this.lateTicks = 0
    for (const [turn, tick] of this.times.readyTicks().entries()) {
      cost += WEIGHTS.readyTick * weights[turn]! * tick
      this.lateTicks += Math.max(0, tick - this.readyTicksMost[turn]!)
    }
    return cost + WEIGHTS.lateTick * this.lateTicks
  }
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
