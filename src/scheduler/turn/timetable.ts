/**
 * What is free while a schedule grows: the gaps of every lane and what is left of every resource, changed by each
 * reservation. It answers the one question of schedule generation: from which tick on can this be done first?
 * The inner arrays are made once and filled anew for each schedule.
 */

import { FAR_TICK, NEVER } from './far-tick.ts'
import { FreeLaneTime } from './free-lane-time.ts'
import { FreeResources } from './free-resources.ts'
import { LaneChoice } from './lane-choice.ts'
import type { PreparedInstance } from './prepared-instance.ts'

export class Timetable {
  readonly problem: PreparedInstance
  private readonly laneChoice: LaneChoice
  private readonly lanes: FreeLaneTime
  private readonly resources: FreeResources
  /** The first tick from which a lane is free for long enough, for the question asked last. */
  private readonly laneStart: Int32Array
  private readonly startsInOrder: Int32Array

  constructor(problem: PreparedInstance) {
    this.problem = problem
    this.laneChoice = new LaneChoice(problem)
    this.lanes = new FreeLaneTime(problem)
    this.resources = new FreeResources(problem)
    this.laneStart = new Int32Array(problem.laneCount)
    this.startsInOrder = new Int32Array(problem.laneCount)
    this.clear()
  }

  /** Nothing of the instance is planned; what stood before it stays. */
  clear(): void {
    this.lanes.clear()
    this.resources.clear()
  }

  /**
   * The first tick, `fromTick` or later, at which the activity can start in this mode and end by `latestEnd`; NEVER
   * when there is none. Exact: no earlier tick has the lanes and resources, however the lanes are shared out.
   */
  earliestStart(activity: number, mode: number, fromTick: number, latestEnd: number): number {
    const { problem, laneStart } = this
    const ticks = problem.modeTicks[mode]!
    const hands = problem.modeHands[mode]!
    const place = problem.placeOf[activity]!
    const latestStart = latestEnd - ticks
    const groupsFrom = problem.groupFirst[mode]!
    const groupsTo = problem.groupFirst[mode + 1]!
    let start = fromTick
    if (hands > problem.laneCount) return NEVER
    if (hands > 0) laneStart.fill(-1)
    while (start <= latestStart) {
      start = this.resources.earliest(mode, start, ticks)
      if (start > latestStart) return NEVER
      if (hands === 0) return start
      for (let lane = 0; lane < problem.laneCount; lane++) {
        if (laneStart[lane]! < start) laneStart[lane] = this.lanes.earliest(lane, start, ticks, place)
      }
      let next = this.startOfSoMany(hands, 0)
      for (let group = groupsFrom; group < groupsTo; group++) {
        const mask = problem.groupMask[group]!
        if (mask === 0) continue
        next = Math.max(next, this.startOfSoMany(problem.groupCount[group]!, mask))
      }
      if (next <= start) {
        // With one group the count is all there is to it; groups that share lanes must be tried.
        if (groupsTo - groupsFrom === 1 || this.laneChoice.isPossible(mode, laneStart, start)) return start
        next = this.nextLaneStartAfter(start)
      }
      start = next
    }
    return NEVER
  }

  /** Hold lanes and resources from `start`, as `earliestStart` found it just now; the lanes go into `lanes`. */
  reserve(activity: number, mode: number, start: number, lanes: Int32Array, firstSlot: number): void {
    const { problem } = this
    const ticks = problem.modeTicks[mode]!
    const place = problem.placeOf[activity]!
    const hands = problem.modeHands[mode]!
    if (hands > 0) {
      for (let lane = 0; lane < problem.laneCount; lane++) {
        this.laneStart[lane] = this.lanes.earliest(lane, start, ticks, place)
        this.laneChoice.lastHereTick[lane] =
          this.laneStart[lane] === start ? this.lanes.lastHere(lane, start + ticks, place) : -FAR_TICK
      }
      this.laneChoice.choose(mode, this.laneStart, start, lanes, firstSlot)
      for (let slot = firstSlot; slot < firstSlot + hands; slot++) {
        this.lanes.hold(lanes[slot]!, start, start + ticks, place)
      }
    }
    this.resources.hold(mode, start, start + ticks)
  }

  /** The most lanes that are free from one tick on for so long, with all skills of the mask. */
  mostLanesAtOnce(ticks: number, place: number, skillMask: number, fromTick: number): number {
    const { problem } = this
    let most = 0
    for (let of = 0; of < problem.laneCount; of++) {
      let start = this.lanes.earliest(of, fromTick, ticks, place)
      for (let gap = 0; gap <= this.lanes.gapsOf(of) && start < NEVER; gap++) {
        let count = 0
        for (let lane = 0; lane < problem.laneCount; lane++) {
          if ((problem.laneMask[lane]! & skillMask) !== skillMask) continue
          if (this.lanes.earliest(lane, start, ticks, place) === start) count += 1
        }
        most = Math.max(most, count)
        start = this.lanes.earliest(of, this.lanes.gapEndFrom(of, start + ticks), ticks, place)
      }
    }
    return most
  }

  /** When so many lanes with all skills of the mask have each been free once since the tick asked for. */
  private startOfSoMany(count: number, skillMask: number): number {
    const { laneStart, startsInOrder } = this
    const { laneMask, laneCount } = this.problem
    let kept = 0
    for (let lane = 0; lane < laneCount; lane++) {
      if ((laneMask[lane]! & skillMask) !== skillMask) continue
      const start = laneStart[lane]!
      let at = kept
      if (kept === count) {
        if (start >= startsInOrder[kept - 1]!) continue
        at = kept - 1
      } else {
        kept += 1
      }
      while (at > 0 && startsInOrder[at - 1]! > start) {
        startsInOrder[at] = startsInOrder[at - 1]!
        at -= 1
      }
      startsInOrder[at] = start
    }
    return kept < count ? NEVER : startsInOrder[count - 1]!
  }

  private nextLaneStartAfter(tick: number): number {
    let next = NEVER
    for (let lane = 0; lane < this.problem.laneCount; lane++) {
      const start = this.laneStart[lane]!
      if (start > tick && start < next) next = start
    }
    return next
  }
}
