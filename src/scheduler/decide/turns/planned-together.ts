/**
 * Where the rest of the crew does not suffice, neighbouring turns are planned anew together with those that fail: all of
 * them must be ready, or nothing is moved.
 */
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import { earlierOf, laterOf } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { Plan } from '../../../domain/plan.ts'
import { type Reason, type ReasonCode, speaksAgainst } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { lowerBoundTicks, solve } from '../../turn/index.ts'
import { bookingReasons } from '../checks/index.ts'
import { standsWhole } from '../operations/stands-whole.ts'
import { underWaySince } from '../operations/under-way.ts'
import { windowOf } from '../operations/window-of.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import {
  type BuiltPart,
  builtInstance,
  lateUntilAt,
  type TurnPart,
  turnPart,
  workFromAt,
} from '../plan/built-instance.ts'
import { eventTasks } from '../plan/event-tasks.ts'
import { heldSpan } from '../plan/held-span.ts'
import { timedPlan } from '../plan/shaped-plan.ts'
import { dueTicks, type Findings, isReadyBy, SEED } from '../plan/turn-search.ts'
import { networkOrUnreachable } from './judge-turn.ts'
import { type JudgedTurns, withBookingReasons } from './judge-turns.ts'
import { judgedFrom } from './judged-from.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'
import { leastMoved } from './least-moved.ts'

/** More crew at another time can mend these; the others are none of the neighbours' doing. */
const mendable: ReadonlySet<ReasonCode> = new Set([
  'skill-missing',
  'crew-demand-short',
  'hands-short',
  'turn-before-too-long',
  'turn-after-too-long',
  'milestone-missed',
  'noise-next-door',
  'another-turn-broken',
])

/** A search over many turns makes longer schedules: so many tasks are placed at most, all schedules together. */
const TASKS_PLACED_MOST = 24_000

/** @returns the judged turns with those planned anew in their places; null: nothing would do it, or nothing is to be done */
export function plannedTogether(
  after: WorldAfter,
  turnsStored: readonly Turn[],
  operations: readonly Operation[],
  judged: JudgedTurns,
  options: JudgeOptions,
): JudgedTurns | null {
  const { world } = after
  const { replanTurnsMost, paidPersonSecondsMost } = world.setup.policy
  const failing = judged.turns.filter((turn) => canBeMended(turn))
  // A cap on what each turn may cost cannot be shared out among several.
  if (failing.length === 0 || replanTurnsMost === 0 || paidPersonSecondsMost !== null) return null
  if (judged.bookingReasons.some(speaksAgainst)) return null
  const neighbours = neighboursOf(after, turnsStored, operations, judged, failing, replanTurnsMost)
  if (neighbours.length === 0) return null
  const members: Member[] = [...failing.map(asMember), ...neighbours]
  const parts = members.map(({ input }) => partOf(input))
  if (!parts.every((part) => part !== null)) return null
  const known = new Set(members.map(({ input }) => input.turnId))
  const judgedIds = new Set(judged.turns.map(({ after: turn }) => turn.id))
  const gone = new Set([
    ...judged.homeTurnsGone.map(({ id }) => id),
    ...after.bookings.filter((c) => c.after.status === 'CANCELLED').map((c) => c.after.turnId),
  ])
  const others = [
    ...turnsStored.filter(({ id }) => !known.has(id) && !judgedIds.has(id) && !gone.has(id)),
    ...judged.turns.map((turn) => turn.after).filter(({ id }) => !known.has(id)),
  ]
  const untilAt = parts.map(({ input }) => lateUntilAt(world, input)).reduce(laterOf)
  const built = builtInstance(world, parts, others, { untilAt })
  const effort = options.workMost ?? world.setup.policy.workMost
  const workMost = Math.max(
    4,
    Math.min(effort, Math.floor(TASKS_PLACED_MOST / built.instance.activities.length)),
  )
  const dues = dueTicks(built)
  // Not even with everybody's hands: then nobody needs to be moved.
  const isExcluded = ({ turn }: BuiltPart) => {
    const { readyTick } = lowerBoundTicks(built.instance, turn)
    return readyTick === null || readyTick > dues[turn]!
  }
  if (built.parts.slice(0, failing.length).some(isExcluded)) return null
  const found = solve(built.instance, { workMost, seed: SEED, acceptableReadyTicks: dues })
  const timed = timedPlan(world, { built, ...found })
  if (!isReadyBy(timed, dues) || timed.schedule === null) return null
  const { schedule, isKept } = leastMoved(
    built,
    members.map(({ plan }) => plan),
    timed.schedule,
  )
  const findings: Findings = { ...timed, schedule }
  const requested = new Set(after.bookings.map((change) => change.after.id))
  const planned = members.flatMap((member, index) => {
    if (isKept[index]) return []
    const { booking, purpose } = member.input
    const found = judgedFrom(world, {
      findings,
      handsAssumed: 0,
      eventsImpossible: [],
      kept: null,
      wasSearched: true,
      part: built.parts[index]!,
      before: member.before,
      side: member.side,
      closedWay: null,
      others,
      // Their times are as they shall be.
      options: { isTrial: true },
    })
    const against = purpose === 'prepare' ? bookingReasons(world, booking) : []
    const turn = withBookingReasons(found, against, requested.has(booking.id))
    return [{ ...turn, reasons: turn.reasons.filter((reason) => isSaid(reason, member)) }]
  })
  const plannedIds = new Map(planned.map((turn) => [turn.after.id, turn]))
  const rest = judged.turns.filter((turn) => !plannedIds.has(turn.after.id))
  return { ...judged, turns: [...planned, ...rest].sort((a, b) => a.input.dueAt - b.input.dueAt) }
}

