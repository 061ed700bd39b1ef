/**
 * The earliest later doors at which the same booking, moved as a whole, is accepted. Bounded by a count of trial
 * decisions; each candidate is judged like a request, so what is offered is accepted when taken on the same snapshot.
 */
import type { Booking } from '../../domain/booking.ts'
import type { Alternative } from '../../domain/decision.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Operation } from '../../domain/operation.ts'
import type { ReasonCode } from '../../domain/reason.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import { openingStretches } from '../timeline/opening-stretches.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
import { roomOf, sharesSection, type World } from '../timeline/world.ts'
import { bookingReasons } from './checks/index.ts'
import { judgeTurns } from './judge-turns.ts'
import { operationProblems } from './operation-problems.ts'
import { worldAfter } from './world-after.ts'

/** How far on it is looked: 48 h. What is loaded for a decision leans on it. */
export const NEAREST_DOORS_WITHIN_SECONDS = 48 * 3600
const TRIALS_MOST = 8
const TRIALS_IN_ONE_GAP_MOST = 3
/** Doors are offered on the clock's five minutes. */
const GRID_MS = 5 * 60_000

/** Another time cannot help against these. */
const timeless: ReadonlySet<ReasonCode> = new Set(['headcount-over-posted-limit', 'headcount-over-seats'])

/** @returns at most one; none when nothing was found, or when time is not what is in the way */
export function nearestDoors(snapshot: SiteSnapshot, operations: readonly Operation[]): Alternative[] {
  const [operation] = operations
  if (operations.length !== 1 || !operation || (operation.kind !== 'book' && operation.kind !== 'change'))
    return []
  const asked = operation.booking
  const { world } = worldAfter(snapshot, operations)
  let trials = 0
  for (const candidateAt of candidateDoors(world, asked)) {
    let doorsAt = candidateAt
    for (let inThisGap = 0; inThisGap < TRIALS_IN_ONE_GAP_MOST; inThisGap += 1) {
      const moved = movedTo(asked, doorsAt)
      // Cheap to ask, and no trial: what speaks against the booking by itself.
      const against = bookingReasons(world, moved)
      if (against.some((reason) => timeless.has(reason.code))) return []
      if (against.length > 0) break
      if (operationProblems(snapshot, [{ ...operation, booking: moved }]).length > 0) break
      if (trials === TRIALS_MOST) return []
      trials += 1
      const found = trial(snapshot, { ...operation, booking: moved })
      if (found.verdict !== 'does-not-fit') return [alternative(world, moved, found.verdict)]
      if (found.readyAt === null || found.readyAt <= doorsAt) break
      doorsAt = onGrid(found.readyAt)
      if (doorsAt > instantPlusSeconds(asked.doorsAt, NEAREST_DOORS_WITHIN_SECONDS)) break
    }
  }
  return []
}

/** From the doors asked for, and from every moment after it at which the room becomes free or opens; in order. */
function candidateDoors(world: World, asked: Booking): Instant[] {
  const room = roomOf(world, asked.roomId)
  const lastAt = instantPlusSeconds(asked.doorsAt, NEAREST_DOORS_WITHIN_SECONDS)
  const leadMs = asked.startsAt - asked.doorsAt
  const opens = openingStretches(room, world.setup.site.zone, { fromAt: asked.doorsAt, toAt: lastAt }) ?? []
  const moments: number[] = [
    asked.doorsAt,
    ...world.bookings
      .filter((other) => other.id !== asked.id && sharesSection(roomOf(world, other.roomId), room))
      .map((other) => other.clearAt),
    ...world.closures.map((closure) => closure.toAt),
    ...opens.map((stretch) => stretch.fromAt),
  ]
  const candidates = moments
    .filter((at) => at >= asked.doorsAt && at <= lastAt && at >= world.now - leadMs)
    .map((at) => (at === asked.doorsAt ? asked.doorsAt : onGrid(at)))
  return [...new Set(candidates)].sort((a, b) => a - b)
}

function trial(snapshot: SiteSnapshot, operation: Operation) {
  const after = worldAfter(snapshot, [operation])
  const judged = judgeTurns(after, snapshot.turns, [operation], { isTrial: true })
  const own = judged.turns.find((turn) => turn.side === 'before')
  const reasons = judged.turns.flatMap((turn) =>
    turn.before?.status === 'failing' && turn.side !== 'before' ? [] : turn.reasons,
  )
  const speaksAgainst = reasons.some((reason) => reason.code !== 'slack-under-policy')
  const verdict = speaksAgainst ? 'does-not-fit' : reasons.length > 0 ? 'tight' : 'fits'
  return { verdict, readyAt: own?.after.judgement.readyAt ?? null } as const
}

const onGrid = (at: number): Instant => (Math.ceil(at / GRID_MS) * GRID_MS) as Instant

function movedTo(booking: Booking, doorsAt: Instant): Booking {
  const byMs = doorsAt - booking.doorsAt
  const moved = (at: Instant) => (at + byMs) as Instant
  return {
    ...booking,
    doorsAt,
    startsAt: moved(booking.startsAt),
    endsAt: moved(booking.endsAt),
    clearAt: moved(booking.clearAt),
  }
}

function alternative(world: World, moved: Booking, verdict: 'fits' | 'tight'): Alternative {
  const { doorsAt, startsAt, endsAt, clearAt } = moved
  const doors = dayAndTimeOf(doorsAt, world.setup.site.zone)
  const message =
    verdict === 'fits'
      ? `With doors at ${doors} it fits.`
      : `With doors at ${doors} it fits, with little to spare.`
  return { kind: 'other-doors', doorsAt, startsAt, endsAt, clearAt, verdict, message }
}
