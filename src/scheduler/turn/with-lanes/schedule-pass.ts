/**
 * Schedule generation in one direction of time: one activity after the other, each at the first tick where precedence,
 * release, resources and a set of lanes allow it. Gaps between what is already placed are used.
 */

import type { PreparedInstance } from '../prepared-instance.ts'
import type { Draft } from './draft.ts'
import { ModeChoice } from './mode-choice.ts'
import type { PlaceFinder } from './place-finder.ts'
import { StepTimetable } from './step-timetable.ts'
import { hasStepTimetable } from './step-timetable-serves.ts'
import { Timetable } from './timetable.ts'

export class SchedulePass {
  private readonly pinned: Draft
  private readonly finder: PlaceFinder
  private readonly modeChoice: ModeChoice
  /** By activity: predecessors that are not placed yet. */
  private readonly waitingFor: Int32Array
  /** By activity that waits for nothing more: it could not begin sooner when last asked. */
  private readonly soonest: Int32Array
  private readonly eligible: Int32Array

  constructor(problem: PreparedInstance, pinned: Draft) {
    this.pinned = pinned
    this.finder = hasStepTimetable(problem)
      ? new StepTimetable(problem, pinned)
      : new Timetable(problem, pinned)
    this.modeChoice = new ModeChoice(this.finder)
    this.waitingFor = new Int32Array(problem.activityCount)
    this.soonest = new Int32Array(problem.activityCount)
    this.eligible = new Int32Array(problem.activityCount)
  }

  /** Of activities whose lanes chance chooses, by activity: the ranks of their lanes. Until told otherwise. */
  rankedLanes: readonly (Int32Array | null)[] | null = null

  /**
   * Serially, along the list. Starts and ends by turn limit what is not pinned.
   * @param wishes see `wishNumber`
   * @param draft written over
   * @returns false when something finds no place
   */
  write(
    list: ArrayLike<number>,
    wishes: Int32Array,
    earliestStarts: Int32Array,
    latestEnds: Int32Array,
    draft: Draft,
  ): boolean {
    const { isPinned } = this.finder.problem
    this.begin(earliestStarts, draft)
    for (let position = 0; position < list.length; position++) {
      const activity = list[position]!
      if (isPinned[activity] === 1) continue
      this.ask(activity, wishes, earliestStarts, latestEnds, draft)
      if (this.modeChoice.mode < 0) return false
      this.place(activity, draft)
    }
    return true
  }

  /**
   * Next always one that can begin soonest, in the mode that its wish leads to; of several the one with the lowest value,
   * then by index. What another mode would have allowed since it was last asked about is not seen.
   */
  writeSoonestFirst(
    values: ArrayLike<number>,
    wishes: Int32Array,
    earliestStarts: Int32Array,
    latestEnds: Int32Array,
    draft: Draft,
  ): boolean {
    const { finder, waitingFor, soonest, eligible, modeChoice } = this
    const { activityCount, predecessorFirst, successorFirst, successors, turnOf, isPinned } = finder.problem
    this.begin(earliestStarts, draft)
    let count = 0
    for (let activity = 0; activity < activityCount; activity++) {
      waitingFor[activity] = predecessorFirst[activity + 1]! - predecessorFirst[activity]!
      soonest[activity] = earliestStarts[turnOf[activity]!]!
      if (waitingFor[activity] === 0 && isPinned[activity] === 0) eligible[count++] = activity
    }
    while (count > 0) {
      const at = this.next(values, count)
      const activity = eligible[at]!
      this.ask(activity, wishes, earliestStarts, latestEnds, draft)
      if (modeChoice.mode < 0) return false
      if (modeChoice.start > soonest[activity]!) {
        soonest[activity] = modeChoice.start
        continue
      }
      this.place(activity, draft)
      count -= 1
      eligible[at] = eligible[count]!
      const end = draft.ends[activity]!
      for (let edge = successorFirst[activity]!; edge < successorFirst[activity + 1]!; edge++) {
        const successor = successors[edge]!
        if (end > soonest[successor]!) soonest[successor] = end
        waitingFor[successor]! -= 1
        if (waitingFor[successor] === 0) eligible[count++] = successor
      }
    }
    return true
  }

  private next(values: ArrayLike<number>, count: number): number {
    const { soonest, eligible } = this
    let best = 0
    for (let at = 1; at < count; at++) {
      const activity = eligible[at]!
      const than = eligible[best]!
      const more = soonest[activity]! - soonest[than]! || values[activity]! - values[than]! || activity - than
      if (more < 0) best = at
    }
    return best
  }

  private begin(earliestStarts: Int32Array, draft: Draft): void {
    const { finder, pinned } = this
    if (finder.problem.pinned.length > 0) {
      draft.starts.set(pinned.starts)
      draft.ends.set(pinned.ends)
      draft.modes.set(pinned.modes)
      draft.lanes.set(pinned.lanes)
    }
    finder.begin(earliestStarts)
  }

  /** Leaves the answer in `modeChoice`. */
  private ask(
    activity: number,
    wishes: Int32Array,
    earliestStarts: Int32Array,
    latestEnds: Int32Array,
    { ends }: Draft,
  ): void {
    const { predecessorFirst, predecessors, turnOf } = this.finder.problem
    const turn = turnOf[activity]!
    let from = earliestStarts[turn]!
    let latest = -1
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      const end = ends[predecessors[at]!]!
      if (end <= from) continue
      from = end
      latest = predecessors[at]!
    }
    this.finder.lookFrom(activity, latest)
    this.modeChoice.choose(activity, wishes[activity]!, from, latestEnds[turn]!)
  }

  private place(activity: number, { starts, ends, modes, lanes }: Draft): void {
    const { finder } = this
    const { mode, start } = this.modeChoice
    finder.rankLanes(this.rankedLanes?.[activity] ?? null)
    finder.reserve(activity, mode, start, lanes, finder.problem.slotFirst[activity]!)
    starts[activity] = start
    ends[activity] = start + finder.problem.modeTicks[mode]!
    modes[activity] = mode
  }
}