interface Member {
  readonly input: TurnInput
  readonly before: Turn | null
  readonly side: JudgedTurn['side']
  /** With which it is ready; null: it is not. */
  readonly plan: Plan | null
  readonly wasTight: boolean
}

const asMember = ({ input, before, side, after }: JudgedTurn): Member => ({
  input,
  before,
  side,
  plan: after.status === 'ready' ? after.plan : null,
  wasTight: before?.judgement.verdict === 'tight',
})

/** That a neighbour has little to spare is only said where it had more. */
const isSaid = (reason: Reason, { side, wasTight }: Member): boolean =>
  side !== null || speaksAgainst(reason) || !wasTight

const canBeMended = ({ after, input }: JudgedTurn): boolean =>
  after.status === 'failing' &&
  input.booking.riskAccepted === null &&
  after.judgement.reasons.some(speaksAgainst) &&
  after.judgement.reasons.filter(speaksAgainst).every(({ code }) => mendable.has(code))

/** Ready turns whose time meets that of a failing one, nearest first; not begun, not at risk, judged as things stand. */
function neighboursOf(
  { world, bookings }: WorldAfter,
  turnsStored: readonly Turn[],
  operations: readonly Operation[],
  judged: JudgedTurns,
  failing: readonly JudgedTurn[],
  most: number,
): Member[] {
  // What lies outside is not known to every snapshot that may be decided on, however much this one holds.
  const stored = bookings.flatMap(({ before }) => before ?? [])
  const window = windowOf(operations, stored, world.now)
  const gaps = failing.flatMap(({ input }) => spansLookedAt(world, input))
  const judgedById = new Map(judged.turns.map((turn) => [turn.after.id, turn]))
  const bookingsById = new Map(world.bookings.map((booking) => [booking.id, booking]))
  const candidates = [
    ...judged.turns.map(({ after }) => after),
    ...turnsStored.filter(({ id }) => !judgedById.has(id) && world.turnsById.has(id)),
  ]
    .filter((turn) => turn.status === 'ready' && turn.plan !== null)
    // What counts on hands that nobody has promised would have to do without them.
    .filter(({ judgement }) => judgement.hands.assumed === 0)
    .filter((turn) => underWaySince(turn, world.now) === null)
    .filter((turn) => spanMoved(turn).fromAt >= window.fromAt)
    .filter((turn) => gaps.some((gap) => overlaps(gap, spanMoved(turn))))
  const near = candidates
    .map((turn) => ({ turn, farMs: Math.min(...gaps.map((gap) => Math.abs(turn.dueAt - gap.toAt))) }))
    .sort((a, b) => a.farMs - b.farMs || (a.turn.id < b.turn.id ? -1 : 1))
  const members: Member[] = []
  for (const { turn } of near) {
    if (members.length === most) break
    const known = judgedById.get(turn.id)
    if (known && known.input.booking.riskAccepted === null) members.push(asMember(known))
    const booking = bookingsById.get(turn.bookingId)
    if (known || !booking || booking.riskAccepted !== null) continue
    if (turn.purpose === 'return-home' && booking.doorsAt >= window.toAt) continue
    if (!standsWhole(world, booking, window)) continue
    const input = turn.purpose === 'prepare' ? turnInputOf(world, booking) : homeTurnInputOf(world, booking)
    if (input?.inputHash === turn.inputHash && input.releaseAt === turn.releaseAt)
      members.push({
        input,
        before: turn,
        side: null,
        plan: turn.plan,
        wasTight: turn.judgement.verdict === 'tight',
      })
  }
  return members
}

/** The gap in which the work is done, and when its event itself takes crew or quiet. */
const spansLookedAt = (world: World, input: TurnInput): HalfOpenInterval[] => [
  { fromAt: workFromAt(world, input), toAt: input.dueAt },
  ...eventTasks(input),
]

/** Where its work may be, and where its plan holds anything. */
function spanMoved({ releaseAt, dueAt, plan }: Turn): HalfOpenInterval {
  const held = plan ? heldSpan(plan) : { fromAt: releaseAt, toAt: dueAt }
  return { fromAt: earlierOf(releaseAt, held.fromAt), toAt: laterOf(dueAt, held.toAt) }
}

function partOf(input: TurnInput): TurnPart | null {
  const network = networkOrUnreachable(input)
  return network instanceof Error ? null : turnPart(input, network)
}
