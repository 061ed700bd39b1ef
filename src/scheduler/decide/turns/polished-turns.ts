/**
 * Plans gone over at leisure: looked for longer, and made easier to follow. What stands is only replaced by a plan that
 * is better, so nothing that was promised is ever lost.
 */

import type { Booking } from '../../../domain/booking.ts'
import type { TurnId } from '../../../domain/ids.ts'
import { laterOf } from '../../../domain/instant.ts'
import type { Plan } from '../../../domain/plan.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Turn } from '../../../domain/turn.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import { isStale, type World } from '../../timeline/world.ts'
import {
  isCalmer,
  readyTicksMostFor,
  type Schedule,
  scheduleFaults,
  solve,
  TICK_SECONDS,
} from '../../turn/index.ts'
import { bookingReasons } from '../checks/index.ts'
import { nearestYeses } from '../nearest-yes/index.ts'
import { underWaySince } from '../operations/under-way.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import {
  type BuiltInstance,
  builtInstance,
  spanLookedAt,
  turnPart,
  workUntilAt,
} from '../plan/built-instance.ts'
import { readyTickOf, scheduleOf } from '../plan/plan-of.ts'
import { isJustInTime, steadyPlan, timedPlan } from '../plan/shaped-plan.ts'
import { StandingTurns } from '../plan/standing-turns.ts'
import { smoothnessOf } from '../plan/stints-of.ts'
import { dueTicks, type Findings, isReadyBy, SEED } from '../plan/turn-search.ts'
import { judgeTurn, networkOrUnreachable } from './judge-turn.ts'
import { type JudgedTurns, withBookingReasons } from './judge-turns.ts'
import { judgedFrom } from './judged-from.ts'
import type { JudgedTurn } from './judged-turn.ts'
import { workedTicks, workOf } from './turn-judgement.ts'

/** So many times the effort of a decision. */
const EFFORT_TIMES = 4
/** Rounds of search for a steadier plan. */
const STEADY_ROUNDS = 4

export function polishedTurns(
  snapshot: SiteSnapshot,
  { world }: WorldAfter,
  turnIds: readonly TurnId[],
): JudgedTurns {
  const bookingsById = new Map(world.bookings.map((booking) => [booking.id, booking]))
  const judged: JudgedTurn[] = []
  const standing = new StandingTurns(snapshot.turns)
  for (const turnId of turnIds) {
    const turn = world.turnsById.get(turnId)
    const booking = turn && bookingsById.get(turn.bookingId)
    if (!turn || !booking || underWaySince(turn, world.now) !== null || turn.dueAt <= world.now) continue
    const input = inputOf(world, turn, booking)
    // What has changed under it is judged anew by others, and polished after.
    if (!input || input.inputHash !== turn.inputHash || isStale(world, turn.dueAt)) continue
    // What the booking cannot be there with is said as before: that is not the plan's doing.
    const against = input.purpose === 'prepare' ? bookingReasons(world, booking) : []
    standing.remove(turnId)
    const others = standing.during(spanLookedAt(world, input))
    const gone = withBookingReasons(polished(world, input, turn, others), against, true)
    judged.push(withWaysOut(snapshot, booking, gone))
    standing.put(gone.after)
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
      kept: turn.plan && best.schedule === stored ? goneOver(turn.plan, best.priceSeconds) : null,
      wasSearched: true,
      part: built.parts[0]!,
      before: turn,
      side: null,
      closedWay: null,
      others,
      options: { isTrial: true },
      priceSeconds: best.priceSeconds,
    }),
  )
}

interface Priced extends Findings {
  readonly schedule: Schedule
  readonly priceSeconds: number
}

const goneOver = (plan: Plan, priceSeconds: number): Plan => ({
  ...plan,
  smoothness: smoothnessOf(plan.tasks, priceSeconds),
})

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
): Priced | null {
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
  // A steady plan that stands is later already than the soonest that was known; null: it was never gone over.
  const priceBefore = plan.smoothness?.priceSeconds ?? null
  const priceTicks = isLate ? 0 : (priceBefore ?? 0) / TICK_SECONDS
  const soonestTick = Math.min(storedTick - priceTicks, foundTick)
  // A night between clear and the first task is no part of what a turn takes, nor is what a steady plan takes longer.
  const workTicks = workedTicks(workOf(part, stored.activities)) - (storedTick - soonestTick)
  // Ease of following is not bought with time to spare that is wanted.
  const spareTicks = Math.ceil(world.setup.policy.slackWantedSeconds / TICK_SECONDS)
  const most = dues.map((due, turn) =>
    turn === part.turn
      ? Math.min(
          readyTicksMostFor(soonestTick, soonestTick - workTicks),
          Math.max(soonestTick, due - spareTicks),
        )
      : due,
  )
  const priced = (one: Findings): Priced[] => {
    if (!one.schedule) return []
    const laterTicks = isLate ? 0 : Math.max(0, readyTickOf(built, part, one.schedule) - soonestTick)
    return [{ ...one, schedule: one.schedule, priceSeconds: laterTicks * TICK_SECONDS }]
  }
  // What was gone over is not searched again: one small thing more would be found each time.
  const isStoredSettled = isLate || isFound || priceBefore !== null
  const candidates = [found, asStored]
    .filter((one) => isReadyBy(one, dues))
    .map((one) =>
      one === asStored && isStoredSettled ? steadyPlan(one, 0, most) : steadyInTime(world, one, most),
    )
    // One that was late in the first place is no better for being steady.
    .filter((one) => isLate || isReadyBy(one, most))
  const isSoonEnough = isLate || storedTick <= most[part.turn]!
  return [...(isSoonEnough ? [asStored] : []), ...candidates]
    .flatMap(priced)
    .reduce<Priced | null>(
      (best, one) => (best && !isCalmer(built.instance, one.schedule, best.schedule) ? best : one),
      null,
    )
}

/** Made steady, then moved to when the policy wants it. */
function steadyInTime(world: World, findings: Findings, most: readonly number[]): Findings {
  const steady = steadyPlan(findings, STEADY_ROUNDS, most)
  const timed = timedPlan(world, steady)
  return timed.schedule === steady.schedule ? steady : steadyPlan(timed, 0, timed.schedule?.readyTicks ?? [])
}
