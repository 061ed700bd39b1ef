/**
 * Which lanes are free and what is left of every resource, as steps in time, for each place in which there is work. Time
 * that a lane needs to walk from or to a place counts there as taken. A step once begun stays, linked to the next, so
 * that whoever knows where a predecessor ended need not look for it.
 */
import { FAR_TICK, NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

/** Steps in the order in which they were made; those of one place are linked, from the one before any tick to NEVER. */
export class FreeSteps {
  readonly tick: Int32Array
  readonly next: Int32Array
  readonly previous: Int32Array
  /** Bit k: lane k is free. */
  readonly lanes: Int32Array
  /** `left[step * resourceCount + resource]` */
  readonly left: Int32Array
  private readonly resourceCount: number
  private readonly kept: readonly Int32Array[]
  private count: number
  private keptCount = 0

  /** @param places of each a list is made: the first step of the list `at` is step `2 * at`, its last `2 * at + 1` */
  constructor(problem: PreparedInstance, places: readonly number[], stepsPerPlaceMost: number) {
    const { resourceCount, capacity } = problem
    const ticks = places.map((place) => baseTicks(problem, place))
    const room = ticks.reduce((sum, of) => sum + of.length + 2 + stepsPerPlaceMost, 0)
    this.resourceCount = resourceCount
    this.tick = new Int32Array(room)
    this.next = new Int32Array(room)
    this.previous = new Int32Array(room)
    this.lanes = new Int32Array(room)
    this.left = new Int32Array(room * resourceCount)
    this.count = 2 * places.length
    for (const [at, place] of places.entries()) {
      const first = 2 * at
      this.tick[first] = -FAR_TICK
      this.tick[first + 1] = NEVER
      this.next[first] = first + 1
      this.next[first + 1] = first + 1
      this.previous[first + 1] = first
      this.previous[first] = first
      for (const tick of [-FAR_TICK, ...ticks[at]!]) {
        const step = this.beginning(first, tick)
        this.lanes[step] = lanesFreeAt(problem, place, tick)
        for (const [resource, steps] of capacity.entries()) {
          const inForce = steps.findLast(({ fromTick }) => fromTick <= tick)
          this.left[step * resourceCount + resource] = inForce?.amount ?? 0
        }
      }
    }
    this.kept = [this.tick, this.next, this.previous, this.lanes, this.left].map((of) => of.slice())
    this.keep()
  }

  /** What is held now stays held when it is cleared. */
  keep(): void {
    this.keptCount = this.count
    for (const [index, of] of [this.tick, this.next, this.previous, this.lanes, this.left].entries()) {
      this.kept[index]!.set(of)
    }
  }

  clear(): void {
    const { keptCount, kept, resourceCount } = this
    this.count = keptCount
    this.tick.set(kept[0]!.subarray(0, keptCount))
    this.next.set(kept[1]!.subarray(0, keptCount))
    this.previous.set(kept[2]!.subarray(0, keptCount))
    this.lanes.set(kept[3]!.subarray(0, keptCount))
    this.left.set(kept[4]!.subarray(0, keptCount * resourceCount))
  }

  /** The step that begins at the tick, made if there is none; `near` is any step of the list. */
  beginning(near: number, tick: number): number {
    let step = near
    while (this.tick[step]! > tick) step = this.previous[step]!
    while (this.tick[this.next[step]!]! <= tick) step = this.next[step]!
    return this.tick[step] === tick ? step : this.cut(step, tick)
  }

  /** Makes a step behind this one, with the same left in it. */
  cut(step: number, tick: number): number {
    const { next, previous, left, resourceCount } = this
    const made = this.count
    const behind = next[step]!
    this.count += 1
    this.tick[made] = tick
    next[made] = behind
    previous[made] = step
    next[step] = made
    previous[behind] = made
    this.lanes[made] = this.lanes[step]!
    for (let resource = 0; resource < resourceCount; resource++) {
      left[made * resourceCount + resource] = left[step * resourceCount + resource]!
    }
    return made
  }
}

/** Where something changes of itself. */
function baseTicks(problem: PreparedInstance, place: number): number[] {
  const ticks = new Set<number>()
  for (let lane = 0; lane < problem.laneCount; lane++) {
    for (const { from, to } of freeIn(problem, lane, place)) ticks.add(from).add(to)
  }
  for (const steps of problem.capacity) for (const { fromTick } of steps) ticks.add(fromTick)
  ticks.delete(-FAR_TICK)
  return [...ticks].sort((a, b) => a - b)
}

function lanesFreeAt(problem: PreparedInstance, place: number, tick: number): number {
  let lanes = 0
  for (let lane = 0; lane < problem.laneCount; lane++) {
    if (freeIn(problem, lane, place).some(({ from, to }) => from <= tick && tick < to)) lanes |= 1 << lane
  }
  return lanes
}

/** When the lane could work in the place, walks from and to what it does else taken off. */
function freeIn(problem: PreparedInstance, lane: number, place: number): { from: number; to: number }[] {
  const { walk, placeCount } = problem
  return problem.gaps[lane]!.map((gap) => ({
    from: Math.max(gap.from, gap.previousEnd + walk[gap.previousPlace * placeCount + place]!),
    to: Math.min(gap.to, gap.nextStart - walk[gap.nextPlace * placeCount + place]!),
  })).filter(({ from, to }) => from < to)
}
