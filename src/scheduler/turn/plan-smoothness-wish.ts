/**
 * What a calmer schedule is tried with: the order of the work, the hands for each activity, and how many crews are on
 * one group at a time. Pairs are wished first.
 */
import { foundPlan, scheduleFromDraft } from './found-plan.ts'
import type { Schedule, TurnInstance } from './instance.ts'
import { type PreparedInstance, prepared } from './prepared-instance.ts'
import { listByPriority } from './priority-rules.ts'
import { ScheduleGenerator } from './schedule-generation.ts'

/** What all tries have in common. */
export interface CarriedGround {
  readonly instance: TurnInstance
  readonly problem: PreparedInstance
  /** By activity, as `groupsOf` gives them. */
  readonly groups: readonly number[]
  /** Activities that can have hands, by group, in order of index. */
  readonly members: ReadonlyMap<number, readonly number[]>
  /** By activity: the mode of the schedule given, as counted over the whole instance. */
  readonly givenModes: readonly number[]
  /** By activity: a mode for a pair; where there is none, that of the schedule given. */
  readonly pairModes: readonly number[]
}

export interface CarriedWish {
  /** By activity: the lower the sooner, as far as precedence leaves it open. */
  readonly order: readonly number[]
  /** By activity: a mode as counted over the whole instance. */
  readonly modes: readonly number[]
  /** By group: so many of its activities at a time; a group left out: as it comes. */
  readonly crews: ReadonlyMap<number, number>
}

export function carriedGround(
  instance: TurnInstance,
  groups: readonly number[],
  given: Schedule,
): CarriedGround {
  const problem = prepared(instance)
  const members = new Map<number, number[]>()
  for (const [activity, { modes }] of instance.activities.entries()) {
    if (modes.every(({ hands }) => hands.length === 0)) continue
    const group = groups[activity]!
    const known = members.get(group)
    if (known) known.push(activity)
    else members.set(group, [activity])
  }
  const givenModes = given.activities.map(({ mode }, activity) => problem.modeFirst[activity]! + mode)
  const pairModes = givenModes.map((mode, activity) => modeWithHands(problem, activity, 2) ?? mode)
  return { instance, problem, groups, members, givenModes, pairModes }
}

/** As counted over the whole instance; null when there is none. */
export function modeWithHands(problem: PreparedInstance, activity: number, hands: number): number | null {
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    if (problem.modeHands[mode] === hands) return mode
  }
  return null
}

/** The schedule given, as a wish. */
export const wishOf = ({ givenModes }: CarriedGround, given: Schedule): CarriedWish => ({
  order: given.activities.map(({ startTick }) => startTick),
  modes: givenModes,
  crews: new Map(),
})

/** The wishes that helped most often, in the order in which they are tried. */
export function firstWishes(ground: CarriedGround, given: Schedule): CarriedWish[] {
  const { problem, groups, members, givenModes, pairModes } = ground
  const { order, crews } = wishOf(ground, given)
  const oneCrew = new Map([...members.keys()].map((group) => [group, 1]))
  const firstOfGroup = new Map<number, number>()
  for (const [activity, tick] of order.entries()) {
    const group = groups[activity]!
    firstOfGroup.set(group, Math.min(firstOfGroup.get(group) ?? tick, tick))
  }
  const groupAfterGroup = order.map((_, activity) => firstOfGroup.get(groups[activity]!)!)
  const pairsAtMost = givenModes.map((mode, activity) =>
    problem.modeHands[mode]! > 2 ? pairModes[activity]! : mode,
  )
  return [
    { order, modes: pairModes, crews },
    { order, modes: pairModes, crews: oneCrew },
    { order: groupAfterGroup, modes: pairModes, crews: oneCrew },
    { order, modes: pairsAtMost, crews },
    { order, modes: pairsAtMost, crews: oneCrew },
  ]
}

/** One schedule, each activity as early as it can be. @returns null when something finds no place before the horizon */
export function scheduleAsWished(ground: CarriedGround, wish: CarriedWish): Schedule | null {
  const list = listByPriority(ground.problem, wish.order)
  const problem = prepared(withCrewsInRow(ground, wish, list))
  const draft = new ScheduleGenerator(problem).forward(list, wish.modes)
  return draft && scheduleFromDraft(problem, foundPlan(problem, draft))
}

/** So few crews on a group: each of its activities also waits for the one so many places before it in the list. */
function withCrewsInRow(
  { instance, groups, members }: CarriedGround,
  { crews }: CarriedWish,
  list: Int32Array,
): TurnInstance {
  if (crews.size === 0) return instance
  const activities = [...instance.activities]
  const inRow = new Map<string, number[]>()
  for (const index of list) {
    const activity = activities[index]!
    const group = groups[index]!
    const crewCount = crews.get(group)
    if (crewCount === undefined || activity.pinned || !members.get(group)?.includes(index)) continue
    const key = `${group} ${activity.turn}`
    const row = inRow.get(key) ?? []
    const before = row.at(-crewCount)
    if (before !== undefined) activities[index] = { ...activity, after: [...activity.after, before] }
    inRow.set(key, [...row, index])
  }
  return { ...instance, activities }
}
