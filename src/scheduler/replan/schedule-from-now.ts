/** The work that is left, planned from now: as people carry it, if need be at other times, and anew only where that is late. */
import type { LaneId } from '../../domain/ids.ts'
import type { Plan, PlannedTask } from '../../domain/plan.ts'
import type { TaskKey } from '../../domain/task.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { plannedActivities, scheduleWith } from '../decide/plan/plan-of.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import { assertHolds, dueTicks, SEED } from '../decide/plan/turn-search.ts'
import type { World } from '../timeline/world.ts'
import { retimed, type Schedule, scheduleFaults, solve, TICK_SECONDS } from '../turn/index.ts'
import { nearestLanes } from './nearest-lanes.ts'

/** `as-planned`: to the letter; `re-timed`: the same hands in the same order; `made-anew`: neither would do as well. */
export type ReplanWay = 'as-planned' | 're-timed' | 'made-anew'

export interface FromNow {
  readonly schedule: Schedule
  readonly way: ReplanWay
  readonly workDone: number
  /** It was looked for with all the effort there is, and is later than was wanted. */
  readonly isSearchedThrough: boolean
}

/**
 * What is in time and not later than this beside what it could be is kept: nobody has to be told anything else. Common
 * practice, no source.
 */
const LATER_MOST_TICKS = (15 * 60) / TICK_SECONDS

/**
 * @param built     of one turn, with nothing of its event
 * @param plan      that people carry
 * @param carried   its tasks that are left, as people have them; those that are missing of the network are new
 * @param hasBegun  then what is ahead of its time goes on at once
 * @returns null: no plan is found within a day after doors
 */
export function scheduleFromNow(
  world: World,
  built: BuiltInstance,
  plan: Plan,
  carried: readonly PlannedTask[],
  hasBegun: boolean,
): FromNow | null {
  const { instance } = built
  const stored = carriedSchedule(built, plan, carried)
  if (stored && !hasBegun && isInTime(built, stored) && scheduleFaults(instance, stored).length === 0) {
    return { schedule: stored, way: 'as-planned', workDone: 0, isSearchedThrough: false }
  }
  const moved = stored && retimed(instance, stored)
  if (moved) assertHolds(built, moved)
  const kept: FromNow | null = moved && {
    schedule: moved,
    way: 're-timed',
    workDone: 1,
    isSearchedThrough: false,
  }
  const wanted = wantedTicks(built, stored ? plan : null)
  const tolerated = wanted.map((tick, turn) =>
    Math.max(tick, Math.min(tick + LATER_MOST_TICKS, instance.turns[turn]!.dueTick)),
  )
  if (moved && isReadyAt(moved, tolerated)) return kept
  const found = solve(instance, {
    workMost: world.setup.policy.workMost,
    seed: SEED,
    acceptableReadyTicks: wanted,
  })
  if (found.schedule === null) return kept
  assertHolds(built, found.schedule)
  if (moved && !isWorthIt(built, found.schedule, moved)) return kept
  const before = new Map<TaskKey, readonly LaneId[]>(carried.map(({ key, laneIds }) => [key, laneIds]))
  const schedule = nearestLanes(built, found.schedule, before)
  const isSearchedThrough = !isReadyAt(schedule, wanted)
  return { schedule, way: 'made-anew', workDone: found.workDone, isSearchedThrough }
}

/**
 * By turn of the instance: in time, and no later than planned. That the next day would do is no reason to send the crew
 * home. Without a plan to go by as soon as can be.
 */
function wantedTicks({ instance, parts, originAt }: BuiltInstance, plan: Plan | null): number[] {
  const room = parts[0]?.turn
  return instance.turns.map(({ dueTick, releaseTick }, turn) => {
    if (plan === null) return releaseTick
    return turn === room ? Math.min(dueTick, Math.floor((plan.readyAt - originAt) / TICK_MS)) : dueTick
  })
}

const isReadyAt = ({ readyTicks }: Schedule, ticks: readonly number[]): boolean =>
  readyTicks.every((tick, turn) => tick <= ticks[turn]!)

/** What is in time and hardly later is kept: people know it. Late, every tick counts. */
function isWorthIt(built: BuiltInstance, found: Schedule, moved: Schedule): boolean {
  if (!isSooner(built, found, moved)) return false
  if (!isInTime(built, moved)) return true
  return moved.readyTicks.some((tick, turn) => tick > found.readyTicks[turn]! + LATER_MOST_TICKS)
}

/** Doors, and each milestone by its time. */
const isInTime = (built: BuiltInstance, { readyTicks }: Schedule): boolean => {
  const due = dueTicks(built)
  return readyTicks.every((tick, turn) => tick <= due[turn]!)
}

/** Less late; where both are as late, ready sooner. */
function isSooner(built: BuiltInstance, one: Schedule, other: Schedule): boolean {
  const due = dueTicks(built)
  const late = ({ readyTicks }: Schedule) =>
    sum(readyTicks.map((tick, turn) => Math.max(0, tick - due[turn]!)))
  return (
    late(one) - late(other) < 0 || (late(one) === late(other) && sum(one.readyTicks) < sum(other.readyTicks))
  )
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0)

/** @returns null where a task is new, or is not done in a way that it has now */
function carriedSchedule(built: BuiltInstance, plan: Plan, carried: readonly PlannedTask[]): Schedule | null {
  const [part] = built.parts
  if (!part) return null
  const byKey = new Map(part.network.tasks.map((task) => [task.key, task]))
  const tasks = carried.flatMap((planned): PlannedTask[] => {
    const task = byKey.get(planned.key)
    if (!task) return []
    // What runs takes no hands here: those who are at it hold them.
    const isRunning = planned.hands > 0 && task.modes.every(({ hands }) => hands === 0)
    return [isRunning ? { ...planned, hands: 0, laneIds: [] } : planned]
  })
  const activities = plannedActivities(built, part, { ...plan, tasks })
  return activities && scheduleWith(built, activities)
}
