/**
 * Pinned activities that could each be done, but not all of those that fall on one tick: they ask for more of a resource
 * than there is, or for more lanes than could serve them. Each of them is named; it takes leaving one of them out.
 */
import { withShortestWalks } from './critical-path.ts'
import { NEVER } from './far-tick.ts'
import { amountUsed } from './free-units.ts'
import type { Impossible } from './impossible.ts'
import type { PreparedInstance } from './prepared-instance.ts'
import { Timetable } from './with-lanes/timetable.ts'

/** One pair of hands of a pinned activity, with the lanes that could be it if there were nothing else. */
interface Slot {
  readonly activity: number
  readonly skillMask: number
  readonly lanes: readonly number[]
}

/** @returns by activity; empty when nothing is pinned, or all of it may go together as far as single ticks tell */
export function pinnedTooMuch(problem: PreparedInstance): Map<number, Impossible> {
  const tooMuch = new Map<number, Impossible>()
  const possible = possibleAlone(problem)
  for (const tick of new Set(possible.map((activity) => startOf(problem, activity)))) {
    const active = possible.filter((activity) => isActive(problem, activity, tick))
    for (const short of shortOfLanes(problem, active)) {
      for (const activity of new Set(short.slots.map((slot) => slot.activity))) {
        if (!tooMuch.has(activity)) tooMuch.set(activity, impossibleHands(problem, active, short, activity))
      }
    }
  }
  for (let resource = 0; resource < problem.resourceCount; resource++) {
    for (const activity of shortOfResource(problem, possible, resource)) {
      if (tooMuch.has(activity)) continue
      const figures = { skillMask: 0, handsNeeded: 0, handsMost: 0 }
      tooMuch.set(activity, { kind: 'resource', ...figures, activity })
    }
  }
  return tooMuch
}

function possibleAlone(problem: PreparedInstance): number[] {
  if (problem.pinned.length < 2) return []
  const timetable = new Timetable(withShortestWalks(problem))
  return problem.pinned.filter((activity) => {
    const start = startOf(problem, activity)
    const latestEnd = Math.min(endOf(problem, activity), problem.horizonTick)
    return timetable.earliestStart(activity, problem.modeFirst[activity]!, start, latestEnd) !== NEVER
  })
}

/** Slots that have fewer lanes between them than they are many. */
interface Shortage {
  readonly slots: readonly Slot[]
  readonly lanesMost: number
}

function shortOfLanes(problem: PreparedInstance, active: readonly number[], skillsKept = -1): Shortage[] {
  const timetable = new Timetable(withShortestWalks(problem))
  const slots = active.flatMap((activity) => slotsOf(timetable, activity, skillsKept))
  const slotOfLane = new Map<number, Slot>()
  const seat = (slot: Slot, visited: Set<number>): boolean => {
    for (const lane of slot.lanes) {
      if (visited.has(lane)) continue
      visited.add(lane)
      const holder = slotOfLane.get(lane)
      if (holder && !seat(holder, visited)) continue
      slotOfLane.set(lane, slot)
      return true
    }
    return false
  }
  const shortages: Shortage[] = []
  for (const slot of slots) {
    const visited = new Set<number>()
    if (seat(slot, visited)) continue
    // All lanes that were asked are taken, and those who have them can have no others.
    const holders = [...visited].map((lane) => slotOfLane.get(lane)!)
    shortages.push({ slots: [slot, ...holders], lanesMost: visited.size })
  }
  return shortages
}

function slotsOf(timetable: Timetable, activity: number, skillsKept: number): Slot[] {
  const { problem } = timetable
  const { modeFirst, groupFirst, groupCount, groupMask, laneMask, modeTicks } = problem
  const mode = modeFirst[activity]!
  const slots: Slot[] = []
  for (let group = groupFirst[mode]!; group < groupFirst[mode + 1]!; group++) {
    const skillMask = groupMask[group]! & skillsKept
    const lanes = Array.from(laneMask, (_, lane) => lane).filter(
      (lane) =>
        (laneMask[lane]! & skillMask) === skillMask &&
        timetable.isLaneFree(lane, activity, startOf(problem, activity), modeTicks[mode]!),
    )
    for (let hand = 0; hand < groupCount[group]!; hand++) slots.push({ activity, skillMask, lanes })
  }
  return slots
}

function impossibleHands(
  problem: PreparedInstance,
  active: readonly number[],
  { slots, lanesMost }: Shortage,
  activity: number,
): Impossible {
  const figures = { handsNeeded: slots.length, handsMost: lanesMost, activity }
  const skills = slots.reduce((mask, slot) => mask | slot.skillMask, 0)
  if (skills === 0 || shortOfLanes(problem, active, 0).length > 0) {
    return { kind: 'hands', skillMask: 0, ...figures }
  }
  for (let rest = skills; rest !== 0; rest &= rest - 1) {
    const skillMask = rest & -rest
    if (shortOfLanes(problem, active, ~skillMask).length === 0)
      return { kind: 'skill', skillMask, ...figures }
  }
  return { kind: 'skill', skillMask: skills, ...figures }
}

/** What is there only shrinks at its steps, what is used only grows where something starts: those ticks are enough. */
function shortOfResource(
  problem: PreparedInstance,
  possible: readonly number[],
  resource: number,
): Set<number> {
  const short = new Set<number>()
  const users = possible.filter((activity) => amountUsed(problem, problem.modeFirst[activity]!, resource) > 0)
  const steps = problem.capacity[resource]!
  const ticks = [
    ...users.map((activity) => startOf(problem, activity)),
    ...steps.map((step) => step.fromTick),
  ]
  for (const tick of ticks) {
    const active = users.filter((activity) => isActive(problem, activity, tick))
    const there = steps.findLast((step) => step.fromTick <= tick)?.amount ?? 0
    const used = active.reduce(
      (sum, activity) => sum + amountUsed(problem, problem.modeFirst[activity]!, resource),
      0,
    )
    if (used > there) for (const activity of active) short.add(activity)
  }
  return short
}

const startOf = (problem: PreparedInstance, activity: number): number =>
  problem.releaseTicks[problem.turnOf[activity]!]!

const endOf = (problem: PreparedInstance, activity: number): number =>
  startOf(problem, activity) + problem.modeTicks[problem.modeFirst[activity]!]!

const isActive = (problem: PreparedInstance, activity: number, tick: number): boolean =>
  startOf(problem, activity) <= tick && tick < endOf(problem, activity)
