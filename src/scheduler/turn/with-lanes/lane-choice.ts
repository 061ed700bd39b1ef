/**
 * Which lanes do a task, out of those that are free for it: first whom chance puts first, where it is asked; then whose time costs nothing; then fewest skills it does
 * not ask for, so that rare skills stay free; then who worked in that place last; then by index. Where choosing one group
 * after the other leaves a later group short, a bipartite matching (Kuhn 1955, augmenting paths) shares the lanes out, if
 * it can be done at all; budgets that suffice for some of their lanes only are nodes of it too.
 */
import { FAR_TICK } from '../far-tick.ts'
import { bitCount, type PreparedInstance } from '../prepared-instance.ts'

export class LaneChoice {
  /**
   * Of lanes that are equal otherwise the one with most is taken. For each lane that is free: when it last worked in the
   * place of the task, -FAR_TICK if elsewhere or never.
   */
  readonly preference: Int32Array
  /** By budget: no more of its lanes can be paid for this task. */
  readonly paidLanesMost: Int32Array
  /** By lane, where chance chooses: of those that are free the one with most comes first; null: the order above decides. */
  ranks: Int32Array | null = null
  private readonly problem: PreparedInstance
  private readonly slotMask: Int32Array
  private readonly slotOfLane: Int32Array
  private readonly laneOfSlot: Int32Array
  private readonly visited: Uint8Array
  private readonly paidLanes: Int32Array
  private readonly visitedBudget: Uint8Array

  constructor(problem: PreparedInstance) {
    const handsMost = problem.modeHands.reduce((most, hands) => Math.max(most, hands), 0)
    this.problem = problem
    this.preference = new Int32Array(problem.laneCount).fill(-FAR_TICK)
    this.paidLanesMost = new Int32Array(problem.budgetCount)
    this.slotMask = new Int32Array(handsMost)
    this.slotOfLane = new Int32Array(problem.laneCount)
    this.laneOfSlot = new Int32Array(handsMost)
    this.visited = new Uint8Array(problem.laneCount)
    this.paidLanes = new Int32Array(problem.budgetCount)
    this.visitedBudget = new Uint8Array(problem.budgetCount)
  }

  /** Whether the lanes with `laneStart` equal to `start` can be shared out to the groups of the mode. */
  isPossible(mode: number, laneStart: Int32Array, start: number): boolean {
    return this.byGroup(mode, laneStart, start) || this.byMatching(mode, laneStart, start)
  }

  /** Writes the lanes, group after group. It must be possible. */
  choose(mode: number, laneStart: Int32Array, start: number, lanes: Int32Array, firstSlot: number): void {
    if (!this.isPossible(mode, laneStart, start))
      throw new Error(`no lanes for mode ${mode} at tick ${start}`)
    const hands = this.problem.modeHands[mode]!
    for (let slot = 0; slot < hands; slot++) lanes[firstSlot + slot] = this.laneOfSlot[slot]!
  }

  private byGroup(mode: number, laneStart: Int32Array, start: number): boolean {
    const { problem, slotOfLane, laneOfSlot } = this
    const groupsFrom = problem.groupFirst[mode]!
    const groupsTo = problem.groupFirst[mode + 1]!
    slotOfLane.fill(-1)
    this.paidLanes.fill(0)
    let filled = 0
    // Most skills first: a group that takes anybody must not take the only one who can do the other part.
    let skillsBelow = FAR_TICK
    while (filled < problem.modeHands[mode]!) {
      let skills = -1
      for (let group = groupsFrom; group < groupsTo; group++) {
        const count = bitCount(problem.groupMask[group]!)
        if (count < skillsBelow && count > skills) skills = count
      }
      skillsBelow = skills
      let slot = 0
      for (let group = groupsFrom; group < groupsTo; group++) {
        const mask = problem.groupMask[group]!
        const slotsTo = slot + problem.groupCount[group]!
        if (bitCount(mask) !== skills) {
          slot = slotsTo
          continue
        }
        for (; slot < slotsTo; slot++) {
          const lane = this.bestLane(mask, laneStart, start)
          if (lane < 0) return false
          slotOfLane[lane] = slot
          laneOfSlot[slot] = lane
          if (problem.laneBudget[lane]! >= 0) this.paidLanes[problem.laneBudget[lane]!]! += 1
          filled += 1
        }
      }
    }
    return true
  }

