/** Hands chosen afresh, one job after the other, each time those to whom it comes most naturally. */

import { bitCount } from '../prepared-instance.ts'
import { canFollow, type Roster } from './roster.ts'

/** @returns lanes by job, by slot; null when a job is left without hands: nothing is taken back to make room */
export function lanesChosenAfresh(roster: Roster): number[][] | null {
  const { instance, jobs } = roster
  const own: number[][] = instance.lanes.map(() => [])
  const budgetLeft = (instance.budgets ?? []).map(({ laneTicksMost }) => laneTicksMost)
  const lastOfGroup = new Map(jobs.map(({ group }, position) => [group, position]))
  const chosen: number[][] = []
  for (const [position, job] of jobs.entries()) {
    const ticks = job.to - job.from
    const lanes: number[] = job.skillMasks.map(() => -1)
    const taken = new Set<number>()
    // Most skills first: who can do anything must not be taken for what anybody can do.
    const slots = job.skillMasks.map((_, slot) => slot)
    slots.sort((a, b) => bitCount(job.skillMasks[b]!) - bitCount(job.skillMasks[a]!) || a - b)
    for (const slot of slots) {
      const mask = job.skillMasks[slot]!
      let best: { readonly lane: number; readonly cost: readonly number[] } | null = null
      for (const [lane, { skillMask, budget }] of instance.lanes.entries()) {
        if (taken.has(lane) || (skillMask & mask) !== mask) continue
        if (budget !== undefined && ticks > (budgetLeft[budget] ?? 0)) continue
        const last = own[lane]!.at(-1)
        if (!canFollow(roster, lane, last === undefined ? [position] : [last, position])) continue
        const company = last === undefined ? [] : chosen[last]!
        const cost = [
          effortOfChange(roster, last, job.group, position, lastOfGroup),
          company.some((other) => taken.has(other)) ? 0 : 1,
          bitCount(skillMask & ~mask),
          // Who has done least so far.
          own[lane]!.length,
        ]
        if (best === null || isLess(cost, best.cost)) best = { lane, cost }
      }
      if (best === null) return null
      lanes[slot] = best.lane
      taken.add(best.lane)
      const { budget } = instance.lanes[best.lane]!
      if (budget !== undefined) budgetLeft[budget]! -= ticks
    }
    for (const lane of lanes) own[lane]!.push(position)
    chosen.push(lanes)
  }
  return chosen
}

/** 0: goes on with the same; 1: has done nothing yet; 2: what it did is all done; 3: what it did goes on later. */
function effortOfChange(
  { jobs }: Roster,
  last: number | undefined,
  group: number,
  position: number,
  lastOfGroup: ReadonlyMap<number, number>,
): number {
  if (last === undefined) return 1
  const lastGroup = jobs[last]!.group
  if (lastGroup === group) return 0
  return lastOfGroup.get(lastGroup)! < position ? 2 : 3
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  for (const [at, value] of a.entries()) {
    if (value !== b[at]) return value < b[at]!
  }
  return false
}
