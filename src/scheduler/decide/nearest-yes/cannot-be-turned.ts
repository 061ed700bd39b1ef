/**
 * Proof, without any search, that a booking would be refused for the turn before or after it: not even with the hands of
 * all other turns could that be ready in time, but for those who are at the events of others. It is asked of many doors,
 * so what was found of a gap is remembered.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { CrewDemand } from '../../../domain/booking-terms.ts'
import type { Instant } from '../../../domain/instant.ts'
import { type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import { firstFrom, isStale, roomOf, sharesSection, type World } from '../../timeline/world.ts'
import { lowerBoundTicks } from '../../turn/index.ts'
import { standsWhole } from '../operations/stands-whole.ts'
import { underWaySince } from '../operations/under-way.ts'
import {
  type BuiltInstance,
  builtInstance,
  lateUntilAt,
  turnPart,
  workUntilAt,
} from '../plan/built-instance.ts'
import { TICK_MS } from '../plan/tick-grid.ts'
import { networkOrUnreachable } from '../turns/judge-turn.ts'
import { withHandsLeft } from './hands-left-by-others.ts'

/** What is known of the work of one turn, whatever its doors are. */
interface EarliestReady {
  /** No plan is ready before; null: none by `lookedUntilAt`. */
  readonly readyAt: Instant | null
  readonly lookedUntilAt: Instant
}

export class CannotBeTurned {
  private readonly earliestByTurn = new Map<string, EarliestReady>()
  private readonly duties: readonly CrewDemand[]

  /** @param duties  crew at the events of others, for sure */
  constructor(duties: readonly CrewDemand[]) {
    this.duties = duties
  }

  /** @param world  with the booking in it; nobody else has its room then */
  isProven(world: World, booking: Booking): boolean {
    return (
      this.isExcluded(world, turnInputOf(world, booking)) ||
      nextJudged(world, booking).some((next) => this.isExcluded(world, turnInputOf(world, next)))
    )
  }

  /**
   * The same for all doors of a stretch at once, by the turn before alone: what is left later is ready later, so where the
   * first doors could not be ready by the last ones, none of them is. It must be the same work all along.
   * @param world    with the booking in it
   * @param booking  at the first doors of the stretch
   * @param lastAt   the last ones
   */
  isProvenUntil(world: World, booking: Booking, lastAt: Instant): boolean {
    const input = turnInputOf(world, booking)
    if (networkOrUnreachable(input) instanceof Error || !isSameWork(world, booking, input, lastAt))
      return false
    const { readyAt, lookedUntilAt } = this.earliestReady(world, input)
    return readyAt === null ? lastAt <= lookedUntilAt : lastAt < readyAt
  }

  private isExcluded(world: World, input: TurnInput): boolean {
    const network = networkOrUnreachable(input)
    if (network instanceof Error) return true
    const { readyAt, lookedUntilAt } = this.earliestReady(world, input)
    if (readyAt === null ? input.dueAt <= lookedUntilAt : input.dueAt < readyAt) return true
    const { milestones, crewDemands, quiet } = input.asks
    if (milestones.length + crewDemands.length === 0 && quiet === null) return false
    const built = this.alone(world, input, workUntilAt(world, input))
    return built.instance.turns.some(({ dueTick }, turn) => {
      const { readyTick } = lowerBoundTicks(built.instance, turn)
      return readyTick === null || readyTick > dueTick
    })
  }

  /** Of the work alone: without what must be reached before, and what the event takes. */
  private earliestReady(world: World, input: TurnInput): EarliestReady {
    const { turnId, inputText, releaseAt, overrunsUntilAt } = input
    const key = `${turnId}/${releaseAt}/${overrunsUntilAt}/${JSON.stringify([input.asks.helpers, input.asks.devicesHeld])}/${inputText}`
    const known = this.earliestByTurn.get(key)
    if (known) return known
    const lookedUntilAt = lateUntilAt(world, input)
    const asks = { ...input.asks, milestones: [], crewDemands: [], quiet: null }
    const { instance, originAt } = this.alone(world, { ...input, asks }, lookedUntilAt)
    const { readyTick } = lowerBoundTicks(instance, 0)
    const readyAt = readyTick === null ? null : ((originAt + readyTick * TICK_MS) as Instant)
    const found = { readyAt, lookedUntilAt }
    this.earliestByTurn.set(key, found)
    return found
  }

  /** As if no other turn held anything, with every hand that may be assumed; events of others still hold all they take. */
  private alone(world: World, input: TurnInput, untilAt: Instant): BuiltInstance {
    const network = networkOrUnreachable(input)
    if (network instanceof Error) throw network
    const { planningHands } = world.setup.policy
    const built = builtInstance(world, [turnPart(input, network)], [], {
      untilAt,
      handsAssumed: planningHands,
    })
    return withHandsLeft(built, this.duties)
  }
}

/** Nobody comes, nothing goes or comes back, and nothing is put back meanwhile that could make it other work. */
function isSameWork(world: World, booking: Booking, input: TurnInput, lastAt: Instant): boolean {
  const { setup } = world
  const { doorsAt } = booking
  const { sectionIds } = input.room
  const devices = setup.equipment.filter((equipment) => sharesSection(equipment, input.room))
  const place = { sectionIds: [...sectionIds, ...devices.flatMap((device) => device.sectionIds)] }
  const isMeanwhile = (at: Instant | null) => at !== null && at >= input.releaseAt && at <= lastAt
  return (
    setup.policy.returnHomeAfterSeconds === null &&
    !setup.stockChanges.some(({ fromAt, toAt }) => isMeanwhile(fromAt) || isMeanwhile(toAt)) &&
    !world.observations.some(({ seenAt }) => isMeanwhile(seenAt)) &&
    !world.bookings.some(
      (other) =>
        other.id !== booking.id &&
        other.doorsAt >= doorsAt &&
        other.doorsAt <= lastAt &&
        sharesSection(roomOf(world, other.roomId), place),
    )
  )
}

/** Who has part of the room next, where a turn for them that is ready now would fail: then it is refused for that. */
function nextJudged(world: World, booking: Booking): Booking[] {
  const next = roomOf(world, booking.roomId).sectionIds.flatMap((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    return here.slice(firstFrom(here, booking.clearAt)).find(({ id }) => id !== booking.id) ?? []
  })
  return [...new Set(next)].filter((one) => {
    const turn = world.turnsById.get(one.turnId)
    return (
      turn?.status === 'ready' &&
      underWaySince(turn, world.now) === null &&
      one.doorsAt > world.now &&
      !isStale(world, one.doorsAt) &&
      standsWhole(world, one, world.window)
    )
  })
}
