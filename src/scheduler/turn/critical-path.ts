/**
 * How early each activity can be, if it had the crew to itself: precedence, releases, and for every activity alone the
 * calendars of lanes and resources, less what is pinned takes of the resources. No schedule can be earlier anywhere.
 */

import { NEVER } from './far-tick.ts'
import type { PreparedInstance } from './prepared-instance.ts'
import { Timetable } from './with-lanes/timetable.ts'

export interface EarliestTicks {
  /** When its predecessors and its release allow it, by index of activity. NEVER behind what can never be done. */
  readonly from: Int32Array
  /** NEVER when no mode finds a place before the horizon. */
  readonly start: Int32Array
  /** Not always that of the mode that starts first. NEVER as above. */
  readonly end: Int32Array
}

export function earliestTicks(problem: PreparedInstance): EarliestTicks {
  const { activityCount, predecessorFirst, predecessors, modesShortestFirst, modeFirst, modeTicks } = problem
  const { pinned, isPinned, releaseTicks, turnOf, horizonTick } = problem
  const timetable = new Timetable(withShortestWalks(problem))
  const from = new Int32Array(activityCount)
  const start = new Int32Array(activityCount).fill(NEVER)
  const end = new Int32Array(activityCount).fill(NEVER)
  for (const activity of pinned) {
    const mode = modeFirst[activity]!
    const release = releaseTicks[turnOf[activity]!]!
    const latestEnd = Math.min(release + modeTicks[mode]!, horizonTick)
    from[activity] = release
    if (timetable.earliestStart(activity, mode, release, latestEnd) === NEVER) continue
    start[activity] = release
    end[activity] = latestEnd
  }
  timetable.holdPinnedResources()
  for (const activity of problem.order) {
    if (isPinned[activity] === 1) continue
    let soonest = releaseTicks[turnOf[activity]!]!
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      soonest = Math.max(soonest, end[predecessors[at]!]!)
    }
    from[activity] = soonest
    if (soonest === NEVER) continue
    for (let at = modeFirst[activity]!; at < modeFirst[activity + 1]!; at++) {
      const mode = modesShortestFirst[at]!
      if (start[activity] === soonest && soonest + modeTicks[mode]! >= end[activity]!) break
      const tick = timetable.earliestStart(activity, mode, soonest, horizonTick)
      if (tick === NEVER) continue
      start[activity] = Math.min(start[activity]!, tick)
      end[activity] = Math.min(end[activity]!, tick + modeTicks[mode]!)
    }
  }
  return { from, start, end }
}

/**
 * A lane may get from one place to another sooner than the direct walk says, by doing something in a third place on the
 * way, if the table of walks is odd enough. A bound has to reckon with the shortest way.
 */
export function withShortestWalks(problem: PreparedInstance): PreparedInstance {
  const { placeCount } = problem
  const walk = problem.walk.slice()
  for (let via = 0; via < placeCount; via++) {
    for (let a = 0; a < placeCount; a++) {
      for (let b = 0; b < placeCount; b++) {
        const ticks = walk[a * placeCount + via]! + walk[via * placeCount + b]!
        if (ticks < walk[a * placeCount + b]!) walk[a * placeCount + b] = ticks
      }
    }
  }
  return { ...problem, walk }
}
