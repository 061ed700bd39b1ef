/** How early a turn can be ready at best, proven: the later of critical path and energy; or why it never can. */
import { type EarliestTicks, earliestTicks } from './critical-path.ts'
import { type EnergyNeed, energyBound } from './energy-bound.ts'
import { NEVER } from './far-tick.ts'
import { amountUsed, type FreeUnits, freeHands, freeResource, handsWithSkill } from './free-units.ts'
import { type Impossible, whyImpossible } from './impossible.ts'
import type { TurnInstance } from './instance.ts'
import type { LowerBound } from './lower-bound-of-turn.ts'
import { pinnedTooMuch } from './pinned-too-much.ts'
import { type PreparedInstance, prepared } from './prepared-instance.ts'
import { tailTicks } from './tail-ticks.ts'
import { unhinderedBound } from './unhindered-bound.ts'

/**
 * What the turn needs is counted: its own work and what that has to wait for, whatever turn it belongs to; what is pinned
 * in other turns is taken off what there is. Other work only makes it harder. Where pinned activities cannot all be done
 * at once, each of their turns is impossible; so is each turn whose work must have something of a budget that is short.
 * @param instance without problems (`instanceProblems`)
 * @param reachedTick when the turn is ready by a plan without faults (`scheduleFaults`): no bound is later, so the first
 * that is not earlier is the answer; left out: no plan is known
 * @returns for a turn without activities its release
 */
export function lowerBoundTicks(
  instance: TurnInstance,
  turnIndex: number,
  reachedTick: number = NEVER,
): LowerBound {
  return unhinderedBound(instance, turnIndex, () => {
    const problem = prepared(instance)
    if (pathTick(problem, turnIndex) >= reachedTick) {
      return { readyTick: reachedTick, kind: 'critical-path', impossible: null }
    }
    return lowerBoundOfTurn(problem, earliestTicks(problem), pinnedTooMuch(problem), turnIndex, reachedTick)
  })
}

/** By precedence and releases alone, as if every hand and resource were free all the time. */
function pathTick(problem: PreparedInstance, turn: number): number {
  const { order, predecessorFirst, predecessors, shortestTicks, releaseTicks, turnOf } = problem
  const ends = new Float64Array(problem.activityCount)
  let readyTick = releaseTicks[turn]!
  for (const activity of order) {
    let start = releaseTicks[turnOf[activity]!]!
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      start = Math.max(start, ends[predecessors[at]!]!)
    }
    ends[activity] = start + shortestTicks[activity]!
    if (turnOf[activity] === turn) readyTick = Math.max(readyTick, ends[activity]!)
  }
  return readyTick
}

/** The bound of each turn. */
export function lowerBounds(problem: PreparedInstance): LowerBound[] {
  const earliest = earliestTicks(problem)
  const tooMuch = pinnedTooMuch(problem)
  return Array.from(problem.releaseTicks, (_, turn) =>
    lowerBoundOfTurn(problem, earliest, tooMuch, turn, NEVER),
  )
}

function lowerBoundOfTurn(
  problem: PreparedInstance,
  earliest: EarliestTicks,
  tooMuch: ReadonlyMap<number, Impossible>,
  turn: number,
  reachedTick: number,
): LowerBound {
  const tails = tailTicks(problem, turn)
  let criticalTick = problem.releaseTicks[turn]!
  let isPinned = false
  const needed: number[] = []
  for (const activity of problem.order) {
    if (tails[activity]! < 0) continue
    needed.push(activity)
    if (problem.turnOf[activity] !== turn) continue
    if (earliest.end[activity] === NEVER) return impossibleBound(whyImpossible(problem, earliest, activity))
    const impossible = tooMuch.get(activity)
    if (impossible) return impossibleBound(impossible)
    isPinned ||= problem.isPinned[activity] === 1
    criticalTick = Math.max(criticalTick, earliest.end[activity]!)
  }
  if (isPinned || criticalTick >= reachedTick)
    return { readyTick: criticalTick, kind: 'critical-path', impossible: null }
  let readyTick = criticalTick
  for (const supply of supplies(problem, needed)) {
    const needs = needed.map((activity) => ({
      activity,
      amount: leastOverModes(problem, activity, supply.unitsInMode),
      head: earliest.start[activity]!,
      tail: tails[activity]!,
    }))
    const free = supply.free()
    const bound = energyBound(needs, free)
    if (bound.readyTick === null || bound.readyTick > problem.horizonTick) {
      return impossibleBound(shortage(problem, supply, needs, free))
    }
    readyTick = Math.max(readyTick, bound.readyTick)
    if (readyTick >= reachedTick) break
  }
  return { readyTick, kind: readyTick > criticalTick ? 'energy' : 'critical-path', impossible: null }
}

