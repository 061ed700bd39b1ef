/** Activities by tick; those at the same tick as precedence wants them. */
import type { PreparedInstance } from '../prepared-instance.ts'

export class TickOrder {
  private readonly problem: PreparedInstance
  private readonly keys: Float64Array
  private readonly list: Int32Array

  constructor(problem: PreparedInstance) {
    this.problem = problem
    this.keys = new Float64Array(problem.activityCount)
    this.list = new Int32Array(problem.activityCount)
  }

  /** @returns written over by the next question */
  earliestFirst(ticks: ArrayLike<number>): Int32Array {
    const { keys, list } = this
    const { rank, order } = this.problem
    const count = list.length
    // Tick and rank in one whole number: ticks are below 2^31, and so is the count.
    for (let activity = 0; activity < count; activity++)
      keys[activity] = ticks[activity]! * count + rank[activity]!
    keys.sort()
    for (let at = 0; at < count; at++) {
      const key = keys[at]!
      list[at] = order[key - Math.floor(key / count) * count]!
    }
    return list
  }

  /** The same backwards. @returns written over by the next question */
  latestFirst(ticks: ArrayLike<number>): Int32Array {
    return this.earliestFirst(ticks).reverse()
  }
}
