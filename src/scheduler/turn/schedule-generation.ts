/**
 * Serial schedule generation: the activities of a list, one after the other, each at the first tick (backward: the last)
 * where precedence, release, resources and a set of lanes allow it. Gaps between what is already placed are used. What is
 * pinned is placed before everything else, in both directions at the same tick and with the same lanes.
 */

import { copyOf, type Draft, mirroredDraft } from './draft.ts'
import { NEVER } from './far-tick.ts'
import { mirrored } from './mirrored-instance.ts'
import { pinnedPlacement } from './pinned-placement.ts'
import type { PreparedInstance } from './prepared-instance.ts'
import { Timetable } from './timetable.ts'

/**
 * How the mode of an activity is chosen, ties to fewer person-ticks, then fewer hands:
 * - `earliest-end`: it is done soonest;
 * - `fewest-person-ticks`: it costs least work, ties to the sooner end;
 * - `balanced`: soonest when the work is added as if the whole crew shared it (end + person-ticks / lanes), so that
 *   many hands are taken only where they pay.
 */
export type ModeRule = 'earliest-end' | 'fewest-person-ticks' | 'balanced'
export const modeRules: readonly ModeRule[] = ['balanced', 'earliest-end', 'fewest-person-ticks']

/** For each activity a rule, or the number of a mode (as counted over the whole instance) to take if it can be. */
export type ModeWishes = readonly (ModeRule | number)[]

export class ScheduleGenerator {
  readonly problem: PreparedInstance
  private readonly ahead: Timetable
  private readonly back: Timetable
  private readonly pinned: Draft | null
  private readonly pinnedMirrored: Draft | null
  private readonly horizonOfTurns: Int32Array
  private readonly latestMirrored: Int32Array
  private readonly releaseMirrored: Int32Array

  constructor(problem: PreparedInstance) {
    this.problem = problem
    this.ahead = new Timetable(problem)
    this.back = new Timetable(mirrored(problem))
    this.pinned = pinnedPlacement(problem)
    this.pinnedMirrored = this.pinned && mirroredDraft(this.pinned, problem.horizonTick)
    this.horizonOfTurns = new Int32Array(problem.turnCount).fill(problem.horizonTick)
    this.latestMirrored = new Int32Array(problem.turnCount)
    this.releaseMirrored = problem.releaseTicks.map((tick) => problem.horizonTick - tick)
  }

  /** Whether what is pinned found its places: if not, no list gives a schedule. */
  get hasPinned(): boolean {
    return this.pinned !== null
  }

  /**
   * Each activity as early as it can be.
   * @param list every activity once, each behind its predecessors; the pinned ones may be in it or not
   * @returns null when one of them finds no place before the horizon
   */
  forward(list: ArrayLike<number>, wishes: ModeWishes): Draft | null {
    const { releaseTicks } = this.problem
    return this.pinned && draftAlong(this.ahead, this.pinned, list, wishes, releaseTicks, this.horizonOfTurns)
  }

  /**
   * Each activity as late as it can be.
   * @param list every activity once, each before its predecessors; the pinned ones may be in it or not
   * @param latestEnds by turn: nothing of it ends later
   * @returns null when one of them finds no place after its release
   */
  backward(list: ArrayLike<number>, wishes: ModeWishes, latestEnds: readonly number[]): Draft | null {
    if (!this.pinnedMirrored) return null
    const horizon = this.problem.horizonTick
    for (const [turn, tick] of latestEnds.entries()) this.latestMirrored[turn] = horizon - tick
    const draft = draftAlong(
      this.back,
      this.pinnedMirrored,
      list,
      wishes,
      this.latestMirrored,
      this.releaseMirrored,
    )
    return draft && mirroredDraft(draft, horizon)
  }
}

function draftAlong(
  timetable: Timetable,
  pinned: Draft,
  list: ArrayLike<number>,
  wishes: ModeWishes,
  earliestStarts: Int32Array,
  latestEnds: Int32Array,
): Draft | null {
  const { problem } = timetable
  const { predecessorFirst, predecessors, modeTicks, slotFirst, turnOf, isPinned } = problem
  const draft = copyOf(pinned)
  const { starts, ends, modes, lanes } = draft
  timetable.clearToPinned(pinned)
  for (let position = 0; position < list.length; position++) {
    const activity = list[position]!
    if (isPinned[activity] === 1) continue
    const turn = turnOf[activity]!
    let from = earliestStarts[turn]!
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      const end = ends[predecessors[at]!]!
      if (end > from) from = end
    }
    const latestEnd = latestEnds[turn]!
    const wish = wishes[activity]!
    let mode = -1
    let start = NEVER
    if (typeof wish === 'number') {
      mode = wish
      start = timetable.earliestStart(activity, mode, from, latestEnd)
    }
    if (start === NEVER) {
      mode = bestMode(timetable, activity, typeof wish === 'number' ? 'earliest-end' : wish, from, latestEnd)
      if (mode < 0) return null
      start = timetable.earliestStart(activity, mode, from, latestEnd)
    }
    timetable.reserve(activity, mode, start, lanes, slotFirst[activity]!)
    starts[activity] = start
    ends[activity] = start + modeTicks[mode]!
    modes[activity] = mode
  }
  return draft
}

/** -1 when no mode finds a place. */
function bestMode(
  timetable: Timetable,
  activity: number,
  rule: ModeRule,
  from: number,
  latestEnd: number,
): number {
  const { problem } = timetable
  const { modesShortestFirst, modeFirst, modeTicks, modeHands, modePersonTicks, laneCount } = problem
  // One score for the three rules: shares of the end and of the person-ticks; what is left decides ties.
  const endShare = rule === 'fewest-person-ticks' ? 0 : rule === 'balanced' ? laneCount : 1
  const workShare = rule === 'earliest-end' ? 0 : 1
  let best = -1
  let bestScore = 0
  let bestEnd = 0
  for (let at = modeFirst[activity]!; at < modeFirst[activity + 1]!; at++) {
    const mode = modesShortestFirst[at]!
    const work = modePersonTicks[mode]!
    const soonest = from + modeTicks[mode]!
    if (best >= 0 && soonest * endShare + work * workShare > bestScore) continue
    const start = timetable.earliestStart(activity, mode, from, latestEnd)
    if (start === NEVER) continue
    const end = start + modeTicks[mode]!
    const score = end * endShare + work * workShare
    const better =
      best < 0 ||
      score < bestScore ||
      (score === bestScore &&
        (rule === 'earliest-end'
          ? work - modePersonTicks[best]! || modeHands[mode]! - modeHands[best]!
          : end - bestEnd || modeHands[mode]! - modeHands[best]!) < 0)
    if (!better) continue
    best = mode
    bestScore = score
    bestEnd = end
  }
  return best
}
