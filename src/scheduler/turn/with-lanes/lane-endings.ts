/** Of every lane, when it was last at work before a tick, and where. */
import { FAR_TICK } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

/** Ending k of a lane is in cell `lane * room + k`, in order of time. */
export class LaneEndings {
  private readonly room: number
  private readonly count: Int32Array
  private readonly end: Int32Array
  private readonly place: Int32Array
  private readonly keptCount: Int32Array
  private readonly keptEnd: Int32Array
  private readonly keptPlace: Int32Array

  constructor(problem: PreparedInstance) {
    const { laneCount, activityCount, gaps } = problem
    this.room = gaps.reduce((most, of) => Math.max(most, of.length), 0) + activityCount
    this.count = new Int32Array(laneCount)
    this.end = new Int32Array(laneCount * this.room)
    this.place = new Int32Array(laneCount * this.room)
    this.keptCount = new Int32Array(laneCount)
    for (const [lane, of] of gaps.entries()) {
      for (const { previousEnd, previousPlace } of of) {
        const last = this.count[lane]! - 1
        if (previousEnd === -FAR_TICK || (last >= 0 && this.end[lane * this.room + last] === previousEnd))
          continue
        this.add(lane, previousEnd, previousPlace)
      }
    }
    this.keptEnd = this.end.slice()
    this.keptPlace = this.place.slice()
    this.keep()
  }

  /** What was added stays when it is cleared. */
  keep(): void {
    this.keptCount.set(this.count)
    this.keptEnd.set(this.end)
    this.keptPlace.set(this.place)
  }

  clear(): void {
    const { keptCount, keptEnd, keptPlace, room } = this
    for (let lane = 0; lane < keptCount.length; lane++) {
      const kept = keptCount[lane]!
      this.count[lane] = kept
      for (let cell = lane * room; cell < lane * room + kept; cell++) {
        this.end[cell] = keptEnd[cell]!
        this.place[cell] = keptPlace[cell]!
      }
    }
  }

  add(lane: number, end: number, place: number): void {
    const first = lane * this.room
    let cell = first + this.count[lane]!
    this.count[lane]! += 1
    for (; cell > first && this.end[cell - 1]! > end; cell--) {
      this.end[cell] = this.end[cell - 1]!
      this.place[cell] = this.place[cell - 1]!
    }
    this.end[cell] = end
    this.place[cell] = place
  }

  /** When the lane last worked in this place before the tick, if nothing else came since; -FAR_TICK if not. */
  lastHere(lane: number, tick: number, place: number): number {
    const first = lane * this.room
    let cell = first + this.count[lane]! - 1
    while (cell >= first && this.end[cell]! > tick) cell -= 1
    return cell >= first && this.place[cell] === place ? this.end[cell]! : -FAR_TICK
  }
}
