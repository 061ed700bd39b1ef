/** What is left of every resource, as steps in time. */
import { NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

/** Step k of a resource is in cell `resource * stepRoom + k`, in order of time, the first before any tick. */
export class FreeResources {
  private readonly problem: PreparedInstance
  private readonly stepRoom: number
  private readonly stepCount: Int32Array
  private readonly stepTick: Int32Array
  private readonly stepFree: Int32Array

  constructor(problem: PreparedInstance) {
    const { resourceCount, activityCount, capacity } = problem
    this.problem = problem
    this.stepRoom = capacity.reduce((most, steps) => Math.max(most, steps.length), 0) + 2 * activityCount + 2
    this.stepCount = new Int32Array(resourceCount)
    this.stepTick = new Int32Array(resourceCount * this.stepRoom)
    this.stepFree = new Int32Array(resourceCount * this.stepRoom)
  }

  clear(): void {
    const { problem } = this
    for (let resource = 0; resource < problem.resourceCount; resource++) {
      const steps = problem.capacity[resource]!
      let cell = resource * this.stepRoom
      this.stepCount[resource] = steps.length
      for (const step of steps) {
        this.stepTick[cell] = step.fromTick
        this.stepFree[cell] = step.amount
        cell += 1
      }
    }
  }

  /** The first tick, `fromTick` or later, from which all the mode uses is free for so long; NEVER when there is none. */
  earliest(mode: number, fromTick: number, ticks: number): number {
    const { useFirst, useResource, useAmount } = this.problem
    const usesFrom = useFirst[mode]!
    const usesTo = useFirst[mode + 1]!
    let start = fromTick
    let agreed = usesFrom
    // Go round the resources until all of them agree on one tick.
    for (let use = usesFrom; agreed < usesTo; use = use + 1 === usesTo ? usesFrom : use + 1) {
      const later = this.earliestOfResource(useResource[use]!, useAmount[use]!, start, ticks)
      if (later === NEVER) return NEVER
      agreed = later === start ? agreed + 1 : usesFrom + 1
      start = later
    }
    return start
  }

  hold(mode: number, start: number, end: number): void {
    const { useFirst, useResource, useAmount } = this.problem
    for (let use = useFirst[mode]!; use < useFirst[mode + 1]!; use++) {
      this.holdResource(useResource[use]!, useAmount[use]!, start, end)
    }
  }

  private earliestOfResource(resource: number, amount: number, fromTick: number, ticks: number): number {
    const first = resource * this.stepRoom
    const behind = first + this.stepCount[resource]!
    let start = fromTick
    for (let cell = first + this.stepAt(resource, fromTick); cell < behind; cell++) {
      if (this.stepTick[cell]! >= start + ticks) return start
      if (this.stepFree[cell]! < amount) {
        if (cell + 1 === behind) return NEVER
        start = Math.max(start, this.stepTick[cell + 1]!)
      }
    }
    return start
  }

  /** The step in force at the tick. */
  private stepAt(resource: number, tick: number): number {
    const first = resource * this.stepRoom
    let low = 0
    let high = this.stepCount[resource]! - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (this.stepTick[first + middle]! <= tick) low = middle
      else high = middle - 1
    }
    return low
  }

  private holdResource(resource: number, amount: number, start: number, end: number): void {
    const from = this.stepBeginningAt(resource, start)
    const to = this.stepBeginningAt(resource, end)
    const first = resource * this.stepRoom
    for (let cell = first + from; cell < first + to; cell++) this.stepFree[cell]! -= amount
  }

  private stepBeginningAt(resource: number, tick: number): number {
    const first = resource * this.stepRoom
    const at = this.stepAt(resource, tick)
    if (this.stepTick[first + at] === tick) return at
    const count = this.stepCount[resource]!
    this.stepTick.copyWithin(first + at + 2, first + at + 1, first + count)
    this.stepFree.copyWithin(first + at + 2, first + at + 1, first + count)
    this.stepTick[first + at + 1] = tick
    this.stepFree[first + at + 1] = this.stepFree[first + at]!
    this.stepCount[resource]! += 1
    return at + 1
  }
}
