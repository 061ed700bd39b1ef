/** One pass along a list that keeps what a schedule has: the mode of each activity, and its lanes where they can do it. */

import { NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'
import { copyOf, type Draft } from './draft.ts'
import type { Kept } from './kept.ts'
import { listByPriority } from './priority-rules.ts'
import { TickOrder } from './tick-order.ts'
import type { Timetable } from './timetable.ts'

export interface KeepingPass {
  /** By turn. */
  readonly earliestStarts: Int32Array
  readonly latestEnds: Int32Array
  /** Each activity keeps its lanes if they can do it at all, even if others could sooner. */
  readonly keepsLanes: boolean
}

/**
 * Each activity at the first tick that its predecessors, its turn, resources and lanes allow. Backward, everything is
 * handed in mirrored.
 * @param pinned in which only pinned activities mean anything
 * @param ticks by activity: lower comes first, as far as precedence allows
 * @returns null when one of them finds no place in its mode
 */
export function draftKeeping(
  timetable: Timetable,
  pinned: Draft,
  kept: Kept,
  ticks: ArrayLike<number>,
  { earliestStarts, latestEnds, keepsLanes }: KeepingPass,
): Draft | null {
  const { problem } = timetable
  const { predecessorFirst, predecessors, modeTicks, slotFirst, turnOf, isPinned, modeHands } = problem
  const draft = copyOf(pinned)
  const { starts, ends, modes, lanes } = draft
  timetable.clearToPinned(pinned)
  for (const activity of listByTick(problem, ticks)) {
    if (isPinned[activity] === 1) continue
    const turn = turnOf[activity]!
    const mode = kept.modes[activity]!
    const slot = slotFirst[activity]!
    const latestEnd = latestEnds[turn]!
    let from = earliestStarts[turn]!
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      from = Math.max(from, ends[predecessors[at]!]!)
    }
    let start = NEVER
    if (keepsLanes && kept.hasLanes[activity] === 1) {
      start = timetable.earliestStartOf(kept.lanes, slot, activity, mode, from, latestEnd)
    }
    if (start !== NEVER) {
      for (let at = slot; at < slot + modeHands[mode]!; at++) lanes[at] = kept.lanes[at]!
      timetable.hold(activity, mode, start, lanes, slot)
    } else {
      start = timetable.earliestStart(activity, mode, from, latestEnd)
      if (start === NEVER) return null
      timetable.reserve(activity, mode, start, lanes, slot)
    }
    starts[activity] = start
    ends[activity] = start + modeTicks[mode]!
    modes[activity] = mode
  }
  return draft
}

function listByTick(problem: PreparedInstance, ticks: ArrayLike<number>): Int32Array {
  const positions = new Int32Array(problem.activityCount)
  const list = new TickOrder(problem).earliestFirst(ticks)
  for (const [position, activity] of list.entries()) positions[activity] = position
  return listByPriority(problem, positions)
}