const impossibleBound = (impossible: Impossible): LowerBound => ({
  readyTick: null,
  kind: 'impossible',
  impossible,
})

/** Something that is used up by time: all hands, hands with one skill, a resource. */
interface Supply {
  readonly kind: Impossible['kind']
  readonly skillMask: number
  readonly unitsInMode: (mode: number) => number
  readonly free: () => FreeUnits
}

function supplies(problem: PreparedInstance, activities: readonly number[]): Supply[] {
  const list: Supply[] = []
  let skills = 0
  let needsHands = false
  const resources = new Set<number>()
  for (const activity of activities) {
    for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
      needsHands ||= problem.modeHands[mode]! > 0
      for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
        skills |= problem.groupMask[group]!
      }
      for (let use = problem.useFirst[mode]!; use < problem.useFirst[mode + 1]!; use++) {
        resources.add(problem.useResource[use]!)
      }
    }
  }
  if (needsHands) {
    const unitsInMode = (mode: number): number => problem.modeHands[mode]!
    list.push({ kind: 'hands', skillMask: 0, unitsInMode, free: () => freeHands(problem, 0) })
  }
  for (let rest = skills; rest !== 0; rest &= rest - 1) {
    const skillMask = rest & -rest
    const unitsInMode = (mode: number): number => handsWithSkill(problem, mode, skillMask)
    list.push({ kind: 'skill', skillMask, unitsInMode, free: () => freeHands(problem, skillMask) })
  }
  for (const resource of resources) {
    const unitsInMode = (mode: number): number => amountUsed(problem, mode, resource)
    list.push({ kind: 'resource', skillMask: 0, unitsInMode, free: () => freeResource(problem, resource) })
  }
  return list
}

/** Units × ticks in the mode that takes least of them. */
function leastOverModes(
  problem: PreparedInstance,
  activity: number,
  unitsInMode: (mode: number) => number,
): number {
  let least = Number.POSITIVE_INFINITY
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    least = Math.min(least, unitsInMode(mode) * problem.modeTicks[mode]!)
  }
  return least
}

/** Each activity could be done, but not all of them until the horizon. Named is the one that asks for most. */
function shortage(
  problem: PreparedInstance,
  supply: Supply,
  needs: readonly EnergyNeed[],
  free: FreeUnits,
): Impossible {
  const most = needs.reduce((best, need) => (need.amount > best.amount ? need : best))
  const { kind, skillMask } = supply
  if (kind === 'resource') return { kind, skillMask, handsNeeded: 0, handsMost: 0, activity: most.activity }
  const amount = needs.reduce((sum, need) => sum + need.amount, 0)
  const head = needs.reduce((least, need) => Math.min(least, need.head), problem.horizonTick)
  const handsMost = free.units.reduce((best, units) => Math.max(best, units), 0)
  const handsAtLeast = Math.ceil(amount / Math.max(1, problem.horizonTick - head))
  const handsNeeded = Math.max(handsMost + 1, handsAtLeast)
  return { kind, skillMask, handsNeeded, handsMost, activity: most.activity }
}
