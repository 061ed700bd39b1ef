/** A schedule that was found, made into a plan that people carry: when the policy wants it, by whom it is easiest. */
import { secondsBetween } from '../../../domain/instant.ts'
import type { World } from '../../timeline/world.ts'
import { asLateAs, carriedPlan, type Schedule, TICK_SECONDS } from '../../turn/index.ts'
import type { BuiltInstance } from './built-instance.ts'
import { isAssumed } from './lanes-for.ts'
import { assertHolds, type Findings, SEED } from './turn-search.ts'

/** Whether the policy wants gaps as long as these turned as late as can be. */
export function isJustInTime(world: World, { parts }: BuiltInstance): boolean {
  const { justInTimeFromGapSeconds } = world.setup.policy
  return (
    justInTimeFromGapSeconds !== null &&
    parts.every(({ input }) => secondsBetween(input.releaseAt, input.dueAt) >= justInTimeFromGapSeconds)
  )
}

/**
 * Where the policy wants it: as late as leaves the time to spare that is wanted. Where somebody is still to be found for
 * it: ready as soon, and nothing of it earlier than that asks for, so that nobody is looked for days before the others.
 */
export function timedPlan(world: World, findings: Findings): Findings {
  const { built, schedule } = findings
  if (schedule === null) return findings
  const isLateWanted = isJustInTime(world, built)
  if (!isLateWanted && !restsOnAssumed(built, schedule)) return findings
  const slackTicks = Math.ceil(world.setup.policy.slackWantedSeconds / TICK_SECONDS)
  const rooms = new Set(built.parts.map(({ turn }) => turn))
  const wanted = built.instance.turns.map(({ dueTick }, turn) =>
    isLateWanted
      ? Math.max(schedule.readyTicks[turn]!, rooms.has(turn) ? dueTick - slackTicks : dueTick)
      : schedule.readyTicks[turn]!,
  )
  const late = asLateAs(built.instance, schedule, wanted)
  if (late) assertHolds(built, late)
  return late ? { ...findings, schedule: late } : findings
}

const restsOnAssumed = ({ lanes }: BuiltInstance, { activities }: Schedule): boolean =>
  activities.some((one) => one.lanes.some((lane) => isAssumed(lanes[lane]!.laneId)))

/**
 * The same work by people who change as seldom as can be: a longer look, for plans gone over at leisure.
 * @param rounds  of search; 0: only who does what is looked at, and no time is moved
 * @param readyTicksMost  by turn of the instance
 */
export function steadyPlan(findings: Findings, rounds: number, readyTicksMost: readonly number[]): Findings {
  const { built, schedule } = findings
  if (schedule === null) return findings
  const latest = schedule.readyTicks.map((tick, turn) => Math.max(tick, readyTicksMost[turn] ?? tick))
  const carried = carriedPlan(built.instance, schedule, { rounds, seed: SEED, readyTicksMost: latest })
  assertHolds(built, carried.schedule)
  return { ...findings, schedule: carried.schedule, workDone: findings.workDone + carried.workDone }
}
