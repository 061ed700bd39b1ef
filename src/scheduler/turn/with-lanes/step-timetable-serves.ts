/** Which instances the timetable of steps can serve. */
import type { PreparedInstance } from '../prepared-instance.ts'
import { GROUPS_MOST, MASKED_LANES_MOST } from './lanes-asked-for.ts'

/** A list of steps for each: with more places the gaps of each lane are the shorter way. */
const PLACES_MOST = 6

/** Whether it can serve the instance. */
export function hasStepTimetable(problem: PreparedInstance): boolean {
  const { laneCount, budgetCount, groupFirst, walk, placeCount, gaps } = problem
  if (laneCount > MASKED_LANES_MOST || budgetCount > 0) return false
  for (let mode = 0; mode + 1 < groupFirst.length; mode++) {
    if (groupFirst[mode + 1]! - groupFirst[mode]! > GROUPS_MOST) return false
  }
  const places = placesOf(problem)
  if (places.length > PLACES_MOST) return false
  const passed = new Set(places)
  for (const gap of gaps.flat()) passed.add(gap.previousPlace).add(gap.nextPlace)
  const walkOf = (from: number, to: number) => walk[from * placeCount + to]!
  return [...passed].every((via) =>
    [...passed].every((from) =>
      [...passed].every((to) => walkOf(from, to) <= walkOf(from, via) + walkOf(via, to)),
    ),
  )
}

/** Where there is work, lowest first. */
export const placesOf = (problem: PreparedInstance): number[] =>
  [...new Set(problem.placeOf)].sort((a, b) => a - b)
