/** Times for a line-up: each activity in its turn as early as its lanes and what it uses allow, behind all they did. */
import { NEVER } from './far-tick.ts'
import { FreeResources } from './free-resources.ts'
import type { Schedule } from './instance.ts'
import type { LineUp, LineUpGround } from './plan-smoothness-line-up.ts'

export class LineUpTimes {
  readonly starts: Int32Array
  readonly ends: Int32Array
  /** Activities in the order in which they were placed: a lane does its own in this order. */
  readonly placed: Int32Array
  placedCount = 0
  private readonly ground: LineUpGround
  private readonly free: FreeResources
  private readonly isPlaced: Uint8Array
  /** By lane: when it is done with what it has, and where that is; -1: it has done nothing. */
  private readonly laneEnd: Int32Array
  private readonly lanePlace: Int32Array

  constructor(ground: LineUpGround) {
    const { activityCount, laneCount } = ground.problem
    this.ground = ground
    this.free = new FreeResources(ground.problem)
    this.starts = new Int32Array(activityCount)
    this.ends = new Int32Array(activityCount)
    this.placed = new Int32Array(activityCount)
    this.isPlaced = new Uint8Array(activityCount)
    this.laneEnd = new Int32Array(laneCount)
    this.lanePlace = new Int32Array(laneCount)
  }

  /** @returns false: something finds no place before the horizon */
  isPossible(lineUp: LineUp): boolean {
    const { problem, pinned } = this.ground
    this.free.clear()
    this.isPlaced.fill(0)
    this.laneEnd.fill(-1)
    this.placedCount = 0
    for (const { activity, mode, startTick, endTick } of pinned) {
      this.free.hold(problem.modeFirst[activity]! + mode, startTick, endTick)
    }
    for (let at = 0; at < lineUp.list.length; at++) if (!this.place(lineUp, lineUp.list[at]!)) return false
    return true
  }

  /** What it waits for first, wherever that stands in the list. */
  private place(lineUp: LineUp, activity: number): boolean {
    if (this.isPlaced[activity] === 1) return true
    const { problem } = this.ground
    let start = problem.releaseTicks[problem.turnOf[activity]!]!
    for (let at = problem.predecessorFirst[activity]!; at < problem.predecessorFirst[activity + 1]!; at++) {
      const before = problem.predecessors[at]!
      if (!this.place(lineUp, before)) return false
      start = Math.max(start, this.ends[before]!)
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
        if (start === NEVER) return false
      }
      start = this.free.earliest(mode, start, ticks)
      if (start === NEVER || start + ticks > problem.horizonTick) return false
    }
    for (let slot = slotsFrom; slot < slotsTo; slot++) {
      this.laneEnd[lineUp.lanes[slot]!] = start + ticks
      this.lanePlace[lineUp.lanes[slot]!] = place
    }
    this.free.hold(mode, start, start + ticks)
    this.starts[activity] = start
    this.ends[activity] = start + ticks
    this.placed[this.placedCount++] = activity
    this.isPlaced[activity] = 1
    return true
  }

  private earliestOfLane(lane: number, place: number, fromTick: number, ticks: number): number {
    const { walk, placeCount, gaps } = this.ground.problem
    const end = this.laneEnd[lane]!
    const from =
      end < 0 ? fromTick : Math.max(fromTick, end + walk[this.lanePlace[lane]! * placeCount + place]!)
    for (const gap of gaps[lane]!) {
      const start = Math.max(from, gap.from, gap.previousEnd + walk[gap.previousPlace * placeCount + place]!)
      const isInTime = start + ticks + walk[place * placeCount + gap.nextPlace]! <= gap.nextStart
      if (isInTime && start + ticks <= gap.to) return start
    }
    return NEVER
  }

  /** When each turn is ready, by turn, as these times have it. */
  readyTicks(): number[] {
    const { problem, pinned } = this.ground
    const ready = Array.from(problem.releaseTicks)
    for (let at = 0; at < this.placedCount; at++) {
      const activity = this.placed[at]!
      const turn = problem.turnOf[activity]!
      ready[turn] = Math.max(ready[turn]!, this.ends[activity]!)
    }
    for (const { activity, endTick } of pinned) {
      const turn = problem.turnOf[activity]!
      ready[turn] = Math.max(ready[turn]!, endTick)
    }
    return ready
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
      readyTicks: this.readyTicks(),
    }
  }
}
