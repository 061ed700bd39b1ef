/** What is measured of a turn: each way that the service plans one in, with the effort that the service takes. */
import { DEFAULT_POLICY_NUMBERS } from '../../src/scheduler/network/default-policy-numbers.ts'
import {
  carriedPlan,
  type Lane,
  readyTicksMostFor,
  type Schedule,
  scheduleFaults,
  solve,
  TICK_SECONDS,
  type TurnInstance,
} from '../../src/scheduler/turn/index.ts'

export interface PlannedTurn {
  /** One plan, or one for each number of hands. */
  readonly plans: readonly PlanFound[]
  readonly milliseconds: number
}

export interface PlanFound {
  /** null: none was found. */
  readonly readyTick: number | null
  /** null: there is none. */
  readonly boundTick: number | null
  readonly isInTime: boolean
}

export interface WayOfPlanning {
  readonly name: string
  readonly planned: (instance: TurnInstance) => PlannedTurn
}

/** As in every decision. */
const SEED = 1
const { workMost, slackWantedSeconds } = DEFAULT_POLICY_NUMBERS
const SPARE_TICKS = Math.ceil(slackWantedSeconds / TICK_SECONDS)
/** A plan is gone over with so many times the effort, and so many rounds: src/scheduler/decide/turns/polished-turns.ts. */
const POLISH_EFFORT_TIMES = 4
const STEADY_ROUNDS = 4
const HANDS_MOST = 12

export const waysOfPlanning: readonly WayOfPlanning[] = [
  {
    name: `first acceptable plan: ${workMost} schedules, ${slackWantedSeconds / 60} min to spare`,
    planned: (instance) =>
      timed(() => {
        const acceptableReadyTicks = instance.turns.map(({ dueTick }) => dueTick - SPARE_TICKS)
        return [found(instance, solve(instance, { workMost, seed: SEED, acceptableReadyTicks }))]
      }),
  },
  {
    name: `soonest plan: ${workMost * POLISH_EFFORT_TIMES} schedules`,
    planned: (instance) => timed(() => [found(instance, soonest(instance))]),
  },
  {
    name: `polished plan: the soonest, then ${STEADY_ROUNDS} rounds for a steady one`,
    planned: (instance) =>
      timed(() => {
        const result = soonest(instance)
        return [
          found(instance, { ...result, schedule: result.schedule && steady(instance, result.schedule) }),
        ]
      }),
  },
  {
    name: `times for 1 to ${HANDS_MOST} hands: ${workMost} schedules each`,
    planned: (instance) =>
      timed(() =>
        Array.from({ length: HANDS_MOST }, (_, index) => {
          const withHands = withLanes(instance, index + 1)
          return found(withHands, solve(withHands, { workMost, seed: SEED, acceptableReadyTicks: [0] }))
        }),
      ),
  },
]

const soonest = (instance: TurnInstance) =>
  solve(instance, { workMost: workMost * POLISH_EFFORT_TIMES, seed: SEED })

function steady(instance: TurnInstance, schedule: Schedule): Schedule {
  const readyTicksMost = instance.turns.map(({ releaseTick, dueTick }, turn) => {
    const readyTick = schedule.readyTicks[turn]!
    return Math.min(readyTicksMostFor(readyTick, releaseTick), Math.max(readyTick, dueTick - SPARE_TICKS))
  })
  return carriedPlan(instance, schedule, { rounds: STEADY_ROUNDS, seed: SEED, readyTicksMost }).schedule
}

/** The same work for so many who can do everything and are there all the time. */
function withLanes(instance: TurnInstance, count: number): TurnInstance {
  const lanes = Array.from(
    { length: count },
    (_, index): Lane => ({
      key: `hand ${index + 1}`,
      skillMask: 0x7fffffff,
      available: [{ from: 0, to: instance.horizonTick }],
      busy: [],
    }),
  )
  return { ...instance, lanes }
}

interface Found {
  readonly plan: PlanFound
  readonly instance: TurnInstance
  readonly schedule: Schedule | null
}

function found(
  instance: TurnInstance,
  { schedule, boundTicks }: Pick<ReturnType<typeof solve>, 'schedule' | 'boundTicks'>,
): Found {
  const readyTick = schedule?.readyTicks[0] ?? null
  const boundTick = boundTicks[0] ?? null
  const isInTime = readyTick !== null && readyTick <= instance.turns[0]!.dueTick
  return { plan: { readyTick, boundTick, isInTime }, instance, schedule }
}

/** @throws when a plan does not hold; that is looked at outside the time */
function timed(plan: () => readonly Found[]): PlannedTurn {
  const begun = performance.now()
  const all = plan()
  const milliseconds = performance.now() - begun
  for (const { instance, schedule } of all) {
    const faults = schedule ? scheduleFaults(instance, schedule) : []
    if (faults.length > 0) throw new Error(`the plan does not hold: ${faults.join('; ')}`)
  }
  return { plans: all.map((one) => one.plan), milliseconds }
}
