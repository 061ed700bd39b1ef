/** The schedules justified to one end of time, each with the list that hands it over to the other end. */
import type { Direction } from './precedence.ts'
import type { Work } from './work.ts'

export interface Side {
  readonly direction: Direction
  /** [place * taskCount + task], as the three that follow */
  readonly starts: Int32Array
  readonly modes: Int32Array
  /** Tasks by decreasing end: predecessors first, seen from the other end. */
  readonly handover: Int32Array
  readonly makespanTicks: Int32Array
  /** Smaller is better; whole numbers. */
  readonly fitness: Float64Array
}

export function preparedSide(direction: Direction, taskCount: number, places: number): Side {
  return {
    direction,
    starts: new Int32Array(places * taskCount),
    modes: new Int32Array(places * taskCount),
    handover: new Int32Array(places * taskCount),
    makespanTicks: new Int32Array(places),
    fitness: new Float64Array(places),
  }
}

/** Copies starts, modes, makespan and fitness; not the handover list. */
export function moveSchedule(side: Side, taskCount: number, from: number, to: number): void {
  side.starts.copyWithin(to * taskCount, from * taskCount, (from + 1) * taskCount)
  side.modes.copyWithin(to * taskCount, from * taskCount, (from + 1) * taskCount)
  side.makespanTicks[to] = side.makespanTicks[from]!
  side.fitness[to] = side.fitness[from]!
}

export function isSameSchedule(side: Side, taskCount: number, left: number, right: number): boolean {
  if (side.fitness[left] !== side.fitness[right]) return false
  for (let task = 0; task < taskCount; task++) {
    if (side.starts[left * taskCount + task] !== side.starts[right * taskCount + task]) return false
    if (side.modes[left * taskCount + task] !== side.modes[right * taskCount + task]) return false
  }
  return true
}

/**
 * Sorts the tasks by decreasing end, by counting. Ties fall as a random rotation of the task numbers has it; where
 * tasks without duration exist, topologically, as an end may then be the end of a predecessor too.
 */
export function writeHandover(work: Work, side: Side, place: number): void {
  const { problem, random, tickScratch: buckets } = work
  const { taskCount, modeDurationTicks } = problem
  const base = place * taskCount
  const makespan = side.makespanTicks[place]!
  buckets.fill(0, 0, makespan + 2)
  for (let task = 0; task < taskCount; task++) {
    buckets[makespan - side.starts[base + task]! - modeDurationTicks[side.modes[base + task]!]! + 1]!++
  }
  for (let tick = 1; tick <= makespan; tick++) buckets[tick]! += buckets[tick - 1]!
  const rotation = problem.hasZeroDuration ? 0 : random.below(taskCount)
  const isDescending = problem.hasZeroDuration && side.direction.isForward
  for (let step = 0; step < taskCount; step++) {
    let task = isDescending ? taskCount - 1 - step : step + rotation
    if (task >= taskCount) task -= taskCount
    const fromEnd = makespan - side.starts[base + task]! - modeDurationTicks[side.modes[base + task]!]!
    side.handover[base + buckets[fromEnd]!++] = task
  }
}
