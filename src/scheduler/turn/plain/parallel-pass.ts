/**
 * The parallel pass: moment by moment, what fits at this moment starts, the higher in the list the sooner.
 * Kolisch, Serial and parallel resource-constrained project scheduling methods revisited, EJOR 90 (1996) 320-333.
 */
import type { Direction } from './precedence.ts'
import { clearTimetable, fitFromTick, placeAtTick } from './timetable.ts'
import type { Work } from './work.ts'

/** Follows work.list and work.modes, writes starts from `startsAt` on, gives the makespan. Counts as one schedule. */
export function parallelPass(work: Work, direction: Direction, starts: Int32Array, startsAt: number): number {
  const { problem, timetable, list, modes, taskScratch: pending } = work
  const { taskCount, modeDurationTicks } = problem
  clearTimetable(problem, timetable)
  starts.fill(-1, startsAt, startsAt + taskCount)
  pending.set(list)
  let left = taskCount
  let now = 0
  while (left > 0) {
    let kept = 0
    for (let at = 0; at < left; at++) {
      const task = pending[at]!
      const canStart = latestEndBefore(work, direction, starts, startsAt, task) <= now
      if (canStart && fitFromTick(problem, timetable, now, modes[task]!) === now) {
        placeAtTick(problem, timetable, now, modes[task]!)
        starts[startsAt + task] = now
      } else pending[kept++] = task
    }
    left = kept
    // Nothing changes before the next end. A task without duration has let its successors go already.
    let next = timetable.usedTicks
    for (let task = 0; task < taskCount; task++) {
      const start = starts[startsAt + task]!
      if (start < 0) continue
      const end = start + modeDurationTicks[modes[task]!]!
      if (end > now && end < next) next = end
    }
    now = next
  }
  return timetable.usedTicks
}

/** When the last predecessor ends; never, while one has not started. */
function latestEndBefore(
  work: Work,
  direction: Direction,
  starts: Int32Array,
  startsAt: number,
  task: number,
): number {
  const { modes, problem } = work
  let latest = 0
  for (let edge = direction.predecessorsFrom[task]!; edge < direction.predecessorsFrom[task + 1]!; edge++) {
    const before = direction.predecessors[edge]!
    const start = starts[startsAt + before]!
    if (start < 0) return Number.MAX_SAFE_INTEGER
    const end = start + problem.modeDurationTicks[modes[before]!]!
    if (end > latest) latest = end
  }
  return latest
}
