/**
 * What is free while a schedule grows: the gaps of every lane and what is left of every resource, changed by each
 * reservation. It answers the one question of schedule generation: from which tick on can this be done first?
 * The inner arrays are made once and filled anew for each schedule.
 */

import { FAR_TICK, NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'
import type { Draft } from './draft.ts'
import { FreeBudgets } from './free-budgets.ts'
import { FreeConsumables } from './free-consumables.ts'
import { FreeLaneTime } from './free-lane-time.ts'
import { FreeResources } from './free-resources.ts'
import { LaneChoice } from './lane-choice.ts'
import { nextStartAfter, startOfSoMany } from './lane-starts.ts'
import type { PlaceFinder } from './place-finder.ts'

export class Timetable implements PlaceFinder {
  readonly problem: PreparedInstance
  private readonly laneChoice: LaneChoice
  private readonly lanes: FreeLaneTime
  private readonly resources: FreeResources
  private readonly budgets: FreeBudgets
  private readonly consumables: FreeConsumables
  private readonly pinned: Draft | null
  /** The first tick from which a lane is free for long enough, for the question asked last. */
  private readonly laneStart: Int32Array
  private readonly startsInOrder: Int32Array

  /** @param pinned what stands whenever a pass begins; null: nothing */
  constructor(problem: PreparedInstance, pinned: Draft | null = null) {
    this.problem = problem
    this.pinned = pinned
    this.laneChoice = new LaneChoice(problem)
    this.lanes = new FreeLaneTime(problem)
    this.resources = new FreeResources(problem)
    this.budgets = new FreeBudgets(problem)
    this.consumables = new FreeConsumables(problem)
    this.laneStart = new Int32Array(problem.laneCount)
    this.startsInOrder = new Int32Array(problem.laneCount)
    this.clear()
  }

  /** Nothing of the instance is planned; what stood before it stays. */
  clear(): void {
    this.lanes.clear()
    this.resources.clear()
    this.budgets.clear()
    this.consumables.clear()
  }

  begin(): void {
    if (this.pinned) this.clearToPinned(this.pinned)
    else this.clear()
  }

  /** It looks through the gaps of lanes anew, wherever the predecessor ended. */
  lookFrom(): void {}

  /** As `clear`, with what is pinned where the draft has it. */
  clearToPinned(pinned: Draft): void {
    const { problem } = this
    this.clear()
    for (const activity of problem.pinned) {
      const mode = pinned.modes[activity]!
      this.hold(activity, mode, pinned.starts[activity]!, pinned.lanes, problem.slotFirst[activity]!)
    }
  }

  /** Takes what the pinned activities use of the resources, whoever does them. */
  holdPinnedResources(): void {
    const { pinned, modeFirst, modeTicks, releaseTicks, turnOf } = this.problem
    for (const activity of pinned) {
      const start = releaseTicks[turnOf[activity]!]!
      const mode = modeFirst[activity]!
      this.resources.hold(mode, start, start + modeTicks[mode]!)
    }
  }

  /**
   * The first tick, `fromTick` or later, at which the activity can start in this mode and end by `latestEnd`; NEVER
   * when there is none. Exact: no earlier tick has the lanes and resources, however the lanes are shared out.
   */
  earliestStart(activity: number, mode: number, fromTick: number, latestEnd: number): number {
    const { problem, laneStart, startsInOrder } = this
    const ticks = problem.modeTicks[mode]!
    const hands = problem.modeHands[mode]!
    const place = problem.placeOf[activity]!
    const latestStart = latestEnd - ticks
    const groupsFrom = problem.groupFirst[mode]!
    const groupsTo = problem.groupFirst[mode + 1]!
    let start = fromTick
    if (hands > problem.laneCount) return NEVER
    if (problem.consumableCount > 0 && !this.consumables.suffice(activity, mode)) return NEVER
    if (hands > 0) {
      laneStart.fill(-1)
      if (problem.budgetCount > 0) this.countPayable(activity, ticks)
    }
    const countIsEnough = groupsTo - groupsFrom === 1 && problem.budgetCount === 0
    while (start <= latestStart) {
      start = this.resources.earliest(mode, start, ticks)
      if (start > latestStart) return NEVER
      if (hands === 0) return start
      for (let lane = 0; lane < problem.laneCount; lane++) {
        if (laneStart[lane]! < start) laneStart[lane] = this.lanes.earliest(lane, start, ticks, place)
      }
      let next = startOfSoMany(problem, laneStart, hands, 0, startsInOrder)
      for (let group = groupsFrom; group < groupsTo; group++) {
        const mask = problem.groupMask[group]!
        if (mask === 0) continue
        next = Math.max(
          next,
          startOfSoMany(problem, laneStart, problem.groupCount[group]!, mask, startsInOrder),
        )
      }
      if (next <= start) {
        // With one group the count is all there is to it; groups that share lanes, and lanes a budget, must be tried.
        if (countIsEnough || this.laneChoice.isPossible(mode, laneStart, start)) return start
        next = nextStartAfter(laneStart, start)
      }
      start = next
    }
    return NEVER
  }

  /**
   * The first tick, `fromTick` or later, at which just these lanes can do the activity in this mode and end by
   * `latestEnd`; NEVER when there is none. Whether they have the skills is not asked.
   */
  earliestStartOf(
    lanes: Int32Array,
    firstSlot: number,
    activity: number,
    mode: number,
    fromTick: number,
    latestEnd: number,
  ): number {
    const { problem } = this
    const ticks = problem.modeTicks[mode]!
    const place = problem.placeOf[activity]!
    const slotsTo = firstSlot + problem.modeHands[mode]!
    if (!this.budgets.suffice(lanes, firstSlot, slotsTo, activity, ticks)) return NEVER
    if (problem.consumableCount > 0 && !this.consumables.suffice(activity, mode)) return NEVER
    let start = fromTick
    while (start + ticks <= latestEnd) {
      const asked = start
      start = this.resources.earliest(mode, start, ticks)
      for (let slot = firstSlot; slot < slotsTo && start < NEVER; slot++) {
        start = this.lanes.earliest(lanes[slot]!, start, ticks, place)
      }
      if (start === asked) return start
    }
    return NEVER
  }

  rankLanes(ranks: Int32Array | null): void {
    this.laneChoice.ranks = ranks
  }

  /**
   * Chooses lanes and holds them and resources from `start`, as `earliestStart` found it just now.
   * @param preference by lane: of equals the one with most; left out: who worked in that place last
   */
  reserve(
    activity: number,
    mode: number,
    start: number,
    lanes: Int32Array,
    firstSlot: number,
    preference?: ArrayLike<number>,
  ): void {
    const { problem } = this
    const ticks = problem.modeTicks[mode]!
    const place = problem.placeOf[activity]!
    if (problem.modeHands[mode]! > 0) {
      if (problem.budgetCount > 0) this.countPayable(activity, ticks)
      for (let lane = 0; lane < problem.laneCount; lane++) {
        this.laneStart[lane] = this.lanes.earliest(lane, start, ticks, place)
        this.laneChoice.preference[lane] =
          this.laneStart[lane] !== start
            ? -FAR_TICK
            : (preference?.[lane] ?? this.lanes.lastHere(lane, start + ticks, place))
      }
      this.laneChoice.choose(mode, this.laneStart, start, lanes, firstSlot)
    }
    this.hold(activity, mode, start, lanes, firstSlot)
  }

  /** Holds these lanes, and resources, from `start`: they must be free. */
  hold(activity: number, mode: number, start: number, lanes: Int32Array, firstSlot: number): void {
    const { problem } = this
    const ticks = problem.modeTicks[mode]!
    const hands = problem.modeHands[mode]!
    for (let slot = firstSlot; slot < firstSlot + hands; slot++) {
      this.lanes.hold(lanes[slot]!, start, start + ticks, problem.placeOf[activity]!)
    }
    this.resources.hold(mode, start, start + ticks)
    if (problem.budgetCount > 0) this.budgets.hold(activity, lanes, firstSlot, hands, ticks)
    if (problem.consumableCount > 0) this.consumables.hold(activity, mode)
  }

  /** Whether just this lane could do it from `start`, in the activity's place. */
  isLaneFree(lane: number, activity: number, start: number, ticks: number): boolean {
    return this.lanes.earliest(lane, start, ticks, this.problem.placeOf[activity]!) === start
  }

  /** How many lanes of each budget can be paid for it; those of which none can are never free. */
  private countPayable(activity: number, ticks: number): void {
    const { problem, laneStart } = this
    const { paidLanesMost } = this.laneChoice
    for (let budget = 0; budget < problem.budgetCount; budget++) {
      paidLanesMost[budget] = Math.min(problem.laneCount, this.budgets.lanesMost(budget, activity, ticks))
    }
    for (let lane = 0; lane < problem.laneCount; lane++) {
      const budget = problem.laneBudget[lane]!
      if (budget >= 0 && paidLanesMost[budget] === 0) laneStart[lane] = NEVER
    }
  }
}
