/**
 * Which lanes do a task, out of those that are free for it: fewest skills it does not ask for, so that rare skills stay
 * free; then who worked in that place last; then by index. Where choosing one group after the other leaves a later
 * group short, a bipartite matching (Kuhn 1955, augmenting paths) shares the lanes out, if it can be done at all.
 */
import { FAR_TICK } from './far-tick.ts'
import { bitCount, type PreparedInstance } from './prepared-instance.ts'

export class LaneChoice {
  /** For each lane that is free: when it last worked in the place of the task, -FAR_TICK if elsewhere or never. */
  readonly lastHereTick: Int32Array
  private readonly problem: PreparedInstance
  private readonly slotMask: Int32Array
  private readonly slotOfLane: Int32Array
  private readonly laneOfSlot: Int32Array
  private readonly visited: Uint8Array

  constructor(problem: PreparedInstance) {
    const handsMost = problem.modeHands.reduce((most, hands) => Math.max(most, hands), 0)
    this.problem = problem
    this.lastHereTick = new Int32Array(problem.laneCount).fill(-FAR_TICK)
    this.slotMask = new Int32Array(handsMost)
    this.slotOfLane = new Int32Array(problem.laneCount)
    this.laneOfSlot = new Int32Array(handsMost)
    this.visited = new Uint8Array(problem.laneCount)
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
          filled += 1
        }
      }
    }
    return true
  }

  private bestLane(mask: number, laneStart: Int32Array, start: number): number {
    const { problem, slotOfLane, lastHereTick } = this
    let best = -1
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if (laneStart[lane] !== start || slotOfLane[lane] !== -1) continue
      if ((problem.laneMask[lane]! & mask) !== mask) continue
      if (best >= 0) {
        const more = problem.laneSkillCount[lane]! - problem.laneSkillCount[best]!
        if (more > 0 || (more === 0 && lastHereTick[lane]! <= lastHereTick[best]!)) continue
      }
      best = lane
    }
    return best
  }

  private byMatching(mode: number, laneStart: Int32Array, start: number): boolean {
    const { problem, slotMask, slotOfLane, laneOfSlot, visited } = this
    let slots = 0
    for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
      for (let hand = 0; hand < problem.groupCount[group]!; hand++)
        slotMask[slots++] = problem.groupMask[group]!
    }
    slotOfLane.fill(-1)
    for (let slot = 0; slot < slots; slot++) {
      visited.fill(0)
      if (!this.seat(slot, laneStart, start)) return false
    }
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if (slotOfLane[lane]! >= 0) laneOfSlot[slotOfLane[lane]!] = lane
    }
    return true
  }

  private seat(slot: number, laneStart: Int32Array, start: number): boolean {
    const { problem, slotMask, slotOfLane, visited } = this
    const mask = slotMask[slot]!
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if (laneStart[lane] !== start || visited[lane] === 1) continue
      if ((problem.laneMask[lane]! & mask) !== mask) continue
      visited[lane] = 1
      if (slotOfLane[lane] === -1 || this.seat(slotOfLane[lane]!, laneStart, start)) {
        slotOfLane[lane] = slot
        return true
      }
    }
    return false
  }
}
