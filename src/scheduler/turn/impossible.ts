/** Why an activity can never be done within the horizon, as far as one thing can be named. */
import { type EarliestTicks, withShortestWalks } from './critical-path.ts'
import { NEVER } from './far-tick.ts'
import type { PreparedInstance } from './prepared-instance.ts'
import { Timetable } from './timetable.ts'

export interface Impossible {
  /**
   * `skill`: with these skills in everybody it could be done. `resource`: a resource is never free for long enough.
   * `hands`: all else; when there are hands enough (`handsMost` is not below `handsNeeded`), it is the time that is short.
   */
  readonly kind: 'skill' | 'hands' | 'resource'
  /** The skills that are missing; 0 unless `kind` is `skill`. */
  readonly skillMask: number
  /** With the skills of the mask: hands its least demanding mode needs at once; 0 when work as a whole lacks a resource. */
  readonly handsNeeded: number
  /** With the skills of the mask: the most that are free at once for as long as that takes. */
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
  const relaxed = withShortestWalks(problem)
  const from = earliest.from[cause]!
  const withoutSkills = relaxed.groupMask.map(() => 0)
  const withoutHands = relaxed.modeHands.map(() => 0)
  const skills = skillsAskedFor(relaxed, cause)
  const mode = leastDemandingMode(relaxed, cause)
  const timetable = new Timetable(relaxed)
  const ticks = relaxed.modeTicks[mode]!
  const place = relaxed.placeOf[cause]!
  const handsMost = (skillMask: number): number => timetable.mostLanesAtOnce(ticks, place, skillMask, from)
  if (skills !== 0 && canBeDone({ ...relaxed, groupMask: withoutSkills }, cause, from)) {
    const skillMask = oneMissingSkill(relaxed, cause, from, skills) ?? skills
    const handsNeeded = handsWithAnyOf(relaxed, mode, skillMask)
    return { kind: 'skill', skillMask, handsNeeded, handsMost: handsMost(skillMask), activity: cause }
  }
  const hasTime = from + relaxed.shortestTicks[cause]! <= relaxed.horizonTick
  const lacksResource = hasTime && !canBeDone({ ...relaxed, modeHands: withoutHands }, cause, from)
  return {
    kind: lacksResource ? 'resource' : 'hands',
    skillMask: 0,
    handsNeeded: relaxed.modeHands[mode]!,
    handsMost: handsMost(0),
    activity: cause,
  }
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
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    if (timetable.earliestStart(activity, mode, from, problem.horizonTick) !== NEVER) return true
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
