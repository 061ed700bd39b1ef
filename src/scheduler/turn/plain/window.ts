/**
 * The stretch of a schedule where the resources are used most, or least: what crossing keeps, or replaces.
 * Peaks as in Valls, Ballestín, Quintanilla, A hybrid genetic algorithm for the resource-constrained project
 * scheduling problem, EJOR 185 (2008) 495-508.
 */
import type { Side } from './side.ts'
import type { Work } from './work.ts'

/** Positions [first, last) of the handover list. */
export interface Window {
  first: number
  last: number
}

/** The window is `spanPerMille` of the makespan long; of equals the one nearest the list's head. */
export function findWindow(
  work: Work,
  side: Side,
  place: number,
  spanPerMille: number,
  isBusiest: boolean,
  found: Window,
): void {
  const { taskCount, modeDurationTicks, modeDensity } = work.problem
  const base = place * taskCount
  const makespan = side.makespanTicks[place]!
  const use = work.tickScratch
  // Time is counted from the end of this schedule: the beginning of the one the list is for.
  use.fill(0, 0, makespan + 1)
  for (let task = 0; task < taskCount; task++) {
    const mode = side.modes[base + task]!
    const from = makespan - side.starts[base + task]! - modeDurationTicks[mode]!
    use[from]! += modeDensity[mode]!
    use[from + modeDurationTicks[mode]!]! -= modeDensity[mode]!
  }
  for (let tick = 1; tick < makespan; tick++) use[tick]! += use[tick - 1]!
  const width = Math.max(1, Math.floor((makespan * spanPerMille) / 1000))
  const sign = isBusiest ? 1 : -1
  let sum = 0
  for (let tick = 0; tick < width; tick++) sum += sign * use[tick]!
  let best = sum
  let from = 0
  for (let tick = width; tick < makespan; tick++) {
    sum += sign * (use[tick]! - use[tick - width]!)
    if (sum > best) {
      best = sum
      from = tick - width + 1
    }
  }
  found.first = firstPositionFrom(work, side, base, makespan - from)
  found.last = firstPositionFrom(work, side, base, makespan - from - width)
}

/** First position of the handover list whose task ends at or before the tick; by halving, as ends decrease. */
function firstPositionFrom(work: Work, side: Side, base: number, endTick: number): number {
  const { taskCount, modeDurationTicks } = work.problem
  let low = 0
  let high = taskCount
  while (low < high) {
    const middle = (low + high) >> 1
    const task = side.handover[base + middle]!
    const end = side.starts[base + task]! + modeDurationTicks[side.modes[base + task]!]!
    if (end <= endTick) high = middle
    else low = middle + 1
  }
  return low
}
