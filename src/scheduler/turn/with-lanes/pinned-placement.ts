/**
 * Where the pinned activities are: at the release of their turns, with lanes. They come before all else, so one placement
 * serves every schedule of the instance, forward and backward.
 */

import { NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'
import { type Draft, emptyDraft } from './draft.ts'
import type { Kept } from './kept.ts'
import { Timetable } from './timetable.ts'

/**
 * Those that have the fewest lanes to spare come first. Where one finds none because of others, it is put in front of them
 * and all are placed anew, as often as there are pinned activities.
 * @param kept of each activity its lanes where they can do it, before any others are chosen
 * @returns a draft in which only pinned activities mean anything; null when one of them found no place
 */
export function pinnedPlacement(problem: PreparedInstance, kept: Kept | null = null): Draft | null {
  if (problem.pinned.length === 0) return emptyDraft(problem)
  const timetable = new Timetable(problem)
  if (kept) {
    const draft = emptyDraft(problem)
    if (placeKept(timetable, kept, draft)) return draft
  }
  const order = fewestToSpareFirst(timetable)
  const preference = leastFreeTime(problem)
  for (let round = 0; round <= order.length; round++) {
    timetable.clear()
    const draft = emptyDraft(problem)
    const failed = order.find((activity) => !placeAnew(timetable, activity, draft, preference))
    if (failed === undefined) return draft
    order.splice(order.indexOf(failed), 1)
    order.unshift(failed)
  }
  return null
}

/** First all that keep their lanes, then the others. */
function placeKept(timetable: Timetable, kept: Kept, draft: Draft): boolean {
  const { problem } = timetable
  const { slotFirst, modeHands } = problem
  const others = problem.pinned.filter((activity) => {
    const mode = problem.modeFirst[activity]!
    const slot = slotFirst[activity]!
    if (kept.hasLanes[activity] === 0) return true
    const start = startOf(problem, activity)
    const end = start + problem.modeTicks[mode]!
    if (timetable.earliestStartOf(kept.lanes, slot, activity, mode, start, lastEnd(problem, end)) !== start) {
      return true
    }
    draft.lanes.set(kept.lanes.subarray(slot, slot + modeHands[mode]!), slot)
    timetable.hold(activity, mode, start, draft.lanes, slot)
    write(draft, activity, mode, start, end)
    return false
  })
  const preference = leastFreeTime(problem)
  return others.every((activity) => placeAnew(timetable, activity, draft, preference))
}

function placeAnew(
  timetable: Timetable,
  activity: number,
  draft: Draft,
  preference: ArrayLike<number>,
): boolean {
  const { problem } = timetable
  const mode = problem.modeFirst[activity]!
  const start = startOf(problem, activity)
  const end = start + problem.modeTicks[mode]!
  if (timetable.earliestStart(activity, mode, start, lastEnd(problem, end)) === NEVER) return false
  timetable.reserve(activity, mode, start, draft.lanes, problem.slotFirst[activity]!, preference)
  write(draft, activity, mode, start, end)
  return true
}

function write(draft: Draft, activity: number, mode: number, start: number, end: number): void {
  draft.starts[activity] = start
  draft.ends[activity] = end
  draft.modes[activity] = mode
}

const startOf = (problem: PreparedInstance, activity: number): number =>
  problem.releaseTicks[problem.turnOf[activity]!]!

const lastEnd = (problem: PreparedInstance, end: number): number => Math.min(end, problem.horizonTick)

/** By the lanes that could do it alone, less those it needs, in the group that is worst off. */
function fewestToSpareFirst(timetable: Timetable): number[] {
  const { problem } = timetable
  const spare = new Map(problem.pinned.map((activity) => [activity, lanesToSpare(timetable, activity)]))
  const hands = (activity: number): number => problem.modeHands[problem.modeFirst[activity]!]!
  return [...problem.pinned].sort((a, b) => spare.get(a)! - spare.get(b)! || hands(b) - hands(a) || a - b)
}

function lanesToSpare(timetable: Timetable, activity: number): number {
  const { problem } = timetable
  const mode = problem.modeFirst[activity]!
  const start = startOf(problem, activity)
  let least = problem.laneCount
  for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
    const mask = problem.groupMask[group]!
    let lanes = 0
    for (let lane = 0; lane < problem.laneCount; lane++) {
      if ((problem.laneMask[lane]! & mask) !== mask) continue
      if (timetable.isLaneFree(lane, activity, start, problem.modeTicks[mode]!)) lanes += 1
    }
    least = Math.min(least, lanes - problem.groupCount[group]!)
  }
  return least
}

/** By lane, more where it has less free time: of equals the one takes a duty who has least to give to other work. */
const leastFreeTime = (problem: PreparedInstance): number[] =>
  problem.gaps.map((gaps) => -gaps.reduce((sum, gap) => sum + gap.to - gap.from, 0))
