/** Looking for a plan: quickly where one with time to spare is easy to find, at length where yes or no hangs on it. */
import type { Instant } from '../../../domain/instant.ts'
import type { Proof } from '../../../domain/reason.ts'
import type { World } from '../../timeline/world.ts'
import { type Schedule, scheduleFaults, solve, TICK_SECONDS } from '../../turn/index.ts'
import type { BuiltInstance, BuiltPart } from './built-instance.ts'
import { readyTickOf } from './plan-of.ts'
import { TICK_MS } from './tick-grid.ts'

/** The search of a decision is seeded with this, always: the same question gets the same answer. */
export const SEED = 1
/** So many schedules are tried within the time before doors, before the time after doors is looked at too. */
const FIRST_TRIES = 4

/** What was found out about turns before any of it is put into words. */
export interface Findings {
  readonly built: BuiltInstance
  readonly schedule: Schedule | null
  readonly workDone: number
  /** By turn of the instance. Proven: not ready earlier; null: it cannot be done at all within a day after doors. */
  readonly boundTicks: readonly (number | null)[]
}

/** A plan with the time to spare that is wanted, if one is found at the first tries. */
export function acceptableAtOnce(world: World, built: BuiltInstance): Findings | null {
  const wanted = acceptableTicks(world, built)
  const findings = searched(built, Math.min(FIRST_TRIES, world.setup.policy.workMost), wanted)
  return isReadyBy(findings, wanted) ? findings : null
}

/** By turn of the instance: doors with the time to spare that is wanted; milestones and events have none. */
function acceptableTicks(world: World, { instance, parts }: BuiltInstance): number[] {
  const slackTicks = Math.ceil(world.setup.policy.slackWantedSeconds / TICK_SECONDS)
  const rooms = new Set(parts.map(({ turn }) => turn))
  return instance.turns.map(({ dueTick }, turn) => (rooms.has(turn) ? dueTick - slackTicks : dueTick))
}

export const dueTicks = ({ instance }: BuiltInstance): number[] =>
  instance.turns.map(({ dueTick }) => dueTick)

/** The whole effort is for yes or no; for a yes with more time to spare, a third of it. */
export function readyOrLate(world: World, built: BuiltInstance, workMost: number): Findings {
  const findings = searched(built, Math.ceil(workMost / 3), acceptableTicks(world, built))
  return isReadyBy(findings, dueTicks(built)) ? findings : searched(built, workMost, dueTicks(built))
}

function searched(built: BuiltInstance, workMost: number, acceptableReadyTicks: readonly number[]): Findings {
  const { schedule, workDone, boundTicks } = solve(built.instance, {
    workMost,
    seed: SEED,
    acceptableReadyTicks,
  })
  if (schedule) assertHolds(built, schedule)
  return { built, schedule, workDone, boundTicks }
}

/** @throws Error with what is wrong: a bug of the solver */
export function assertHolds({ instance }: BuiltInstance, schedule: Schedule): void {
  const faults = scheduleFaults(instance, schedule)
  if (faults.length > 0) throw new Error(`the solver made a plan that does not hold: ${faults.join('; ')}`)
}

/** Every turn of the instance, those of milestones too. */
export const isReadyBy = ({ schedule }: Findings, ticks: readonly number[]): boolean =>
  schedule?.readyTicks.every((tick, turn) => tick <= ticks[turn]!) ?? false

/** When the best plan found has the room ready; null: none was found. */
export function readyAtOf({ built, schedule }: Findings, part: BuiltPart): Instant | null {
  return schedule && ((built.originAt + readyTickOf(built, part, schedule) * TICK_MS) as Instant)
}

/** How sure a no would be. */
export function proofOf({ built, boundTicks }: Findings, turn: number): Proof {
  const bound = boundTicks[turn] ?? null
  return bound === null || bound > built.instance.turns[turn]!.dueTick ? 'bound' : 'none-found'
}
