/** The numbers of a turn as it was found: time there is and time it takes, hands, and how sure that is. */
import { secondsBetween } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { Reason } from '../../domain/reason.ts'
import type { Judgement } from '../../domain/turn.ts'
import { handsMost, staffedSeconds } from '../timeline/staffed-time.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import { lowerBoundTicks, type Schedule, TICK_SECONDS, type TurnInstance } from '../turn/index.ts'
import { stretchesNotClosed } from './stretches-not-closed.ts'
import { workFromAt } from './turn-instance.ts'
import { type Findings, readyAtOf } from './turn-search.ts'

export function judgementOf(
  world: World,
  input: TurnInput,
  findings: Findings,
  plan: Plan | null,
  reasons: readonly Reason[],
): Judgement {
  const isTight = reasons.every((reason) => reason.code === 'slack-under-policy')
  const numbers = numbersOf(world, input, findings)
  const dueTick = findings.built.instance.turns[0]!.dueTick
  const readyTick = findings.schedule?.readyTicks[0] ?? null
  const cannotBe = findings.boundTick === null || findings.boundTick > dueTick
  return {
    verdict: reasons.length === 0 ? 'fits' : isTight && plan ? 'tight' : 'does-not-fit',
    reasons: [...reasons],
    judgedAt: world.now,
    policyId: world.setup.policy.id,
    rateSetId: world.setup.rateSet?.id ?? null,
    ...numbers,
    proof: plan ? (readyTick === findings.boundTick ? 'bound' : null) : cannotBe ? 'bound' : 'none-found',
  }
}

export function numbersOf(world: World, input: TurnInput, findings: Findings) {
  const { built, schedule } = findings
  const readyAt = readyAtOf(findings)
  const window = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const boundTicks = leastWorkedTicks(built.instance)
  return {
    staffedWindowSeconds: stretchesNotClosed(world, input.room, window)
      .map((stretch) => staffedSeconds(built.lanes, stretch))
      .reduce((sum, seconds) => sum + seconds, 0),
    neededSeconds: schedule && workedTicks(schedule) * TICK_SECONDS,
    lowerBoundSeconds: boundTicks === null ? null : boundTicks * TICK_SECONDS,
    readyAt,
    slackSeconds: readyAt === null ? null : secondsBetween(readyAt, input.dueAt),
    hands: {
      needed: schedule ? handsAtWork(schedule) : 0,
      onDuty: handsMost(built.lanes, window),
      assumed: 0,
    },
  }
}

/** The time in which something of the turn is going on: waiting for somebody to come on duty is not work. */
function workedTicks(schedule: Schedule): number {
  let ticks = 0
  let until = Number.NEGATIVE_INFINITY
  for (const { startTick, endTick } of schedule.activities.toSorted((a, b) => a.startTick - b.startTick)) {
    ticks += Math.max(0, endTick - Math.max(until, startTick))
    until = Math.max(until, endTick)
  }
  return ticks
}

/** No plan works for less: the bound with every hand and trolley there all the time, so that nothing is waited for. */
function leastWorkedTicks(instance: TurnInstance): number | null {
  const always = { from: 0, to: instance.horizonTick }
  const { readyTick } = lowerBoundTicks(
    {
      ...instance,
      turns: instance.turns.map((turn) => ({ ...turn, releaseTick: 0 })),
      lanes: instance.lanes.map((lane) => ({ ...lane, available: [always], busy: [] })),
      resources: instance.resources.map((resource) => ({
        ...resource,
        capacity: [{ fromTick: 0, amount: Math.max(0, ...resource.capacity.map((step) => step.amount)) }],
      })),
    },
    0,
  )
  return readyTick
}

/** The most hands at work at one time. */
function handsAtWork({ activities }: Schedule): number {
  const atStart = activities.map(
    ({ startTick }) =>
      new Set(
        activities
          .filter((other) => other.startTick <= startTick && startTick < other.endTick)
          .flatMap(({ lanes }) => lanes),
      ).size,
  )
  return Math.max(0, ...atStart)
}
