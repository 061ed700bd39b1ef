/** The free time of every lane: gaps between what holds it, cut by the hours it is off duty. */
import { FAR_TICK, NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

/** Gap k of a lane is in cell `lane * gapRoom + k`; the gaps of a lane are disjoint and in order. */
export class FreeLaneTime {
  private readonly problem: PreparedInstance
  private readonly gapRoom: number
  private readonly gapCount: Int32Array
  private readonly gapFrom: Int32Array
  private readonly gapTo: Int32Array
  private readonly previousEnd: Int32Array
  private readonly previousPlace: Int32Array
  private readonly nextStart: Int32Array
  private readonly nextPlace: Int32Array

  constructor(problem: PreparedInstance) {
    const { laneCount, activityCount } = problem
    this.problem = problem
    this.gapRoom = problem.gaps.reduce((most, gaps) => Math.max(most, gaps.length), 0) + activityCount + 1
    this.gapCount = new Int32Array(laneCount)
    const cells = laneCount * this.gapRoom
    this.gapFrom = new Int32Array(cells)
    this.gapTo = new Int32Array(cells)
    this.previousEnd = new Int32Array(cells)
    this.previousPlace = new Int32Array(cells)
    this.nextStart = new Int32Array(cells)
    this.nextPlace = new Int32Array(cells)
  }

  clear(): void {
    const { problem } = this
    for (let lane = 0; lane < problem.laneCount; lane++) {
      const gaps = problem.gaps[lane]!
      let cell = lane * this.gapRoom
      this.gapCount[lane] = gaps.length
      for (const gap of gaps) {
        this.gapFrom[cell] = gap.from
        this.gapTo[cell] = gap.to
        this.previousEnd[cell] = gap.previousEnd
        this.previousPlace[cell] = gap.previousPlace
        this.nextStart[cell] = gap.nextStart
        this.nextPlace[cell] = gap.nextPlace
        cell += 1
      }
    }
  }

  /** The first tick, `fromTick` or later, from which the lane can work there for so long; NEVER when there is none. */
  earliest(lane: number, fromTick: number, ticks: number, place: number): number {
    const { walk, placeCount } = this.problem
    const first = lane * this.gapRoom
    const behind = first + this.gapCount[lane]!
    for (let cell = first + this.gapEndingFrom(lane, fromTick + ticks); cell < behind; cell++) {
      let from = this.gapFrom[cell]!
      let to = this.gapTo[cell]!
      if (from < fromTick) from = fromTick
      if (from + ticks > to) continue
      const arrival = this.previousEnd[cell]! + walk[this.previousPlace[cell]! * placeCount + place]!
      if (from < arrival) from = arrival
      const departure = this.nextStart[cell]! - walk[this.nextPlace[cell]! * placeCount + place]!
      if (to > departure) to = departure
      if (from + ticks <= to) return from
    }
    return NEVER
  }

  /** The end of the gap that holds the tick before `end`: from then on another gap must be looked for. */
  gapEndFrom(lane: number, end: number): number {
    return this.gapTo[lane * this.gapRoom + this.gapEndingFrom(lane, end)]!
  }

  gapsOf(lane: number): number {
    return this.gapCount[lane]!
  }

  /** When the lane last worked in this place, if nothing else came since; -FAR_TICK if not. */
  lastHere(lane: number, end: number, place: number): number {
    const cell = lane * this.gapRoom + this.gapEndingFrom(lane, end)
    return this.previousPlace[cell] === place ? this.previousEnd[cell]! : -FAR_TICK
  }

  /** Within one gap, as `earliest` found it. */
  hold(lane: number, start: number, end: number, place: number): void {
    const first = lane * this.gapRoom
    const at = first + this.gapEndingFrom(lane, end)
    const behind = first + this.gapCount[lane]!
    const previousEnd = this.previousEnd[at]!
    const nextStart = this.nextStart[at]!
    // Off-duty time cuts what lies between two reservations into several gaps: all of them get a new neighbour.
    for (let cell = at - 1; cell >= first && this.previousEnd[cell] === previousEnd; cell--) {
      this.nextStart[cell] = start
      this.nextPlace[cell] = place
    }
    for (let cell = at + 1; cell < behind && this.nextStart[cell] === nextStart; cell++) {
      this.previousEnd[cell] = end
      this.previousPlace[cell] = place
    }
    const to = this.gapTo[at]!
    const nextPlace = this.nextPlace[at]!
    const leavesLeft = this.gapFrom[at]! < start
    const leavesRight = end < to
    if (leavesLeft && leavesRight) {
      this.moveGaps(at + 1, at + 2, behind)
      this.gapCount[lane]! += 1
    } else if (!leavesLeft && !leavesRight) {
      this.moveGaps(at + 1, at, behind)
      this.gapCount[lane]! -= 1
      return
    }
    if (leavesLeft) {
      this.gapTo[at] = start
      this.nextStart[at] = start
      this.nextPlace[at] = place
    }
    if (leavesRight) {
      const right = leavesLeft ? at + 1 : at
      this.gapFrom[right] = end
      this.gapTo[right] = to
      this.previousEnd[right] = end
      this.previousPlace[right] = place
      this.nextStart[right] = nextStart
      this.nextPlace[right] = nextPlace
    }
  }

  private moveGaps(from: number, to: number, behind: number): void {
    this.gapFrom.copyWithin(to, from, behind)
    this.gapTo.copyWithin(to, from, behind)
    this.previousEnd.copyWithin(to, from, behind)
    this.previousPlace.copyWithin(to, from, behind)
    this.nextStart.copyWithin(to, from, behind)
    this.nextPlace.copyWithin(to, from, behind)
  }

  /** The first gap of the lane that reaches to `end` or beyond. */
  private gapEndingFrom(lane: number, end: number): number {
    const first = lane * this.gapRoom
    let low = 0
    let high = this.gapCount[lane]!
    while (low < high) {
      const middle = (low + high) >> 1
      if (this.gapTo[first + middle]! < end) low = middle + 1
      else high = middle
    }
    return low
  }
}
