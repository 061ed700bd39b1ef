/** How soon a stored turn is ready by the number of hands, and the fewest that have it ready by given doors. */
import type { CurvePoint, HandsCurve, SkillMix } from '../../domain/hands-curve.ts'
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { workFromAt } from '../decide/plan/built-instance.ts'
import { TICK_SECONDS, type TickSpan } from '../turn/index.ts'
import { type Circumstances, circumstancesOf } from './circumstances.ts'
import type { CrewMember } from './crew-members.ts'
import { curveOfTurn, doorsTickOf } from './curve-of-turn.ts'
import { firstHands, type PlanOfHands, type PointFound } from './curve-points.ts'
import { curveSentences } from './curve-sentences.ts'
import { fewestHands } from './fewest-hands.ts'
import { lanesByHand, withHands } from './hands.ts'
import { instantOf } from './ready.ts'
import { type Search, type Solver, searchWith } from './search.ts'
import { skillMix } from './skill-mix.ts'
import { whyNotReady } from './why-not-ready.ts'

export interface CurveAsked {
  /** 1 to CURVE_HANDS_MOST. */
  readonly handsMost: number
  /** null: those of the turn. */
  readonly doorsAt: Instant | null
}

/**
 * Same snapshot, same answer. Each number of hands is searched with the effort that the policy has for a decision.
 * @param turn  to come, and not under way
 */
export function handsCurve(
  snapshot: SiteSnapshot,
  turn: Turn,
  { handsMost, doorsAt: asked }: CurveAsked,
  solver: Solver,
): HandsCurve {
  const doorsAt = asked ?? turn.dueAt
  const search = searchWith(solver, snapshot.policy.workMost)
  const circumstances = circumstancesOf(snapshot, turn)
  if (circumstances === null) return unreachableCurve(snapshot, turn, handsMost, doorsAt, search)
  const { world, part } = circumstances
  const { crew, window, points } = curveOfTurn(circumstances, turn, { doorsAt, handsMost }, search)
  const found = points.slice(0, handsMost)
  const doorsTick = doorsTickOf(circumstances, doorsAt)
  const slackTicks = Math.ceil(snapshot.policy.slackWantedSeconds / TICK_SECONDS)
  const atAll = fewestHands(circumstances, found, doorsTick)
  const enough = atAll.hands === null ? null : found[atAll.hands - 1]!.onTime
  const curve = {
    turnId: turn.id,
    releaseAt: workFromAt(world, part.input),
    doorsAt,
    crew: crew.length,
    points: found.map((point) => pointAnswer(circumstances, crew, window, point, doorsAt)),
    fewest: { atAll, withSlack: fewestHands(circumstances, found, doorsTick - slackTicks) },
    mix: enough && mixOf(circumstances, window, enough, doorsTick, search),
  }
  return { ...curve, sentences: curveSentences(curve, snapshot.site.zone), work: search.work() }
}

function mixOf(
  circumstances: Circumstances,
  window: TickSpan,
  { hands, readyTick }: PlanOfHands,
  byTick: number,
  search: Search,
): SkillMix {
  const { instance, owners } = withHands(circumstances, hands, window)
  const people = lanesByHand(hands, owners)
  return skillMix(circumstances, instance, people, { byTick, readyTick }, search)
}

function pointAnswer(
  circumstances: Circumstances,
  crew: readonly CrewMember[],
  window: TickSpan,
  { hands, soonest, onTime, boundTick }: PointFound,
  doorsAt: Instant,
): CurvePoint {
  const readyTick = soonest?.readyTick ?? null
  const readyAt = readyTick === null ? null : instantOf(circumstances, readyTick)
  const { people, added } = soonest?.hands ?? { people: [], added: 0 }
  const ofCrew = Math.max(people.length, Math.min(crew.length, hands - added))
  return {
    hands,
    ofCrew,
    added: hands - ofCrew,
    atWork: people.map(({ laneId }) => laneId),
    readyAt,
    slackSeconds: readyAt === null ? null : secondsBetween(readyAt, doorsAt),
    milestonesReached: onTime !== null,
    proof: boundTick === readyTick ? 'bound' : 'none-found',
    why:
      readyAt === null
        ? whyNotReady(circumstances, withHands(circumstances, firstHands(crew, hands), window).instance)
        : null,
  }
}

/** No hands get a device into a state that nothing leads to. */
function unreachableCurve(
  { site }: SiteSnapshot,
  { id: turnId, releaseAt }: Turn,
  handsMost: number,
  doorsAt: Instant,
  search: Search,
): HandsCurve {
  const none = { hands: null, readyAt: null, proof: 'bound' as const }
  const curve = {
    turnId,
    releaseAt,
    doorsAt,
    crew: 0,
    points: Array.from(
      { length: handsMost },
      (_, index): CurvePoint => ({
        hands: index + 1,
        ofCrew: 0,
        added: index + 1,
        atWork: [],
        readyAt: null,
        slackSeconds: null,
        milestonesReached: false,
        proof: 'bound',
        why: { kind: 'state-unreachable' },
      }),
    ),
    fewest: { atAll: none, withSlack: none },
    mix: null,
  }
  return { ...curve, sentences: curveSentences(curve, site.zone), work: search.work() }
}
