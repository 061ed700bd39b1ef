/** One turn: is it ready by doors with the hands that are left? The answer carries the plan, or says what is short. */
import type { Closure } from '../../domain/closure.ts'
import { overlaps } from '../../domain/half-open-interval.ts'
import { laterOf } from '../../domain/instant.ts'
import type { TurnSide } from '../../domain/reason.ts'
import type { TaskNetwork } from '../../domain/task.ts'
import type { Turn, TurnStatus } from '../../domain/turn.ts'
import { type LaneOnDuty, lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import { lowerBoundTicks, scheduleFaults } from '../turn/index.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'
import { rememberedNetwork } from './remembered-network.ts'
import {
  type BuiltInstance,
  builtInstance,
  planOf,
  planSpan,
  scheduleOf,
  workFromAt,
} from './turn-instance.ts'
import { judgementOf } from './turn-judgement.ts'
import { ownReasons, reasonsSeenFrom } from './turn-reasons.ts'
import { acceptableAtOnce, type Findings, readyOrLate } from './turn-search.ts'

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
  const closedWay = isReady || options.isTrial ? null : wayThatBinds(world, input, network, lanes, others)
  const own = ownReasons(world, input, findings, closedWay, options)
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

/** The first closure of a store or passage in the gap, when the turn would be ready if all of them were open. */
function wayThatBinds(
  world: World,
  input: TurnInput,
  network: TaskNetwork,
  lanes: readonly LaneOnDuty[],
  others: readonly Turn[],
): Closure | null {
  const span = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const ofWays = world.closures.filter(
    (closure) => closure.storagePlaceIds.length + closure.passageIds.length > 0 && overlaps(closure, span),
  )
  const [first] = ofWays
  if (!first) return null
  const open = { ...world, closures: world.closures.filter((closure) => !ofWays.includes(closure)) }
  const untilAt = laterOf(input.dueAt, workFromAt(world, input))
  const { schedule } = readyOrLate(open, builtInstance(open, input, network, lanes, others, untilAt))
  return schedule === null ? null : first
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
