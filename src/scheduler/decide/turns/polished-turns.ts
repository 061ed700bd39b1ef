/**
 * Plans gone over at leisure: looked for longer, and made easier to follow. What stands is only replaced by a plan that
 * is better, so nothing that was promised is ever lost.
 */

import type { Booking } from '../../../domain/booking.ts'
import type { TurnId } from '../../../domain/ids.ts'
import { laterOf } from '../../../domain/instant.ts'
import type { Smoothness } from '../../../domain/plan.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Turn } from '../../../domain/turn.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import { isStale, type World } from '../../timeline/world.ts'
import { readyTicksMostFor, type Schedule, scheduleFaults, solve, TICK_SECONDS } from '../../turn/index.ts'
import { bookingReasons } from '../checks/index.ts'
import { nearestYeses } from '../nearest-yes/index.ts'
import { underWaySince } from '../operations/under-way.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import { type BuiltInstance, builtInstance, turnPart, workUntilAt } from '../plan/built-instance.ts'
import { readyTickOf, scheduleOf } from '../plan/plan-of.ts'
import { isJustInTime, type ShapedFindings, steadyPlan, timedPlan } from '../plan/shaped-plan.ts'
import { dueTicks, type Findings, isReadyBy, SEED } from '../plan/turn-search.ts'
import { judgeTurn, networkOrUnreachable } from './judge-turn.ts'
import { type JudgedTurns, withBookingReasons } from './judge-turns.ts'
import { judgedFrom } from './judged-from.ts'
import type { JudgedTurn } from './judged-turn.ts'
import { workedTicks, workOf } from './turn-judgement.ts'

/** So many times the effort of a decision. */
const EFFORT_TIMES = 4
/** Schedules tried for a steadier plan. */
const STEADY_WORK_MOST = 60

export function polishedTurns(
  snapshot: SiteSnapshot,
  { world }: WorldAfter,
  turnIds: readonly TurnId[],
): JudgedTurns {
  const bookingsById = new Map(world.bookings.map((booking) => [booking.id, booking]))
  const judged: JudgedTurn[] = []
  for (const turnId of turnIds) {
    const turn = world.turnsById.get(turnId)
    const booking = turn && bookingsById.get(turn.bookingId)
    if (!turn || !booking || underWaySince(turn, world.now) !== null || turn.dueAt <= world.now) continue
    const others = [
      ...snapshot.turns.filter(({ id }) => id !== turnId && !judged.some(({ after }) => after.id === id)),
      ...judged.map(({ after }) => after),
    ]
    const input = inputOf(world, turn, booking)
    // What has changed under it is judged anew by others, and polished after.
    if (!input || input.inputHash !== turn.inputHash || isStale(world, turn.dueAt)) continue
    // What the booking cannot be there with is said as before: that is not the plan's doing.
    const against = input.purpose === 'prepare' ? bookingReasons(world, booking) : []
    const gone = withBookingReasons(polished(world, input, turn, others), against, true)
    judged.push(withWaysOut(snapshot, booking, gone))
  }
  return { turns: judged, homeTurnsGone: [], bookingReasons: [], restFromAt: null }
}

/** Where it still fails: what would be a yes, if the booking were asked for as it is. */
function withWaysOut(snapshot: SiteSnapshot, booking: Booking, judged: JudgedTurn): JudgedTurn {
  if (judged.after.status !== 'failing' || judged.input.purpose !== 'prepare') return judged
  const asked = { ...booking, version: booking.version + 1 }
  const waysOut = nearestYeses(snapshot, [{ kind: 'change', booking: asked }], judged.after.judgement.reasons)
  return { ...judged, after: { ...judged.after, judgement: { ...judged.after.judgement, waysOut } } }
}

const inputOf = (world: World, turn: Turn, booking: Booking): TurnInput | null =>
  turn.purpose === 'prepare' ? turnInputOf(world, booking) : homeTurnInputOf(world, booking)

