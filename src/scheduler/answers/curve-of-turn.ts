/** The curve of a stored turn, as all questions about its hands have it. */
import { CURVE_HANDS_USUAL } from '../../domain/hands-curve.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Turn } from '../../domain/turn.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import type { TickSpan } from '../turn/index.ts'
import type { Circumstances } from './circumstances.ts'
import { type CrewMember, crewInOrder, windowUntil } from './crew-members.ts'
import { curvePoints, type PointFound } from './curve-points.ts'
import { readyTickOf } from './ready.ts'
import type { Search } from './search.ts'
import { standingSchedule } from './standing-schedule.ts'

/** So many hands more than there are can be asked about of every turn. */
export const ADDED_MOST = 2

export interface CurveOfTurn {
  /** Those with time before doors and before it is ready, as they are counted on. */
  readonly crew: readonly CrewMember[]
  readonly window: TickSpan
  /** By hands from 1 on, no fewer than were asked for. */
  readonly points: readonly PointFound[]
  /** By the stored plan; null: there is none, or it does not hold any more. */
  readonly standingTick: number | null
  /** With everybody there is, those too who come after doors: by the stored plan or one made anew; null: none is known. */
  readonly asThingsAreTick: number | null
}

export interface CurveWanted {
  /** Who has time before is asked first. */
  readonly doorsAt: Instant
  readonly handsMost: number
}

/** As many numbers are looked at whatever was asked for, so that the same turn has the same times in every answer. */
export function curveOfTurn(
  circumstances: Circumstances,
  turn: Turn,
  { doorsAt, handsMost }: CurveWanted,
  search: Search,
): CurveOfTurn {
  const standing = standingSchedule(circumstances, turn)
  const { schedule: anew } = search.find(circumstances.built.instance)
  const known = [standing, anew].filter((schedule) => schedule !== null)
  const knownTicks = known.map((schedule) => readyTickOf(circumstances, schedule))
  // Who comes when it is ready already has no part in it, however late doors are.
  const untilTick = Math.min(doorsTickOf(circumstances, doorsAt), ...knownTicks)
  const window = windowUntil(circumstances, untilTick)
  const crew = crewInOrder(circumstances, window)
  const to = Math.max(handsMost, CURVE_HANDS_USUAL, crew.length + ADDED_MOST)
  const points = curvePoints(circumstances, { crew, window, known, search }, to)
  const ofCrew = points.flatMap(({ soonest }) => (soonest?.hands.added === 0 ? soonest.readyTick : []))
  const ticks = [...knownTicks, ...ofCrew]
  const soonestTick = Math.min(...ticks)
  return {
    crew,
    window,
    points,
    standingTick: standing && readyTickOf(circumstances, standing),
    asThingsAreTick: Number.isFinite(soonestTick) ? soonestTick : null,
  }
}

/** The whole ticks until then. */
export const doorsTickOf = ({ built }: Circumstances, doorsAt: Instant): number =>
  Math.floor((doorsAt - built.originAt) / TICK_MS)
