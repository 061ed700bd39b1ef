/** The precedence relation as flat lists, seen from both ends of time. Tasks are renumbered topologically. */
/** One direction of time; `predecessors` of task t are at [predecessorsFrom[t], predecessorsFrom[t + 1]). */
export interface Direction {
  readonly isForward: boolean
  readonly predecessorsFrom: Int32Array
  readonly predecessors: Int32Array
  readonly successorsFrom: Int32Array
  readonly successors: Int32Array
}

export interface Precedence {
  readonly forward: Direction
  readonly backward: Direction
  /** The task's number in the instance, by its number here. */
  readonly originalTask: Int32Array
}

/** Throws when the tasks wait for each other in a circle. */
export function preparedPrecedence(successors: readonly (readonly number[])[]): Precedence {
  const taskCount = successors.length
  const waiting = new Int32Array(taskCount)
  for (const list of successors) for (const to of list) waiting[to]!++
  const originalTask = new Int32Array(taskCount)
  let filled = 0
  for (let task = 0; task < taskCount; task++) if (waiting[task] === 0) originalTask[filled++] = task
  for (let read = 0; read < filled; read++) {
    for (const to of successors[originalTask[read]!]!) if (--waiting[to]! === 0) originalTask[filled++] = to
  }
  if (filled < taskCount) throw new Error('the tasks wait for each other in a circle')
  const rank = new Int32Array(taskCount)
  for (let at = 0; at < taskCount; at++) rank[originalTask[at]!] = at
  const pairs: [number, number][] = []
  for (let task = 0; task < taskCount; task++) {
    for (const to of successors[task]!) pairs.push([rank[task]!, rank[to]!])
  }
  pairs.sort((left, right) => left[0] - right[0] || left[1] - right[1])
  const [after, afterFrom] = grouped(taskCount, pairs)
  const [before, beforeFrom] = grouped(
    taskCount,
    pairs.map(([from, to]) => [to, from]),
  )
  return {
    forward: {
      isForward: true,
      predecessorsFrom: beforeFrom,
      predecessors: before,
      successorsFrom: afterFrom,
      successors: after,
    },
    backward: {
      isForward: false,
      predecessorsFrom: afterFrom,
      predecessors: after,
      successorsFrom: beforeFrom,
      successors: before,
    },
    originalTask,
  }
}

function grouped(taskCount: number, pairs: readonly (readonly [number, number])[]): [Int32Array, Int32Array] {
  const from = new Int32Array(taskCount + 1)
  for (const [key] of pairs) from[key + 1]!++
  for (let task = 0; task < taskCount; task++) from[task + 1]! += from[task]!
  const next = from.slice()
  const values = new Int32Array(pairs.length)
  for (const [key, value] of pairs) values[next[key]!++] = value
  return [values, from]
}

/** True when `before` is a direct predecessor of `after` in this direction. */
export function precedes(direction: Direction, before: number, after: number): boolean {
  for (let edge = direction.predecessorsFrom[after]!; edge < direction.predecessorsFrom[after + 1]!; edge++) {
    if (direction.predecessors[edge] === before) return true
  }
  return false
}

/**
 * Longest path from each task's start to the end of time in this direction, its own duration included.
 * Fills `tails`, gives the longest of all (0 without tasks).
 */
export function fillTailTicks(direction: Direction, durationTicks: Int32Array, tails: Int32Array): number {
  const taskCount = durationTicks.length
  let longest = 0
  for (let step = 0; step < taskCount; step++) {
    const task = direction.isForward ? taskCount - 1 - step : step
    let after = 0
    for (let edge = direction.successorsFrom[task]!; edge < direction.successorsFrom[task + 1]!; edge++) {
      const tail = tails[direction.successors[edge]!]!
      if (tail > after) after = tail
    }
    tails[task] = after + durationTicks[task]!
    if (tails[task]! > longest) longest = tails[task]!
  }
  return longest
}
