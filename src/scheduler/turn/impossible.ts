/** Why an activity can never be done within the horizon, as far as one thing can be named. */
import { type EarliestTicks, withShortestWalks } from './critical-path.ts'
import { NEVER } from './far-tick.ts'
import { mostLanesAtOnce } from './most-lanes-at-once.ts'
import type { PreparedInstance } from './prepared-instance.ts'
import { Timetable } from './with-lanes/timetable.ts'

export interface Impossible {
  /**
   * `skill`: with these skills in everybody it could be done. `resource`: a resource is never free for long enough.
   * `budget`: if nothing had to be paid it could be done. `hands`: all else; when there are hands enough (`handsMost` is
   * not below `handsNeeded`), it is the time that is short. What is pinned has one time, and only that is asked about.
   */
  readonly kind: 'skill' | 'hands' | 'resource' | 'budget'
  /** The skills that are missing; 0 unless `kind` is `skill`. */
  readonly skillMask: number
  /**
   * With the skills of the mask: hands its least demanding mode needs at once; 0 when work as a whole lacks a resource.
   * Where pinned activities are too much together: what those that compete need at once.
   */
  readonly handsNeeded: number
  /** With the skills of the mask: the most that are free at once for as long as that takes; the lanes they compete for. */
  readonly handsMost: number
  /** The activity that cannot be done; when only all work together is too much, the one that asks for most. */
  readonly activity: number
}

/** @param activity with an earliest end of NEVER; where that is because of a predecessor, the predecessor is named */
export function whyImpossible(
  problem: PreparedInstance,
  earliest: EarliestTicks,
  activity: number,
): Impossible {
  const cause = firstImpossible(problem, earliest, activity)
  const relaxed = {
    ...withShortestWalks(problem),
    ...WITHOUT_BUDGETS,
    laneBudget: problem.laneBudget.map(() => -1),
  }
  const from = earliest.from[cause]!
  const withoutSkills = relaxed.groupMask.map(() => 0)
  const withoutHands = relaxed.modeHands.map(() => 0)
  const skills = skillsAskedFor(relaxed, cause)
  const mode = leastDemandingMode(relaxed, cause)
  const ticks = relaxed.modeTicks[mode]!
  const place = relaxed.placeOf[cause]!
  const latestStart = latestEndOf(relaxed, cause) - ticks
  const handsMost = (skillMask: number): number =>
    mostLanesAtOnce(relaxed, ticks, place, skillMask, from, latestStart)
  if (problem.budgetCount > 0 && canBeDone(relaxed, cause, from)) {
    const handsNeeded = relaxed.modeHands[mode]!
    return { kind: 'budget', skillMask: 0, handsNeeded, handsMost: handsMost(0), activity: cause }
  }
  if (skills !== 0 && canBeDone({ ...relaxed, groupMask: withoutSkills }, cause, from)) {
    const skillMask = oneMissingSkill(relaxed, cause, from, skills) ?? skills
    const handsNeeded = handsWithAnyOf(relaxed, mode, skillMask)
    return { kind: 'skill', skillMask, handsNeeded, handsMost: handsMost(skillMask), activity: cause }
  }
  const hasTime = from + relaxed.shortestTicks[cause]! <= latestEndOf(relaxed, cause)
  const lacksResource = hasTime && !canBeDone({ ...relaxed, modeHands: withoutHands }, cause, from)
  return {
    kind: lacksResource ? 'resource' : 'hands',
    skillMask: 0,
    handsNeeded: relaxed.modeHands[mode]!,
    handsMost: handsMost(0),
    activity: cause,
  }
}

const WITHOUT_BUDGETS = {
  budgetCount: 0,
  leastPaidTicks: new Float64Array(),
  spareBudgetTicks: new Float64Array(),
}

/** What is pinned ends when it ends. */
function latestEndOf(problem: PreparedInstance, activity: number): number {
  if (problem.isPinned[activity] === 0) return problem.horizonTick
  const release = problem.releaseTicks[problem.turnOf[activity]!]!
  return Math.min(problem.horizonTick, release + problem.shortestTicks[activity]!)
}

/** The first in order of work that cannot be done although all it waits for can. */
function firstImpossible(problem: PreparedInstance, earliest: EarliestTicks, activity: number): number {
  let current = activity
  while (earliest.from[current] === NEVER) {
    let at = problem.predecessorFirst[current]!
    while (earliest.end[problem.predecessors[at]!] !== NEVER) at += 1
    current = problem.predecessors[at]!
  }
  return current
}

function canBeDone(problem: PreparedInstance, activity: number, from: number): boolean {
  const timetable = new Timetable(problem)
  if (problem.isPinned[activity] === 0) timetable.holdPinnedResources()
  const latestEnd = latestEndOf(problem, activity)
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    if (timetable.earliestStart(activity, mode, from, latestEnd) !== NEVER) return true
  }
  return false
}

/** The lowest single skill that would do if everybody had it; null when several are missing at once. */
function oneMissingSkill(
  problem: PreparedInstance,
  activity: number,
  from: number,
  skills: number,
): number | null {
  for (let rest = skills; rest !== 0; rest &= rest - 1) {
    const skillMask = rest & -rest
    const groupMask = problem.groupMask.map((mask) => mask & ~skillMask)
    if (canBeDone({ ...problem, groupMask }, activity, from)) return skillMask
  }
  return null
}

function skillsAskedFor(problem: PreparedInstance, activity: number): number {
  let skills = 0
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
      skills |= problem.groupMask[group]!
    }
  }
  return skills
}

function handsWithAnyOf(problem: PreparedInstance, mode: number, skillMask: number): number {
  let count = 0
  for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
    if ((problem.groupMask[group]! & skillMask) !== 0) count += problem.groupCount[group]!
  }
  return count
}

/** Fewest hands, then shortest. */
function leastDemandingMode(problem: PreparedInstance, activity: number): number {
  let best = problem.modeFirst[activity]!
  for (let mode = best + 1; mode < problem.modeFirst[activity + 1]!; mode++) {
    const more =
      problem.modeHands[mode]! - problem.modeHands[best]! ||
      problem.modeTicks[mode]! - problem.modeTicks[best]!
    if (more < 0) best = mode
  }
  return best
}
