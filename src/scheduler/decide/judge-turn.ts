/** One turn: is it ready by doors with the hands that are left? The answer carries the plan, or says what is short. */
import type { Instant } from '../../domain/instant.ts'
import { laterOf, secondsBetween } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { Proof, Reason, TurnSide } from '../../domain/reason.ts'
import type { Judgement, Turn, TurnStatus } from '../../domain/turn.ts'
import { type LaneOnDuty, lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import { handsMost, staffedSeconds } from '../timeline/staffed-time.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import {
  lowerBoundTicks,
  type Schedule,
  scheduleFaults,
  solve,
  TICK_SECONDS,
  type TurnInstance,
} from '../turn/index.ts'
import { handsThatWouldDo } from './hands-that-would-do.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'
import { rememberedNetwork } from './remembered-network.ts'
import { seenFromBefore } from './seen-from-before.ts'
import { stretchesNotClosed } from './stretches-not-closed.ts'
import {
  type BuiltInstance,
  builtInstance,
  planOf,
  planSpan,
  scheduleOf,
  TICK_MS,
  workFromAt,
} from './turn-instance.ts'

/** The search of a decision is seeded with this, always: the same question gets the same answer. */
const SEED = 1
/** So many schedules are tried within the time before doors, before the time after doors is looked at too. */
const FIRST_TRIES = 4

/** What was found out about a turn before any of it is put into words. */
interface Findings {
  readonly built: BuiltInstance
  readonly schedule: Schedule | null
  readonly workDone: number
  /** Proven: not ready earlier; null: it cannot be done at all within a day after doors. */
  readonly boundTick: number | null
}

/**
 * @param before        the turn as stored, or null; a plan of it that still holds is kept
 * @param others  all other turns: what their plans hold is not there for this one
 */
export function judgeTurn(
  world: World,
  input: TurnInput,
  before: Turn | null,
  side: TurnSide | null,
  others: readonly Turn[],
  options: JudgeOptions,
): JudgedTurn {
  // A plan that runs late is only looked for to say how late; what skills there are is asked of the time before doors.
  const untilDoors = {
    fromAt: workFromAt(world, input),
    toAt: laterOf(input.dueAt, workFromAt(world, input)),
  }
  const lanes = lanesOnDuty(world.setup, planSpan(world, input), untilDoors)
  const network = rememberedNetwork(input)
  // Most requests fit at once. Only where they do not is it asked how late they would be: that takes a longer look.
  const byDoors = builtInstance(
    world,
    input,
    network,
    lanes,
    others,
    laterOf(input.dueAt, workFromAt(world, input)),
  )
  const kept = witnessThatHolds(world, input, byDoors, before)
  const findings =
    kept ??
    acceptableAtOnce(world, byDoors) ??
    readyOrLate(world, builtInstance(world, input, network, lanes, others, planSpan(world, input).toAt))
  const readyTick = findings.schedule?.readyTicks[0] ?? null
  const isReady = readyTick !== null && readyTick <= findings.built.instance.turns[0]!.dueTick
  const plan = isReady
    ? kept && before?.plan
      ? before.plan
      : planOf(findings.built, findings.schedule!, findings.workDone)
    : null
  const own = ownReasons(world, input, findings, options)
  const status: TurnStatus = isReady ? 'ready' : 'failing'
  return {
    before,
    side,
    reasons: own.length === 0 ? [] : reasonsSeenFrom(side, own, input, findings),
    after: {
      id: input.booking.turnId,
      siteId: input.booking.siteId,
      bookingId: input.booking.id,
      roomId: input.room.id,
      predecessorBookingIds: [...input.predecessorBookingIds],
      fromLayoutIds: [...input.fromLayoutIds],
      toLayoutId: input.booking.layoutId,
      releaseAt: input.releaseAt,
      dueAt: input.dueAt,
      inputHash: input.inputHash,
      status,
      judgement: judgementOf(world, input, findings, plan, own),
      plan,
    },
  }
}

/** A plan is only made anew when it must be: people have read it. */
function witnessThatHolds(
  world: World,
  input: TurnInput,
  built: BuiltInstance,
  before: Turn | null,
): Findings | null {
  if (!before?.plan || before.inputHash !== input.inputHash) return null
  const { policyId, rateSetId } = before.judgement
  if (policyId !== world.setup.policy.id || rateSetId !== (world.setup.rateSet?.id ?? null)) return null
  if (before.plan.startsAt < workFromAt(world, input)) return null
  const schedule = scheduleOf(built, before.plan)
  if (!schedule || scheduleFaults(built.instance, schedule).length > 0) return null
  if (schedule.readyTicks[0]! > built.instance.turns[0]!.dueTick) return null
  return { built, schedule, workDone: 0, boundTick: lowerBoundTicks(built.instance, 0).readyTick }
}

/** A plan with the time to spare that is wanted, if one is found at the first tries. */
function acceptableAtOnce(world: World, built: BuiltInstance): Findings | null {
  const findings = searched(world, built, Math.min(FIRST_TRIES, world.setup.policy.workMost))
  const readyTick = findings.schedule?.readyTicks[0] ?? null
  return readyTick !== null && readyTick <= acceptableTick(world, built) ? findings : null
}

