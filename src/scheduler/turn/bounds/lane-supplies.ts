/**
 * Sets of lanes as supplies: all lanes; the lanes that can be a hand of some need that asks for skills; and those that can
 * be one of any such need. A mode holds of a set at least what the lanes outside cannot be.
 */
import type { PreparedInstance } from '../prepared-instance.ts'
import type { NeededWork } from './needed-work.ts'
import { type Supply, supplyOf } from './supply.ts'

/** Different needs; of more, the others count among all lanes. */
const NEEDS_MOST = 16

/** @returns all lanes first; nothing where no hands are needed */
export function laneSupplies(problem: PreparedInstance, work: NeededWork): Supply[] {
  const masks = masksNeeded(problem, work)
  if (masks === null) return []
  const sets = new Map<string, Uint8Array>()
  const add = (isInSet: Uint8Array): void => {
    sets.set(isInSet.join(''), isInSet)
  }
  add(lanesWithAnyOf(problem, [0]))
  for (const mask of masks.slice(0, NEEDS_MOST)) add(lanesWithAnyOf(problem, [mask]))
  if (masks.length > 1) add(lanesWithAnyOf(problem, masks))
  return [...sets.values()].map((isInSet) => {
    const units = Float64Array.from(work.modeOf, (mode) => lanesHeld(problem, isInSet, mode))
    return supplyOf(work, units, levelsOf(problem, work, isInSet))
  })
}

/** The masks of all needs but 0; null: no hands are needed. */
function masksNeeded(problem: PreparedInstance, work: NeededWork): number[] | null {
  const masks = new Set<number>()
  let needsHands = false
  for (const mode of work.modeOf) {
    for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
      needsHands ||= problem.groupCount[group]! > 0
      if (problem.groupMask[group] !== 0) masks.add(problem.groupMask[group]!)
    }
  }
  return needsHands ? [...masks].sort((a, b) => a - b) : null
}

function lanesWithAnyOf(problem: PreparedInstance, masks: readonly number[]): Uint8Array {
  return Uint8Array.from(problem.laneMask, (has) => (masks.some((mask) => (has & mask) === mask) ? 1 : 0))
}

/** Of the set, at least: hands of one need are different lanes, and so are those of different needs. */
function lanesHeld(problem: PreparedInstance, isInSet: Uint8Array, mode: number): number {
  const { groupFirst, groupCount, groupMask, laneCount, laneMask } = problem
  let held = 0
  for (let group = groupFirst[mode]!; group < groupFirst[mode + 1]!; group++) {
    const mask = groupMask[group]!
    let outside = 0
    for (let lane = 0; lane < laneCount; lane++)
      if (isInSet[lane] === 0 && (laneMask[lane]! & mask) === mask) outside += 1
    held += Math.max(0, groupCount[group]! - outside)
  }
  return held
}

function levelsOf(problem: PreparedInstance, work: NeededWork, isInSet: Uint8Array): Float64Array {
  const { spanTicks, originTick } = work
  const changes = new Float64Array(spanTicks + 1)
  const place = (tick: number): number => Math.max(0, Math.min(spanTicks, tick - originTick))
  const add = (from: number, to: number, units: number): void => {
    changes[place(from)]! += units
    changes[place(to)]! -= units
  }
  for (let lane = 0; lane < problem.laneCount; lane++)
    if (isInSet[lane] === 1) for (const gap of problem.gaps[lane]!) add(gap.from, gap.to, 1)
  for (const activity of problem.pinned) {
    const start = problem.releaseTicks[problem.turnOf[activity]!]!
    const mode = problem.modeFirst[activity]!
    add(start, start + problem.modeTicks[mode]!, -lanesHeld(problem, isInSet, mode))
  }
  let units = 0
  return changes.subarray(0, spanTicks).map((change) => {
    units += change
    return Math.max(0, units)
  })
}
