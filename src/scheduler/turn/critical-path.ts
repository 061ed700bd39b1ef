/**
 * How early each activity can be, if it had the crew to itself: precedence, releases, and for every activity alone the
 * calendars of lanes and resources. No schedule can be earlier anywhere.
 */

import { NEVER } from './far-tick.ts'
import type { PreparedInstance } from './prepared-instance.ts'
import { Timetable } from './timetable.ts'

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
  const timetable = new Timetable(withShortestWalks(problem))
  const from = new Int32Array(activityCount)
  const start = new Int32Array(activityCount).fill(NEVER)
  const end = new Int32Array(activityCount).fill(NEVER)
  for (const activity of problem.order) {
    let soonest = problem.releaseTicks[problem.turnOf[activity]!]!
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      soonest = Math.max(soonest, end[predecessors[at]!]!)
    }
    from[activity] = soonest
    if (soonest === NEVER) continue
    for (let at = modeFirst[activity]!; at < modeFirst[activity + 1]!; at++) {
      const mode = modesShortestFirst[at]!
      if (start[activity] === soonest && soonest + modeTicks[mode]! >= end[activity]!) break
      const tick = timetable.earliestStart(activity, mode, soonest, problem.horizonTick)
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
