/** A child list of two parents. Lists keep predecessors first in both ways of crossing. */
import type { Side } from './side.ts'
import type { Window } from './window.ts'
import type { Work } from './work.ts'

/** The father's window stays where it is; what he has before and after it goes in the mother's order and modes. */
export function keepWindow(work: Work, side: Side, father: number, mother: number, window: Window): void {
  const { problem, list, modes, taskScratch: part } = work
  const { taskCount } = problem
  const fatherAt = father * taskCount
  const motherAt = mother * taskCount
  const { first, last } = window
  for (let at = 0; at < taskCount; at++) {
    const task = side.handover[fatherAt + at]!
    part[task] = at < first ? 0 : at < last ? 1 : 2
    list[at] = task
  }
  let early = 0
  let late = last
  for (let at = 0; at < taskCount; at++) {
    const task = side.handover[motherAt + at]!
    if (part[task] === 0) list[early++] = task
    else if (part[task] === 2) list[late++] = task
    modes[task] = side.modes[(part[task] === 1 ? fatherAt : motherAt) + task]!
  }
}

/**
 * The father up to the window, then as many tasks as it holds in the mother's order and modes, then the rest as the
 * father has it. Two-point crossing of Hartmann, A competitive genetic algorithm for resource-constrained project
 * scheduling, Naval Research Logistics 45 (1998) 733-750.
 */
export function replaceWindow(work: Work, side: Side, father: number, mother: number, window: Window): void {
  const { problem, list, modes, taskScratch: isTaken } = work
  const { taskCount } = problem
  const fatherAt = father * taskCount
  const motherAt = mother * taskCount
  const { first, last } = window
  isTaken.fill(0)
  for (let task = 0; task < taskCount; task++) modes[task] = side.modes[fatherAt + task]!
  for (let at = 0; at < first; at++) {
    const task = side.handover[fatherAt + at]!
    list[at] = task
    isTaken[task] = 1
  }
  let filled = first
  for (let at = 0; filled < last; at++) {
    const task = side.handover[motherAt + at]!
    if (isTaken[task] === 1) continue
    list[filled++] = task
    isTaken[task] = 1
    modes[task] = side.modes[motherAt + task]!
  }
  for (let at = first; at < taskCount; at++) {
    const task = side.handover[fatherAt + at]!
    if (isTaken[task] === 0) list[filled++] = task
  }
}