function polished(world: World, input: TurnInput, turn: Turn, others: readonly Turn[]): JudgedTurn {
  const workMost = world.setup.policy.workMost * EFFORT_TIMES
  const seen = (judged: JudgedTurn): JudgedTurn => ({
    ...judged,
    after: {
      ...judged.after,
      judgement: { ...judged.after.judgement, polishedAt: laterOf(world.now, turn.judgement.judgedAt) },
    },
  })
  const network = networkOrUnreachable(input)
  const isBare = turn.status !== 'ready' || turn.judgement.hands.assumed > 0 || turn.plan === null
  if (isBare || network instanceof Error) {
    return seen(judgeTurn(world, input, turn, null, others, { workMost }))
  }
  const built = builtInstance(world, [turnPart(input, network)], others, {
    untilAt: workUntilAt(world, input),
  })
  const stored = turn.plan && scheduleOf(built, [turn.plan])
  const found = solve(built.instance, { workMost, seed: SEED })
  const best = bestOf(world, built, turn, stored, { built, ...found })
  if (best === null) return seen(judgeTurn(world, input, turn, null, others, {}))
  return seen(
    judgedFrom(world, {
      findings: best,
      handsAssumed: 0,
      eventsImpossible: [],
      kept: best.schedule === stored ? turn.plan : null,
      wasSearched: true,
      part: built.parts[0]!,
      before: turn,
      side: null,
      closedWay: null,
      options: { isTrial: true },
      ...(best.smoothness ? { smoothness: best.smoothness } : {}),
    }),
  )
}

/**
 * Among plans that are ready nearly as soon as the best one, the one that is easiest to follow.
 * @returns the stored one where no other is better; null: the stored plan does not hold any more
 */
function bestOf(
  world: World,
  built: BuiltInstance,
  { plan }: Turn,
  stored: Schedule | null,
  found: Findings,
): ShapedFindings | null {
  const [part] = built.parts
  if (!stored || !plan || !part) return null
  const asStored = { ...found, schedule: stored }
  const dues = dueTicks(built)
  if (!isReadyBy(asStored, dues) || scheduleFaults(built.instance, stored).length > 0) return null
  const isFound = isReadyBy(found, dues)
  const storedTick = readyTickOf(built, part, stored)
  const foundTick = isFound && found.schedule ? readyTickOf(built, part, found.schedule) : storedTick
  // What is as late as it can be would come back early from a search.
  const isLate = isJustInTime(world, built)
  // A steady plan that stands is later already than the soonest that was known.
  const priceTicks = isLate ? 0 : (plan.smoothness?.priceSeconds ?? 0) / TICK_SECONDS
  const soonestTick = Math.min(storedTick - priceTicks, foundTick)
  // A night between clear and the first task is no part of what a turn takes.
  const workTicks = workedTicks(workOf(part, stored.activities))
  const most = dues.map((due, turn) =>
    turn === part.turn ? Math.min(due, readyTicksMostFor(soonestTick, soonestTick - workTicks)) : due,
  )
  const priced = (one: ShapedFindings): ShapedFindings => {
    if (isLate || !one.smoothness || !one.schedule) return one
    const laterTicks = Math.max(0, readyTickOf(built, part, one.schedule) - soonestTick)
    return { ...one, smoothness: { ...one.smoothness, priceSeconds: laterTicks * TICK_SECONDS } }
  }
  const candidates = [found, asStored]
    .filter((one) => isReadyBy(one, dues))
    .map((one) => (one === asStored && isLate ? steadyPlan(one, 0, most) : steadyInTime(world, one, most)))
    // One that was late in the first place is no better for being steady.
    .filter((one) => isLate || isReadyBy(one, most))
    .map(priced)
  const kept: ShapedFindings = plan.smoothness ? { ...asStored, smoothness: plan.smoothness } : asStored
  const isSoonEnough = isLate || storedTick <= most[part.turn]!
  const start = isSoonEnough ? kept : null
  return candidates.reduce<ShapedFindings | null>(
    (best, one) => (best === null || isEasier(one.smoothness, best.smoothness) ? one : best),
    start,
  )
}

/** Made steady, then moved to when the policy wants it; the price is what steadiness cost. */
function steadyInTime(world: World, findings: Findings, most: readonly number[]): ShapedFindings {
  const steady = steadyPlan(findings, STEADY_WORK_MOST, most)
  const timed = timedPlan(world, steady)
  if (timed.schedule === steady.schedule || !steady.smoothness) return steady
  const again = steadyPlan(timed, 0, timed.schedule?.readyTicks ?? [])
  const { priceSeconds } = steady.smoothness
  return again.smoothness ? { ...again, smoothness: { ...again.smoothness, priceSeconds } } : again
}

const isEasier = (one: Smoothness | undefined, other: Smoothness | undefined): boolean => {
  if (!one) return false
  if (!other) return true
  return orderOf(one) < orderOf(other)
}

/** As carried plans are compared: first that nobody has too many stretches, then changes, then partings. */
const orderOf = ({ changes, stintsMost, partings }: Smoothness): number =>
  Math.max(0, stintsMost - 5) * 1e8 + changes * 1e4 + partings
