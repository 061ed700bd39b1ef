/** Looking for a plan of one turn: quickly where one with time to spare is easy to find, at length where yes or no hangs on it. */
import type { Instant } from '../../domain/instant.ts'
import type { Proof } from '../../domain/reason.ts'
import type { World } from '../timeline/world.ts'
import { type Schedule, scheduleFaults, solve, TICK_SECONDS } from '../turn/index.ts'
import { type BuiltInstance, TICK_MS } from './turn-instance.ts'

/** The search of a decision is seeded with this, always: the same question gets the same answer. */
export const SEED = 1
/** So many schedules are tried within the time before doors, before the time after doors is looked at too. */
const FIRST_TRIES = 4

/** What was found out about a turn before any of it is put into words. */
export interface Findings {
  readonly built: BuiltInstance
  readonly schedule: Schedule | null
  readonly workDone: number
  /** Proven: not ready earlier; null: it cannot be done at all within a day after doors. */
  readonly boundTick: number | null
}

/** A plan with the time to spare that is wanted, if one is found at the first tries. */
export function acceptableAtOnce(world: World, built: BuiltInstance): Findings | null {
  const findings = searched(world, built, Math.min(FIRST_TRIES, world.setup.policy.workMost))
  const readyTick = findings.schedule?.readyTicks[0] ?? null
  return readyTick !== null && readyTick <= acceptableTick(world, built) ? findings : null
}

const acceptableTick = (world: World, built: BuiltInstance): number =>
  built.instance.turns[0]!.dueTick - Math.ceil(world.setup.policy.slackWantedSeconds / TICK_SECONDS)

/** The whole effort is for yes or no; for a yes with more time to spare, a third of it. */
export function readyOrLate(world: World, built: BuiltInstance): Findings {
  const { workMost } = world.setup.policy
  const findings = searched(world, built, Math.ceil(workMost / 3))
  const { dueTick } = built.instance.turns[0]!
  const isReady = findings.schedule !== null && findings.schedule.readyTicks[0]! <= dueTick
  return isReady ? findings : searched(world, built, workMost, dueTick)
}

function searched(
  world: World,
  built: BuiltInstance,
  workMost: number,
  readyTick = acceptableTick(world, built),
): Findings {
  const { schedule, workDone, boundTicks } = solve(built.instance, {
    workMost,
    seed: SEED,
    acceptableReadyTicks: [readyTick],
  })
  const faults = schedule ? scheduleFaults(built.instance, schedule) : []
  if (faults.length > 0) throw new Error(`the solver made a plan that does not hold: ${faults.join('; ')}`)
  return { built, schedule, workDone, boundTick: boundTicks[0] ?? null }
}

/** When the best plan found is ready; null: none was found. */
export function readyAtOf({ built, schedule }: Findings): Instant | null {
  const readyTick = schedule?.readyTicks[0] ?? null
  return readyTick === null ? null : ((built.originAt + readyTick * TICK_MS) as Instant)
}

/** How sure a no would be. */
export const proofOf = ({ built, boundTick }: Findings): Proof =>
  boundTick === null || boundTick > built.instance.turns[0]!.dueTick ? 'bound' : 'none-found'
