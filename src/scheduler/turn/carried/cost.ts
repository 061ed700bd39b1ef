/** What a line-up costs, in whole numbers: how the search for a calmer schedule weighs one against the other. */

import { tailTicks } from '../tail-ticks.ts'
import type { LineUp, LineUpGround } from './line-up.ts'
import { STINTS_WANTED_MOST, stintsOver } from './smoothness.ts'

/**
 * Whole numbers of one unit that means nothing else: only how they stand to each other counts. What is found is compared
 * exactly. Stints over are weighed evenly, and only a little by who has most: where all have many, a step up that weighs
 * ever more is never taken. Chosen on golden turns.
 */
const COSTS = {
  stintOver: 200,
  uneven: 25,
  change: 200,
  zoneChange: 40,
  parting: 40,
  readyTick: 2,
  lateTick: 300,
}

export class LineUpCost {
  /** By activity: nothing of it may end later, for the costs to stay below what `allowEnds` was given. */
  readonly endMost: Int32Array
  private readonly ground: LineUpGround
  private readonly readyTicksMost: readonly number[]
  /** By turn, by activity. */
  private readonly tails: readonly Float64Array[]
  /** By turn: no times are ready sooner. */
  private readonly leastReadyTicks: readonly number[]
  private readonly leastTimeCost: number
  /** By lane: its last activity so far, -1: none; and its stints. */
  private readonly last: Int32Array
  private readonly stints: Int32Array

  /**
   * @param readyTicksMost  by turn: what is later counts as late
   * @param leastReadyTicks  by turn: no times are ready sooner
   */
  constructor(ground: LineUpGround, readyTicksMost: readonly number[], leastReadyTicks: readonly number[]) {
    this.ground = ground
    this.readyTicksMost = readyTicksMost
    this.leastReadyTicks = leastReadyTicks
    this.tails = Array.from(ground.problem.releaseTicks, (_, turn) => tailTicks(ground.problem, turn))
    this.last = new Int32Array(ground.problem.laneCount)
    this.stints = new Int32Array(ground.problem.laneCount)
    this.endMost = new Int32Array(ground.problem.activityCount)
    this.leastTimeCost = this.ofTimes(leastReadyTicks)
  }

  /** Of who does what after what; what is pinned is left out. @param order  the activities as they are given their times */
  ofOrder(lineUp: LineUp, order: Int32Array): number {
    const { last, stints } = this
    const { slotFirst, modeHands } = this.ground.problem
    last.fill(-1)
    stints.fill(0)
    let cost = 0
    for (let at = 0; at < order.length; at++) {
      const activity = order[at]!
      const first = slotFirst[activity]!
      const behind = first + modeHands[lineUp.modes[activity]!]!
      for (let slot = first; slot < behind; slot++) cost += this.stepCost(lineUp, slot, activity)
      for (let slot = first; slot < behind; slot++) last[lineUp.lanes[slot]!] = activity
    }
    for (let lane = 0; lane < stints.length; lane++) {
      const count = stints[lane]!
      if (count <= STINTS_WANTED_MOST) continue
      cost += COSTS.stintOver * (count - STINTS_WANTED_MOST) + COSTS.uneven * stintsOver(count)
    }
    return cost
  }

  /** Of when each turn is ready. */
  ofTimes(readyTicks: ArrayLike<number>): number {
    let cost = 0
    for (let turn = 0; turn < readyTicks.length; turn++) cost += this.ofTurn(turn, readyTicks[turn]!)
    return cost
  }

  /** Sets `endMost` so that times cost no more than `limit`. @returns false: no times do */
  allowEnds(limit: number): boolean {
    const { weights, turnCount, activityCount, turnOf } = this.ground.problem
    const spare = limit - this.leastTimeCost
    if (spare < 0) return false
    for (let turn = 0; turn < turnCount; turn++) {
      const most = this.readyTicksMost[turn]!
      const perTick = COSTS.readyTick * weights[turn]!
      const affordable = spare + this.ofTurn(turn, this.leastReadyTicks[turn]!)
      const inTime = Math.floor(affordable / perTick)
      const readyMost =
        inTime <= most
          ? inTime
          : Math.floor((affordable + COSTS.lateTick * most) / (perTick + COSTS.lateTick))
      for (let activity = 0; activity < activityCount; activity++)
        if (turnOf[activity] === turn) this.endMost[activity] = readyMost - this.tails[turn]![activity]!
    }
    return true
  }

  private ofTurn(turn: number, readyTick: number): number {
    const { weights } = this.ground.problem
    const lateTicks = Math.max(0, readyTick - this.readyTicksMost[turn]!)
    return COSTS.readyTick * weights[turn]! * readyTick + COSTS.lateTick * lateTicks
  }

  private stepCost(lineUp: LineUp, slot: number, activity: number): number {
    const { groups, zones } = this.ground
    const lane = lineUp.lanes[slot]!
    const before = this.last[lane]!
    if (before < 0) {
      this.stints[lane] = 1
      return 0
    }
    let cost = this.isParting(lineUp, before, activity, lane) ? COSTS.parting : 0
    if (groups[before] !== groups[activity]) {
      this.stints[lane]! += 1
      cost += COSTS.change
    } else if (zones[before] !== zones[activity]) cost += COSTS.zoneChange
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
}