const acceptableTick = (world: World, built: BuiltInstance): number =>
  built.instance.turns[0]!.dueTick - Math.ceil(world.setup.policy.slackWantedSeconds / TICK_SECONDS)

/** The whole effort is for yes or no; for a yes with more time to spare, a third of it. */
function readyOrLate(world: World, built: BuiltInstance): Findings {
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

/** What speaks against the turn, told from the booking it prepares: so it is stored, whoever asked. */
function ownReasons(world: World, input: TurnInput, findings: Findings, options: JudgeOptions): Reason[] {
  const { built } = findings
  const { instance } = built
  const side: TurnSide = 'before'
  const turnId = input.booking.turnId
  const dueTick = instance.turns[0]!.dueTick
  const readyAt = readyAtOf(findings)
  const policy = world.setup.policy
  if (readyAt !== null && readyAt <= input.dueAt) {
    const slackSeconds = secondsBetween(readyAt, input.dueAt)
    const { slackWantedSeconds } = policy
    return slackSeconds >= slackWantedSeconds
      ? []
      : [{ code: 'slack-under-policy', turnId, side, slackSeconds, slackWantedSeconds }]
  }
  const proof = proofOf(findings)
  const numbers = numbersOf(world, input, findings)
  const window = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const reasons: Reason[] = []
  // Whether a skill is missing is asked of the time before doors alone: somebody who comes later is no help.
  const byDoors = lowerBoundTicks({ ...instance, horizonTick: Math.max(0, dueTick) }, 0)
  if (byDoors.impossible?.kind === 'skill') {
    reasons.push({
      code: 'skill-missing',
      turnId,
      side,
      skill: skillNamed(built, byDoors.impossible.skillMask),
      ...window,
      proof: 'bound',
    })
  }
  const common = {
    turnId,
    side,
    toLayoutId: input.booking.layoutId,
    neededSeconds: numbers.neededSeconds,
    availableSeconds: numbers.staffedWindowSeconds,
    shortSeconds: readyAt === null ? null : secondsBetween(input.dueAt, readyAt),
    readyAt,
    doorsAt: input.dueAt,
    handsOnDuty: numbers.hands.onDuty,
  }
  const more = options.isTrial
    ? { handsNeeded: null, handsTried: numbers.hands.onDuty, proof }
    : handsThatWouldDo(built, numbers.hands.onDuty, policy.workMost, SEED)
  if (more.handsNeeded !== null) {
    reasons.push({ code: 'hands-short', ...common, proof, handsNeeded: more.handsNeeded })
  } else {
    const code = 'turn-before-too-long'
    reasons.push({ code, ...common, proof: more.proof, handsTried: more.handsTried })
  }
  return reasons
}

function readyAtOf({ built, schedule }: Findings): Instant | null {
  const readyTick = schedule?.readyTicks[0] ?? null
  return readyTick === null ? null : ((built.originAt + readyTick * TICK_MS) as Instant)
}

const proofOf = ({ built, boundTick }: Findings): Proof =>
  boundTick === null || boundTick > built.instance.turns[0]!.dueTick ? 'bound' : 'none-found'

/** The same, told from the request: its own turn, the one after it, or one that is neither. @param own  at least one */
function reasonsSeenFrom(
  side: TurnSide | null,
  own: readonly Reason[],
  { booking, dueAt }: TurnInput,
  findings: Findings,
): Reason[] {
  if (side === 'before') return [...own]
  if (side === 'after') return own.map(seenFromBefore)
  if (own.every((reason) => reason.code === 'slack-under-policy')) return [...own]
  const readyAt = readyAtOf(findings)
  const code = 'another-turn-broken'
  const proof = proofOf(findings)
  return [{ code, turnId: booking.turnId, bookingId: booking.id, doorsAt: dueAt, readyAt, proof }]
}

/** The skill of the mask that is not just being an adult, if there is one. */
function skillNamed(built: BuiltInstance, mask: number): string {
  const names = built.skills.filter((_, bit) => (mask & (1 << bit)) !== 0)
  return names[0] ?? 'adult'
}

function judgementOf(
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
    hands: { ...numbers.hands, needed: plan ? handsAtWork(plan) : 0 },
  }
}

function numbersOf(world: World, input: TurnInput, findings: Findings) {
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
    hands: { needed: 0, onDuty: handsMost(built.lanes, window), assumed: 0 },
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
function handsAtWork(plan: Plan): number {
  const lanes = new Map<string, LaneOnDuty>()
  for (const task of plan.tasks) {
    for (const laneId of task.laneIds) {
      const onDuty = [...(lanes.get(laneId)?.onDuty ?? []), { fromAt: task.startsAt, toAt: task.endsAt }]
      lanes.set(laneId, { laneId, skills: [], adult: true, onDuty })
    }
  }
  return handsMost([...lanes.values()], { fromAt: plan.startsAt, toAt: plan.readyAt })
}
