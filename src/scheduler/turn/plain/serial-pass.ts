/**
 * The serial pass: the tasks of a list one by one, each at the earliest tick where it fits.
 * Kelley, The critical-path method: resources planning and scheduling, in Industrial Scheduling (1963);
 * choosing modes on the way: Van Peteghem and Vanhoucke, A genetic algorithm for the preemptive and non-preemptive
 * multi-mode resource-constrained project scheduling problem, EJOR 201 (2010) 409-418.
 */
import { changeMode, overdrawn, overdrawnAfter } from './budgets.ts'
import type { Direction } from './precedence.ts'
import { clearTimetable, fitFromTick, placeAtTick } from './timetable.ts'
import type { Work } from './work.ts'

/**
 * Follows work.list and work.modes, writes starts from `startsAt` on, gives the makespan.
 * While a task is placed it may change to the mode that ends first and overdraws no budget further; it looks with a
 * chance of `modeChoiceSixteenths`. The modes in work.modes are then the new ones.
 */
export function serialPass(
  work: Work,
  direction: Direction,
  starts: Int32Array,
  startsAt: number,
  modeChoiceSixteenths: number,
): number {
  const { problem, timetable, list, modes } = work
  const { taskCount, modeDurationTicks } = problem
  const { predecessorsFrom, predecessors } = direction
  clearTimetable(problem, timetable)
  let dice = 0
  for (let at = 0; at < taskCount; at++) {
    const task = list[at]!
    let earliest = 0
    const until = predecessorsFrom[task + 1]!
    for (let edge = predecessorsFrom[task]!; edge < until; edge++) {
      const before = predecessors[edge]!
      const end = starts[startsAt + before]! + modeDurationTicks[modes[before]!]!
      if (end > earliest) earliest = end
    }
    let start = fitFromTick(problem, timetable, earliest, modes[task]!)
    if (modeChoiceSixteenths > 0) {
      // One draw gives seven dice of sixteen faces.
      if (at % 7 === 0) dice = work.random.below(268435456)
      if ((dice & 15) < modeChoiceSixteenths) start = soonestEnd(work, task, earliest, start)
      dice >>= 4
    }
    placeAtTick(problem, timetable, start, modes[task]!)
    starts[startsAt + task] = start
  }
  return timetable.usedTicks
}

/** Changes the task to its soonest-ending mode, gives its start. */
function soonestEnd(work: Work, task: number, earliestTick: number, startTick: number): number {
  const { problem, timetable, modes } = work
  const { modesFrom, modeDurationTicks } = problem
  const own = modes[task]!
  const excess = overdrawn(work)
  let chosen = own
  let start = startTick
  let end = start + modeDurationTicks[own]!
  for (let mode = modesFrom[task]!; mode < modesFrom[task + 1]!; mode++) {
    if (mode === own || earliestTick + modeDurationTicks[mode]! >= end) continue
    if (overdrawnAfter(work, own, mode) > excess) continue
    const other = fitFromTick(problem, timetable, earliestTick, mode)
    if (other + modeDurationTicks[mode]! >= end) continue
    chosen = mode
    start = other
    end = other + modeDurationTicks[mode]!
  }
  if (chosen !== own) changeMode(work, task, chosen)
  return start
}
