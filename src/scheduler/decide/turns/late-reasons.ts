/** Why a turn is not ready by doors: because something is not there, or somebody, or because there is not the time. */
import type { Closure } from '../../../domain/closure.ts'
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import { ToolId, type TurnId } from '../../../domain/ids.ts'
import {
  earlierOf,
  type Instant,
  instantPlusSeconds,
  laterOf,
  secondsBetween,
} from '../../../domain/instant.ts'
import type { Reason, TurnSide } from '../../../domain/reason.ts'
import type { TaskNetwork } from '../../../domain/task.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { lowerBoundTicks, TICK_SECONDS } from '../../turn/index.ts'
import { type BuiltInstance, type BuiltPart, workFromAt } from '../plan/built-instance.ts'
import { isAssumed } from '../plan/lanes-for.ts'
import { proofOf, SEED } from '../plan/turn-search.ts'
import type { FoundPart } from './found-part.ts'
import { type HandsHeld, handsHeld } from './hands-held.ts'
import { handsThatWouldDo } from './hands-that-would-do.ts'
import { heldBack } from './held-back.ts'
import { isCapped, paidHoursNeeded } from './paid-hours-short.ts'
import { numbersOf, workOf } from './turn-judgement.ts'

/** In order of precedence; told from the booking that the turn prepares. */
export function lateReasons(world: World, found: FoundPart, readyAt: Instant | null): Reason[] {
  const { findings, part, closedWay, options } = found
  const { built } = findings
  const { input } = part
  const { turnId, dueAt } = input
  const side: TurnSide = 'before'
  const reasons: Reason[] = [
    ...wayReasons(world, closedWay, input, readyAt),
    ...toolReasons(part.network, turnId),
  ]
  // Somebody who hears that a store is closed must not be sent to find more hands.
  if (reasons.length > 0) return reasons
  const skill = input.overrunsUntilAt === null ? skillMissing(built, part) : null
  if (skill !== null) {
    const window = { fromAt: workFromAt(world, input), toAt: dueAt }
    reasons.push({ code: 'skill-missing', turnId, side, skill, ...window, proof: 'bound' })
  }
  const common = turnNumbers(world, found, readyAt)
  const { workMost, paidPersonSecondsMost } = world.setup.policy
  const onDuty = common.handsOnDuty
  const paid = options.isTrial || skill !== null ? null : paidHoursNeeded(built, part, workMost, SEED)
  const more = options.isTrial
    ? { handsNeeded: null, handsTried: onDuty, proof: common.proof }
    : handsThatWouldDo(world, built, part, onDuty, SEED)
  if (paid !== null && paidPersonSecondsMost !== null) {
    const unpaidHandsNeeded = more.handsNeeded === null ? null : more.handsNeeded - onDuty
    const paidSecondsMost = paidPersonSecondsMost
    reasons.push({ code: 'paid-hours-short', ...common, paidSecondsMost, ...paid, unpaidHandsNeeded })
  } else if (more.handsNeeded !== null) {
    const unpaid = isCapped(built.instance)
    reasons.push({ code: 'hands-short', ...common, handsNeeded: more.handsNeeded, unpaid })
  } else {
    const code = 'turn-before-too-long'
    reasons.push({ code, ...common, proof: more.proof, handsTried: more.handsTried })
  }
  return reasons
}

/** What is said of any turn that there is not the time for. */
function turnNumbers(world: World, found: FoundPart, readyAt: Instant | null) {
  const { findings, part, others, options } = found
  const { input } = part
  const { lanes } = findings.built
  const numbers = numbersOf(world, findings, part)
  const window = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const crew = lanes.filter(({ laneId, crew }) => crew && !isAssumed(laneId))
  const side: TurnSide = 'before'
  const back = options.isTrial || input.overrunsUntilAt !== null ? [] : heldBack(world, part, others)
  return {
    turnId: input.turnId,
    side,
    toLayoutId: input.toLayoutId,
    neededSeconds: numbers.neededSeconds,
    availableSeconds: numbers.staffedWindowSeconds,
    shortSeconds: readyAt === null ? null : secondsBetween(input.dueAt, readyAt),
    readyAt,
    doorsAt: input.dueAt,
    handsOnDuty: numbers.hands.onDuty,
    // Where it is something else that holds it back, all hands could be there and it would be no better.
    ...(back.length > 0 ? NO_HANDS_HELD : handsHeld(others, crew, timeInQuestion(world, found, window))),
    heldBack: back,
    helpers: lanes.filter((lane) => !lane.crew && lane.onDuty.some((duty) => overlaps(duty, window))).length,
    guestsOutAt: input.overrunsUntilAt,
    proof: proofOf(findings, part.turn),
  }
}

