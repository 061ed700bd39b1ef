/** Times for a line-up: each activity in its turn as early as its lanes and what it uses allow, behind all they did. */
import { NEVER } from '../far-tick.ts'
import type { Schedule } from '../instance.ts'
import { FreeResources } from '../with-lanes/free-resources.ts'
import type { LineUp, LineUpGround } from './line-up.ts'

export class LineUpTimes {
  readonly starts: Int32Array
  readonly ends: Int32Array
  private readonly ground: LineUpGround
  private readonly free: FreeResources
  /** A lane does its own in this order. */
  private readonly order: Int32Array
  private readonly isListed: Uint8Array
  private listedCount = 0
  private readonly ready: Int32Array
  /** By lane: when it is done with what it has, and where that is; -1: it has done nothing. */
  private readonly laneEnd: Int32Array
  private readonly lanePlace: Int32Array
  /** By lane: what it has to do and has no times for yet. */
  private readonly laneTicksLeft: Int32Array

  constructor(ground: LineUpGround) {
    const { activityCount, laneCount, turnCount } = ground.problem
    this.ground = ground
    this.free = new FreeResources(ground.problem)
    this.starts = new Int32Array(activityCount)
    this.ends = new Int32Array(activityCount)
    this.order = new Int32Array(activityCount - ground.pinned.length)
    this.isListed = new Uint8Array(activityCount)
    this.ready = new Int32Array(turnCount)
    this.laneEnd = new Int32Array(laneCount)
    this.lanePlace = new Int32Array(laneCount)
    this.laneTicksLeft = new Int32Array(laneCount)
  }

  /** In which order the line-up gives its activities their times: as listed, but what one waits for first. */
  orderOf(lineUp: LineUp): Int32Array {
    this.isListed.fill(0)
    this.listedCount = 0
    for (let at = 0; at < lineUp.list.length; at++) this.list(lineUp.list[at]!)
    return this.order
  }

  private list(activity: number): void {
    if (this.isListed[activity] === 1) return
    this.isListed[activity] = 1
    const { predecessorFirst, predecessors } = this.ground.problem
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++)
      this.list(predecessors[at]!)
    this.order[this.listedCount++] = activity
  }

  /**
   * Times for the line-up in the order asked for last.
   * @param endMost  by activity: it must not end later
   * @returns false: something cannot end so soon, or not before the horizon
   */
  isPossible(lineUp: LineUp, endMost: Int32Array): boolean {
    const { problem, pinned } = this.ground
    this.free.clear()
    this.laneEnd.fill(-1)
    for (const { activity, mode, startTick, endTick } of pinned) {
      this.free.hold(problem.modeFirst[activity]! + mode, startTick, endTick)
    }
    const handsUntil = this.countLeft(lineUp, endMost)
    for (let at = 0; at < this.order.length; at++) {
      const activity = this.order[at]!
      const latestEnd = Math.min(problem.horizonTick, endMost[activity]!)
      if (!this.place(lineUp, activity, latestEnd, handsUntil)) return false
    }
    return true
  }

  /** Sets the ticks that each lane has to do. @returns until when hands may have something to do at all */
  private countLeft({ modes, lanes }: LineUp, endMost: Int32Array): number {
    const { slotFirst, modeHands, modeTicks } = this.ground.problem
    let until = 0
    this.laneTicksLeft.fill(0)
    for (let at = 0; at < this.order.length; at++) {
      const activity = this.order[at]!
      const mode = modes[activity]!
      const first = slotFirst[activity]!
      const behind = first + modeHands[mode]!
      for (let slot = first; slot < behind; slot++) this.laneTicksLeft[lanes[slot]!]! += modeTicks[mode]!
      if (endMost[activity]! > until) until = endMost[activity]!
    }
    return until
  }

  /** What it waits for has its times. @returns false: too late for it, or for what its hands have to do behind it */
  private place(lineUp: LineUp, activity: number, latestEnd: number, handsUntil: number): boolean {
    const { problem } = this.ground
    let start = problem.releaseTicks[problem.turnOf[activity]!]!
    for (let at = problem.predecessorFirst[activity]!; at < problem.predecessorFirst[activity + 1]!; at++) {
      const end = this.ends[problem.predecessors[at]!]!
      if (end > start) start = end
    }
    const mode = lineUp.modes[activity]!
    const ticks = problem.modeTicks[mode]!
    const place = problem.placeOf[activity]!
    const slotsFrom = problem.slotFirst[activity]!
    const slotsTo = slotsFrom + problem.modeHands[mode]!
    for (let agreed = NEVER; agreed !== start; ) {
      agreed = start
      for (let slot = slotsFrom; slot < slotsTo; slot++) {
        start = this.earliestOfLane(lineUp.lanes[slot]!, place, start, ticks)
        if (start + ticks > latestEnd) return false
      }
      start = this.free.earliest(mode, start, ticks)
      if (start + ticks > latestEnd) return false
    }
    for (let slot = slotsFrom; slot < slotsTo; slot++) {
      const lane = lineUp.lanes[slot]!
      this.laneTicksLeft[lane]! -= ticks
      if (start + ticks + this.laneTicksLeft[lane]! > handsUntil) return false
      this.laneEnd[lane] = start + ticks
      this.lanePlace[lane] = place
    }
    this.free.hold(mode, start, start + ticks)
    this.starts[activity] = start
    this.ends[activity] = start + ticks
    return true
  }

  private earliestOfLane(lane: number, place: number, fromTick: number, ticks: number): number {
    const { walk, placeCount, gaps } = this.ground.problem
    const end = this.laneEnd[lane]!
    const from =
      end < 0 ? fromTick : Math.max(fromTick, end + walk[this.lanePlace[lane]! * placeCount + place]!)
    const own = gaps[lane]!
    for (let at = 0; at < own.length; at++) {
      const gap = own[at]!
      const start = Math.max(from, gap.from, gap.previousEnd + walk[gap.previousPlace * placeCount + place]!)
      const isInTime = start + ticks + walk[place * placeCount + gap.nextPlace]! <= gap.nextStart
      if (isInTime && start + ticks <= gap.to) return start
    }
    return NEVER
  }

  /** When each turn is ready, by turn, as these times have it. */
  readyTicks(): Int32Array {
    const { problem, pinned } = this.ground
    this.ready.set(problem.releaseTicks)
    for (let at = 0; at < this.order.length; at++) {
      const activity = this.order[at]!
      const turn = problem.turnOf[activity]!
      if (this.ends[activity]! > this.ready[turn]!) this.ready[turn] = this.ends[activity]!
    }
    for (const { activity, endTick } of pinned) {
      const turn = problem.turnOf[activity]!
      if (endTick > this.ready[turn]!) this.ready[turn] = endTick
    }
    return this.ready
  }

  /** The line-up with its times, as a schedule. */
  schedule({ modes, lanes }: LineUp): Schedule {
    const { problem, instance, pinned } = this.ground
    const pinnedByActivity = new Map(pinned.map((planned) => [planned.activity, planned]))
    return {
      activities: instance.activities.map((_, activity) => {
        const mode = modes[activity]!
        const first = problem.slotFirst[activity]!
        return (
          pinnedByActivity.get(activity) ?? {
            activity,
            mode: mode - problem.modeFirst[activity]!,
            startTick: this.starts[activity]!,
            endTick: this.ends[activity]!,
            lanes: Array.from(lanes.subarray(first, first + problem.modeHands[mode]!)),
          }
        )
      }),
      readyTicks: Array.from(this.readyTicks()),
    }
  }
}
