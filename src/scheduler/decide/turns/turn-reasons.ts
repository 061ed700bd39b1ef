/** What speaks against a turn as it was found, in numbers. */
import { type Instant, secondsBetween } from '../../../domain/instant.ts'
import {
  type Reason,
  type ReasonCode,
  reasonCodes,
  speaksAgainst,
  type TurnLacks,
  type TurnSide,
} from '../../../domain/reason.ts'
import type { World } from '../../timeline/world.ts'
import type { BuiltInstance, BuiltPart } from '../plan/built-instance.ts'
import { isAssumed } from '../plan/lanes-for.ts'
import { TICK_MS } from '../plan/tick-grid.ts'
import { proofOf, readyAtOf } from '../plan/turn-search.ts'
import { eventReasons } from './event-reasons.ts'
import type { FoundPart } from './found-part.ts'
import { lateReasons } from './late-reasons.ts'
import { seenFromBefore } from './seen-from-before.ts'

/** What speaks against the turn, told from the booking it prepares: so it is stored, whoever asked. */
export function ownReasons(world: World, found: FoundPart): Reason[] {
  const readyAt = readyAtOf(found.findings, found.part)
  const isReady = readyAt !== null && readyAt <= found.part.input.dueAt
  return [
    ...(isReady ? [] : lateReasons(world, found, readyAt)),
    ...eventReasons(world, found),
    ...(isReady ? milestoneReasons(found) : []),
    ...(isReady ? tightReasons(world, found, readyAt) : []),
  ]
}

function milestoneReasons({ findings, part }: FoundPart): Reason[] {
  const { built, schedule } = findings
  if (schedule === null) return []
  return part.milestones.flatMap(({ turn, milestone, byAt }): Reason[] => {
    const reachedAt = (built.originAt + schedule.readyTicks[turn]! * TICK_MS) as Instant
    if (schedule.readyTicks[turn]! <= built.instance.turns[turn]!.dueTick) return []
    const { turnId } = part.input
    const proof = proofOf(findings, turn)
    const missed = { turnId, side: 'before' as const, milestone, byAt, reachedAt, proof, bookingId: null }
    return [{ code: 'milestone-missed', ...missed }]
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
  const lacks = lacksOf(own)
  return [
    { code: 'another-turn-broken', turnId, bookingId: booking.id, doorsAt: dueAt, readyAt, proof, lacks },
  ]
}

const lackByCode: Readonly<Partial<Record<ReasonCode, TurnLacks>>> = {
  'way-closed': 'way',
  'tool-missing': 'tool',
  'skill-missing': 'skill',
  'crew-demand-short': 'event-crew',
  'paid-hours-short': 'paid-hours',
  'hands-short': 'hands',
  'turn-before-too-long': 'time',
  'milestone-missed': 'milestone',
  'noise-next-door': 'quiet',
}

/** What is missing there first of all. */
const lacksOf = (own: readonly Reason[]): TurnLacks | null => {
  const [first] = own
    .filter(speaksAgainst)
    .sort((a, b) => reasonCodes.indexOf(a.code) - reasonCodes.indexOf(b.code))
  return (first && lackByCode[first.code]) ?? null
}