const NO_HANDS_HELD: HandsHeld = { handsHeld: 0, heldFor: [] }

/** Hands that were free again long before the work of the best plan begins are not what it waits for. */
function timeInQuestion(
  world: World,
  { findings, part }: FoundPart,
  window: HalfOpenInterval,
): HalfOpenInterval {
  const { schedule, built } = findings
  const work = schedule === null ? [] : workOf(part, schedule.activities)
  if (work.length === 0) return window
  const firstTick = Math.min(...work.map(({ startTick }) => startTick))
  const beganAt = instantPlusSeconds(built.originAt, firstTick * TICK_SECONDS)
  // Whoever comes from another room was held there until they left.
  const leftAt = instantPlusSeconds(beganAt, -world.setup.policy.walkBetweenRoomsSeconds - TICK_SECONDS)
  return { fromAt: laterOf(window.fromAt, leftAt), toAt: window.toAt }
}

/** Asked of the time before doors alone: somebody who comes later is no help. null: no skill is missing. */
function skillMissing(built: BuiltInstance, { turn, firstActivity, network }: BuiltPart): string | null {
  const { instance } = built
  const horizonTick = Math.max(0, instance.turns[turn]!.dueTick)
  const isOwn = (index: number) => index >= firstActivity && index < firstActivity + network.tasks.length
  // What the event itself takes may lie behind doors.
  const activities = instance.activities.map((activity, index) =>
    isOwn(index) && activity.pinned === true ? { ...activity, pinned: false, modes: UNATTENDED } : activity,
  )
  const { impossible } = lowerBoundTicks({ ...instance, activities, horizonTick }, turn)
  return impossible?.kind === 'skill' ? skillNamed(built, impossible.skillMask) : null
}

const UNATTENDED = [{ durationTicks: 1, hands: [], uses: [] }]

function wayReasons(
  world: World,
  closure: Closure | null,
  input: TurnInput,
  readyAt: Instant | null,
): Reason[] {
  if (closure === null) return []
  const { turnId, dueAt } = input
  const closedFrom = laterOf(closure.fromAt, workFromAt(world, input))
  const { storagePlaceIds, passageIds, fromAt, toAt } = closure
  return [
    {
      code: 'way-closed',
      turnId,
      side: 'before',
      closureId: closure.id,
      storagePlaceIds,
      passageIds,
      fromAt,
      toAt,
      why: closure.reason,
      closedSeconds: Math.max(0, secondsBetween(closedFrom, earlierOf(toAt, dueAt))),
      doorsAt: dueAt,
      readyAt,
    },
  ]
}

/** A tool that tasks hold and of which there is none: no plan can be made. */
function toolReasons({ tasks, resources }: TaskNetwork, turnId: TurnId): Reason[] {
  const used = new Set(tasks.flatMap(({ uses }) => uses.map(({ resource }) => resource)))
  return resources
    .filter(({ key, capacity }) => capacity === 0 && used.has(key) && key.startsWith('tool:'))
    .map(({ key }) => ({
      code: 'tool-missing',
      turnId,
      side: 'before',
      toolId: ToolId.parse(key.slice('tool:'.length)),
    }))
}

/** The skill of the mask that is not just being an adult, or one of the crew, if there is one. */
function skillNamed(built: BuiltInstance, mask: number): string {
  const names = built.skills.filter((_, bit) => (mask & (1 << bit)) !== 0)
  return names.find((name) => name !== 'adult' && name !== 'crew') ?? 'adult'
}
