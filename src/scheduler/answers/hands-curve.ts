/** How soon a stored turn is ready by the number of hands, and the fewest that have it ready by given doors. */
import {
  CURVE_HANDS_MOST,
  type CurvePoint,
  type HandsCurve,
  type SkillMix,
} from '../../domain/hands-curve.ts'
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { workFromAt } from '../decide/plan/built-instance.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import { TICK_SECONDS } from '../turn/index.ts'
import { type Circumstances, circumstancesOf } from './circumstances.ts'
import { curvePoints, type PointFound } from './curve-points.ts'
import { curveSentences } from './curve-sentences.ts'
import { fewestHands } from './fewest-hands.ts'
import { type CrewMember, crewInOrder, instanceWithHands, peopleIn } from './hands-in-order.ts'
import { instantOf } from './ready.ts'
import { type Search, type Solver, searchWith } from './search.ts'
import { skillMix } from './skill-mix.ts'
import { standingSchedule } from './standing-schedule.ts'
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
  const { built, world, part } = circumstances
  const crew = crewInOrder(circumstances)
  const standing = standingSchedule(circumstances, turn)
  const to = Math.min(handsMost, CURVE_HANDS_MOST)
  const found = curvePoints(circumstances, standing, crew, search, { from: 1, to })
  const doorsTick = Math.floor((doorsAt - built.originAt) / TICK_MS)
  const slackTicks = Math.ceil(snapshot.policy.slackWantedSeconds / TICK_SECONDS)
  const atAll = fewestHands(circumstances, crew, found, doorsTick)
  const curve = {
    turnId: turn.id,
    releaseAt: workFromAt(world, part.input),
    doorsAt,
    crew: crew.length,
    points: found.map((point) => pointAnswer(circumstances, crew, point, doorsAt)),
    fewest: { atAll, withSlack: fewestHands(circumstances, crew, found, doorsTick - slackTicks) },
    mix: atAll.hands === null ? null : mixOf(circumstances, crew, atAll.hands, doorsTick, search),
  }
  return { ...curve, sentences: curveSentences(curve, snapshot.site.zone), work: search.work() }
}

function mixOf(
  circumstances: Circumstances,
  crew: readonly CrewMember[],
  hands: number,
  byTick: number,
  search: Search,
): SkillMix {
  const instance = instanceWithHands(circumstances, crew, hands)
  return skillMix(circumstances, instance, peopleIn(circumstances, crew, hands), byTick, search)
}

function pointAnswer(
  circumstances: Circumstances,
  crew: readonly CrewMember[],
  { hands, readyTick, onTimeTick, boundTick }: PointFound,
  doorsAt: Instant,
): CurvePoint {
  const readyAt = readyTick === null ? null : instantOf(circumstances, readyTick)
  const ofCrew = Math.min(hands, crew.length)
  return {
    hands,
    ofCrew,
    added: hands - ofCrew,
    readyAt,
    slackSeconds: readyAt === null ? null : secondsBetween(readyAt, doorsAt),
    milestonesReached: onTimeTick !== null,
    proof: boundTick === readyTick ? 'bound' : 'none-found',
    why: readyAt === null ? whyNotReady(circumstances, instanceWithHands(circumstances, crew, hands)) : null,
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
