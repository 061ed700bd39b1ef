/** What speaks against a turn as it was found, in numbers. */
import type { Closure } from '../../../domain/closure.ts'
import { ToolId, type TurnId } from '../../../domain/ids.ts'
import { type Instant, secondsBetween } from '../../../domain/instant.ts'
import { type Reason, speaksAgainst, type TurnSide } from '../../../domain/reason.ts'
import type { TaskNetwork } from '../../../domain/task.ts'
import type { World } from '../../timeline/world.ts'
import { lowerBoundTicks } from '../../turn/index.ts'
import { type BuiltInstance, type BuiltPart, workFromAt } from '../plan/built-instance.ts'
import { isAssumed } from '../plan/lanes-for.ts'
import { TICK_MS } from '../plan/tick-grid.ts'
import { proofOf, readyAtOf, SEED } from '../plan/turn-search.ts'
import type { FoundPart } from './found-part.ts'
import { handsThatWouldDo } from './hands-that-would-do.ts'
import { seenFromBefore } from './seen-from-before.ts'
import { numbersOf } from './turn-judgement.ts'

/** What speaks against the turn, told from the booking it prepares: so it is stored, whoever asked. */
export function ownReasons(world: World, found: FoundPart): Reason[] {
  const readyAt = readyAtOf(found.findings, found.part)
  const isReady = readyAt !== null && readyAt <= found.part.input.dueAt
  return [
    ...(isReady ? [] : lateReasons(world, found, readyAt)),
    ...eventReasons(found),
    ...(isReady ? milestoneReasons(found) : []),
    ...(isReady ? tightReasons(world, found, readyAt) : []),
  ]
}

/** Not ready by doors: because something is not there, or somebody, or because there is not the time. */
function lateReasons(world: World, found: FoundPart, readyAt: Instant | null): Reason[] {
  const { findings, part, closedWay, options } = found
  const { built } = findings
  const { turnId, dueAt, toLayoutId } = part.input
  const side: TurnSide = 'before'
  const reasons: Reason[] = [...wayReasons(closedWay, turnId), ...toolReasons(part.network, turnId)]
  // Somebody who hears that a store is closed must not be sent to find more hands.
  if (reasons.length > 0) return reasons
  const numbers = numbersOf(world, findings, part)
  const proof = proofOf(findings, part.turn)
  const skill = skillMissing(built, part)
  if (skill !== null) {
    const window = { fromAt: workFromAt(world, part.input), toAt: dueAt }
    reasons.push({ code: 'skill-missing', turnId, side, skill, ...window, proof: 'bound' })
  }
  const common = {
    turnId,
    side,
    toLayoutId,
    neededSeconds: numbers.neededSeconds,
    availableSeconds: numbers.staffedWindowSeconds,
    shortSeconds: readyAt === null ? null : secondsBetween(dueAt, readyAt),
    readyAt,
    doorsAt: dueAt,
    handsOnDuty: numbers.hands.onDuty,
  }
  const more = options.isTrial
    ? { handsNeeded: null, handsTried: numbers.hands.onDuty, proof }
    : handsThatWouldDo(built, part, numbers.hands.onDuty, world.setup.policy.workMost, SEED)
  if (more.handsNeeded !== null) {
    reasons.push({ code: 'hands-short', ...common, proof, handsNeeded: more.handsNeeded })
  } else {
    const code = 'turn-before-too-long'
    reasons.push({ code, ...common, proof: more.proof, handsTried: more.handsTried })
  }
  return reasons
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

const wayReasons = (closure: Closure | null, turnId: TurnId): Reason[] =>
  closure === null
    ? []
    : [
        {
          code: 'way-closed',
          turnId,
          side: 'before',
          closureId: closure.id,
          storagePlaceIds: closure.storagePlaceIds,
          passageIds: closure.passageIds,
          fromAt: closure.fromAt,
          toAt: closure.toAt,
          why: closure.reason,
        },
      ]

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

/** What the event itself asks for and cannot have at its time. */
function eventReasons({ eventsImpossible, part }: FoundPart): Reason[] {
  const bookingId = part.input.booking.id
  return eventsImpossible.map(({ demand, fromAt, toAt }): Reason => {
    if (demand === null) return { code: 'noise-next-door', bookingId, fromAt, toAt }
    const { what, hands, skill } = demand
    return { code: 'crew-demand-short', bookingId, what, fromAt, toAt, handsNeeded: hands, skill }
  })
}

function milestoneReasons({ findings, part }: FoundPart): Reason[] {
  const { built, schedule } = findings
  if (schedule === null) return []
  return part.milestones.flatMap(({ turn, milestone, byAt }): Reason[] => {
    const reachedAt = (built.originAt + schedule.readyTicks[turn]! * TICK_MS) as Instant
    if (schedule.readyTicks[turn]! <= built.instance.turns[turn]!.dueTick) return []
    const { turnId } = part.input
    const proof = proofOf(findings, turn)
    return [{ code: 'milestone-missed', turnId, side: 'before', milestone, byAt, reachedAt, proof }]
  })
}

function tightReasons(world: World, { findings, part }: FoundPart, readyAt: Instant): Reason[] {
  const { turnId, dueAt } = part.input
  const slackSeconds = secondsBetween(readyAt, dueAt)
  const { slackWantedSeconds } = world.setup.policy
  const slack: Reason[] =
    slackSeconds >= slackWantedSeconds
      ? []
      : [{ code: 'slack-under-policy', turnId, side: 'before', slackSeconds, slackWantedSeconds }]
  return [...slack, ...assumedReasons(findings.built, findings.schedule, part)]
}

function assumedReasons(
  { lanes, originAt }: BuiltInstance,
  schedule: FoundPart['findings']['schedule'],
  { firstActivity, network, input }: BuiltPart,
): Reason[] {
  const own = schedule?.activities.slice(firstActivity, firstActivity + network.tasks.length) ?? []
  const assumed = own.flatMap((one) =>
    one.lanes
      .map((lane) => ({ laneId: lanes[lane]!.laneId, from: one.startTick, to: one.endTick }))
      .filter(({ laneId }) => isAssumed(laneId)),
  )
  if (assumed.length === 0) return []
  const at = (tick: number) => (originAt + tick * TICK_MS) as Instant
  return [
    {
      code: 'hands-assumed',
      turnId: input.turnId,
      side: 'before',
      handsAssumed: new Set(assumed.map(({ laneId }) => laneId)).size,
      fromAt: at(Math.min(...assumed.map(({ from }) => from))),
      toAt: at(Math.max(...assumed.map(({ to }) => to))),
    },
  ]
}

/** The same, told from the request: its own turn, the one after it, or one that is neither. @param own  at least one */
export function reasonsSeenFrom(
  side: TurnSide | null,
  own: readonly Reason[],
  { findings, part }: FoundPart,
): Reason[] {
  if (side === 'before') return [...own]
  if (side === 'after') return own.map(seenFromBefore)
  if (!own.some(speaksAgainst)) return [...own]
  const { turnId, booking, dueAt } = part.input
  const readyAt = readyAtOf(findings, part)
  const proof = proofOf(findings, part.turn)
  return [{ code: 'another-turn-broken', turnId, bookingId: booking.id, doorsAt: dueAt, readyAt, proof }]
}

/** The skill of the mask that is not just being an adult, or one of the crew, if there is one. */
function skillNamed(built: BuiltInstance, mask: number): string {
  const names = built.skills.filter((_, bit) => (mask & (1 << bit)) !== 0)
  return names.find((name) => name !== 'adult' && name !== 'crew') ?? 'adult'
}
