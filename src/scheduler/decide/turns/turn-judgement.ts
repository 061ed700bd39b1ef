/** The numbers of a turn as it was found: time there is and time it takes, hands, and how sure that is. */
import { secondsBetween } from '../../../domain/instant.ts'
import type { Plan } from '../../../domain/plan.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { Judgement } from '../../../domain/turn.ts'
import { handsMost } from '../../timeline/staffed-time.ts'
import type { World } from '../../timeline/world.ts'
import { lowerBoundTicks, type ScheduledActivity, TICK_SECONDS } from '../../turn/index.ts'
import { type BuiltInstance, type BuiltPart, workFromAt } from '../plan/built-instance.ts'
import { isTurnWork } from '../plan/event-tasks.ts'
import { isAssumed } from '../plan/lanes-for.ts'
import { readyTickOf } from '../plan/plan-of.ts'
import { type Findings, proofOf, readyAtOf } from '../plan/turn-search.ts'
import type { FoundPart } from './found-part.ts'
import { staffedWindowSeconds } from './staffed-window.ts'

export function judgementOf(
  world: World,
  { findings, part, before, kept }: FoundPart,
  plan: Plan | null,
  reasons: readonly Reason[],
): Judgement {
  const { schedule, built, boundTicks } = findings
  const isTight = plan !== null && !reasons.some(speaksAgainst)
  const numbers = numbersOf(world, findings, part)
  const isAtBound = schedule !== null && readyTickOf(built, part, schedule) === boundTicks[part.turn]
  const verdict = reasons.length === 0 ? 'fits' : isTight ? 'tight' : 'does-not-fit'
  const isInTrouble = verdict === 'does-not-fit' || numbers.hands.assumed > 0
  const isSameTrouble = (before?.status === 'failing') === (verdict === 'does-not-fit')
  return {
    verdict,
    reasons: [...reasons],
    judgedAt: world.now,
    policyId: world.setup.policy.id,
    rateSetId: world.setup.rateSet?.id ?? null,
    ...numbers,
    proof: isTight || verdict === 'fits' ? (isAtBound ? 'bound' : null) : proofOf(findings, part.turn),
    warnedSince: isInTrouble ? ((isSameTrouble ? before?.judgement.warnedSince : null) ?? world.now) : null,
    polishedAt: kept ? (before?.judgement.polishedAt ?? null) : null,
    waysOut: [],
  }
}

export function numbersOf(world: World, findings: Findings, part: BuiltPart) {
  const { built, schedule } = findings
  const { input } = part
  const readyAt = readyAtOf(findings, part)
  const window = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  // On duty is the crew: neither who is assumed nor who helps for a while.
  const promised = built.lanes.filter(({ laneId, crew }) => crew && !isAssumed(laneId))
  const boundTicks = leastWorkedTicks(built, part)
  const work = schedule === null ? [] : workOf(part, schedule.activities)
  return {
    staffedWindowSeconds: staffedWindowSeconds(world, input, promised),
    neededSeconds: schedule && workedTicks(work) * TICK_SECONDS,
    lowerBoundSeconds: boundTicks === null ? null : boundTicks * TICK_SECONDS,
    readyAt,
    slackSeconds: readyAt === null ? null : secondsBetween(readyAt, input.dueAt),
    hands: {
      needed: handsAtWork(work),
      onDuty: handsMost(promised, window),
      assumed: schedule === null ? 0 : handsAssumed(findings, part, schedule.activities),
    },
  }
}

/** Of one turn, without what the event itself takes. */
export const workOf = ({ network, firstActivity }: BuiltPart, activities: readonly ScheduledActivity[]) =>
  activities.filter(({ activity }) => {
    const task = network.tasks[activity - firstActivity]
    return task !== undefined && isTurnWork(task)
  })

/** How many that nobody has promised, for the turn and its event. */
function handsAssumed(
  { built }: Findings,
  { network, firstActivity }: BuiltPart,
  activities: readonly ScheduledActivity[],
): number {
  const own = activities.slice(firstActivity, firstActivity + network.tasks.length)
  const lanes = new Set(own.flatMap(({ lanes }) => lanes.map((lane) => built.lanes[lane]!.laneId)))
  return [...lanes].filter(isAssumed).length
}

/** The time in which something of the turn is going on: waiting for somebody to come on duty is not work. */
export function workedTicks(work: readonly ScheduledActivity[]): number {
  let ticks = 0
  let until = Number.NEGATIVE_INFINITY
  for (const { startTick, endTick } of work.toSorted((a, b) => a.startTick - b.startTick)) {
    ticks += Math.max(0, endTick - Math.max(until, startTick))
    until = Math.max(until, endTick)
  }
  return ticks
}

/** No plan works for less: the bound with every hand and trolley there all the time, so that nothing is waited for. */
function leastWorkedTicks({ instance, parts }: BuiltInstance, { turn }: BuiltPart): number | null {
  const pinned = new Set(parts.flatMap(({ events }) => events.map((event) => event.turn)))
  const always = { from: 0, to: instance.horizonTick }
  const { readyTick } = lowerBoundTicks(
    {
      ...instance,
      turns: instance.turns.map((one, index) => (pinned.has(index) ? one : { ...one, releaseTick: 0 })),
      // Who comes after doors is no help.
      lanes: instance.lanes
        .filter(({ available }) => available.some(({ from }) => from < instance.turns[turn]!.dueTick))
        .map((lane) => ({ ...lane, available: [always], busy: [] })),
      resources: instance.resources.map((resource) => ({
        ...resource,
        capacity: [{ fromTick: 0, amount: Math.max(0, ...resource.capacity.map((step) => step.amount)) }],
      })),
    },
    turn,
  )
  return readyTick
}

/** The most hands at work at one time. */
function handsAtWork(work: readonly ScheduledActivity[]): number {
  const atStart = work.map(
    ({ startTick }) =>
      new Set(
        work
          .filter((other) => other.startTick <= startTick && startTick < other.endTick)
          .flatMap(({ lanes }) => lanes),
      ).size,
  )
  return Math.max(0, ...atStart)
}