  private bestLane(mask: number, laneStart: Int32Array, start: number): number {
    const { problem, slotOfLane, preference, paidLanes, paidLanesMost } = this
    const { laneMask, laneSkillCount, laneBudget } = problem
    let best = -1
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if (laneStart[lane] !== start || slotOfLane[lane] !== -1) continue
      if ((laneMask[lane]! & mask) !== mask) continue
      const budget = laneBudget[lane]!
      if (budget >= 0 && paidLanes[budget]! >= paidLanesMost[budget]!) continue
      if (best >= 0) {
        const ranked = this.ranks ? this.ranks[best]! - this.ranks[lane]! : 0
        if (ranked > 0) continue
        const paidMore = Number(budget >= 0) - Number(laneBudget[best]! >= 0)
        const more = paidMore || laneSkillCount[lane]! - laneSkillCount[best]!
        if (ranked === 0 && (more > 0 || (more === 0 && preference[lane]! <= preference[best]!))) continue
      }
      best = lane
    }
    return best
  }

  /** As many slots as can be go to lanes that cost nothing: a lane that has a slot keeps one while others are seated. */
  private byMatching(mode: number, laneStart: Int32Array, start: number): boolean {
    const { problem, slotMask, slotOfLane, laneOfSlot } = this
    let slots = 0
    for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
      for (let hand = 0; hand < problem.groupCount[group]!; hand++)
        slotMask[slots++] = problem.groupMask[group]!
    }
    slotOfLane.fill(-1)
    laneOfSlot.fill(-1)
    this.paidLanes.fill(0)
    for (const withPaid of problem.budgetCount > 0 ? [false, true] : [true]) {
      for (let slot = 0; slot < slots; slot++) {
        if (laneOfSlot[slot] !== -1) continue
        this.visited.fill(0)
        this.visitedBudget.fill(0)
        if (this.seat(slot, laneStart, start, withPaid)) this.writeLanesOfSlots()
        else if (withPaid) return false
      }
    }
    return true
  }

  private writeLanesOfSlots(): void {
    const { problem, slotOfLane, laneOfSlot } = this
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if (slotOfLane[lane]! >= 0) laneOfSlot[slotOfLane[lane]!] = lane
    }
  }

  private seat(slot: number, laneStart: Int32Array, start: number, withPaid: boolean): boolean {
    const { problem, slotMask, slotOfLane, visited } = this
    const mask = slotMask[slot]!
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if (laneStart[lane] !== start || visited[lane] === 1) continue
      if ((problem.laneMask[lane]! & mask) !== mask) continue
      if (!withPaid && problem.laneBudget[lane]! >= 0) continue
      visited[lane] = 1
      const seated =
        slotOfLane[lane] === -1
          ? this.canBePaid(lane, laneStart, start, withPaid)
          : this.seat(slotOfLane[lane]!, laneStart, start, withPaid)
      if (!seated) continue
      slotOfLane[lane] = slot
      return true
    }
    return false
  }

  /** Its budget has room for one more lane, or one of the lanes it pays now can be done without. */
  private canBePaid(lane: number, laneStart: Int32Array, start: number, withPaid: boolean): boolean {
    const { problem, slotOfLane, visited, visitedBudget, paidLanes, paidLanesMost } = this
    const budget = problem.laneBudget[lane]!
    if (budget < 0) return true
    if (visitedBudget[budget] === 1) return false
    visitedBudget[budget] = 1
    if (paidLanes[budget]! < paidLanesMost[budget]!) {
      paidLanes[budget]! += 1
      return true
    }
    for (let other = 0; other < problem.laneCount; other++) {
      if (problem.laneBudget[other] !== budget || slotOfLane[other] === -1 || visited[other] === 1) continue
      visited[other] = 1
      if (!this.seat(slotOfLane[other]!, laneStart, start, withPaid)) continue
      slotOfLane[other] = -1
      return true
    }
    return false
  }
}
