/** Which turns the operations touch: those whose inputs are no longer what they were judged by, and few others. */
import type { Booking } from '../../../domain/booking.ts'
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import { homeTurnId } from '../../../domain/home-turn-id.ts'
import type { SectionId } from '../../../domain/ids.ts'
import { earlierOf, type Instant, instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import { TURN_LONGEST_SECONDS, type Turn } from '../../../domain/turn.ts'
import { wayHomeBegun } from '../../timeline/return-home.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import { isStale, roomOf, sharesSection, type World } from '../../timeline/world.ts'
import { standsWhole } from '../operations/stands-whole.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import { heldSpan } from '../plan/held-span.ts'
import { mustBeAnswered, mustBeJudged } from './must-be-judged.ts'

export interface TouchedTurn {
  readonly input: TurnInput
  readonly before: Turn | null
}

export interface TurnsTouched {
  /**
   * Who comes first has the crew first: firm bookings before those at risk, then by doors, priority, id. Bookings that
   * have begun are left alone.
   */
  readonly touched: readonly TouchedTurn[]
  /** Rooms are not put back any more: somebody needs them sooner, or the booking is gone. */
  readonly homeTurnsGone: readonly Turn[]
}

export function turnsTouched(after: WorldAfter, operations: readonly Operation[]): TurnsTouched {
  const { world } = after
  const sections = sectionsSpokenOf(after)
  const touched: TouchedTurn[] = []
  const homeTurnsGone: Turn[] = []
  const waitedFor = world.bookings.filter(({ overrunsUntilAt }) => (overrunsUntilAt ?? 0) > world.now)
  const freed = spansFreed(after, operations)
  /** What stands in all of a room is another when it is not put back any more, or now is. */
  const otherwise = new Set(sections)
  for (const booking of world.bookings) {
    // Whether it is put back follows from what comes after it: of one that begins after the window that is not all here.
    const { fromAt, toAt: windowEndsAt } = world.window
    if (booking.clearAt < fromAt || booking.doorsAt >= windowEndsAt || !mayGoHome(world, booking)) continue
    const home = world.turnsById.get(homeTurnId(booking.turnId)) ?? null
    const toAt = home?.dueAt ?? instantPlusSeconds(booking.clearAt, TURN_LONGEST_SECONDS)
    const must = mustBeJudged(world, booking, { fromAt: booking.clearAt, toAt }, home, operations)
    if (!must && !inSections(world, booking, sections)) continue
    const input = homeTurnInputOf(world, booking)
    if (!must && isLookedAtLater(after, booking, booking.clearAt, input, homeTurnInputOf)) continue
    if (input === null) {
      if (!home || wayHomeBegun(world, booking) !== null) continue
      homeTurnsGone.push(home)
    } else {
      const goesOn = home !== null && hasBegun(world, input, home)
      if (!must && (goesOn || !hasChanged(input, home))) continue
      touched.push({ input, before: home })
    }
    for (const sectionId of roomOf(world, booking.roomId).sectionIds) otherwise.add(sectionId)
  }
  for (const booking of world.bookings) {
    const before = world.turnsById.get(booking.turnId) ?? null
    if (!standsWhole(world, booking, world.window) || !isToCome(world, booking, waitedFor)) continue
    const must =
      mustBeJudged(world, booking, spanAround(booking, before), before, operations) ||
      mustBeAnswered(after, booking, before) ||
      (before !== null && isFreedFor(before, freed))
    if (!must && !inSections(world, booking, otherwise)) continue
    const input = turnInputOf(world, booking)
    const goesOn = before !== null && hasBegun(world, input, before) && !isAskedFor(after, booking)
    const isLater = !must && isLookedAtLater(after, booking, before?.dueAt ?? null, input, turnInputOf)
    if (must || (!goesOn && !isLater && hasChanged(input, before))) touched.push({ input, before })
  }
  const gone = after.bookings.filter((change) => change.after.status === 'CANCELLED')
  for (const change of gone) {
    const home = world.turnsById.get(homeTurnId(change.after.turnId))
    if (home) homeTurnsGone.push(home)
  }
  return { touched: touched.sort(byClaim), homeTurnsGone }
}

/** When hands are free again that were held by turns of bookings that are given up. */
function spansFreed({ world, bookings }: WorldAfter, operations: readonly Operation[]): HalfOpenInterval[] {
  if (!operations.every(({ kind }) => kind === 'cancel' || kind === 'lapse')) return []
  return bookings.flatMap(({ after: booking }) => {
    const plan = world.turnsById.get(booking.turnId)?.plan
    return booking.status === 'CANCELLED' && plan ? [heldSpan(plan)] : []
  })
}

/** It fails, and what it lacked may be there now. */
const isFreedFor = ({ status, releaseAt, dueAt }: Turn, freed: readonly HalfOpenInterval[]): boolean =>
  status === 'failing' && freed.some((span) => overlaps(span, { fromAt: releaseAt, toAt: dueAt }))

/** From when work for it may begin until the last of its crew is free again. */
function spanAround({ doorsAt, clearAt, crewDemands }: Booking, before: Turn | null): HalfOpenInterval {
  return {
    fromAt: [before?.releaseAt ?? doorsAt, ...crewDemands.map(({ fromAt }) => fromAt)].reduce(earlierOf),
    toAt: [clearAt, ...crewDemands.map(({ toAt }) => toAt)].reduce(laterOf),
  }
}

/** Doors lie ahead; or they are past, and those who were there before are still in. */
const isToCome = (world: World, booking: Booking, waitedFor: readonly Booking[]): boolean =>
  booking.doorsAt > world.now ||
  waitedFor.some(
    (other) =>
      other.doorsAt < booking.doorsAt &&
      other.clearAt === booking.doorsAt &&
      sharesSection(roomOf(world, other.roomId), roomOf(world, booking.roomId)),
  )

/** It is asked only where it may be: most sites never do. */
function mayGoHome(world: World, booking: Booking): boolean {
  const home = world.turnsById.get(homeTurnId(booking.turnId))
  if (home) return home.dueAt > world.now
  return world.setup.policy.returnHomeAfterSeconds !== null && booking.clearAt > world.now
}

/** By its plan, and the room was clear by then: it goes on as it was planned, whatever else changes around it. */
const hasBegun = (world: World, { releaseAt, overrunsUntilAt }: TurnInput, { plan }: Turn): boolean =>
  plan !== null && plan.startsAt <= world.now && plan.startsAt >= (overrunsUntilAt ?? releaseAt)

const isAskedFor = ({ bookings }: WorldAfter, { id }: Booking): boolean =>
  bookings.some((change) => change.after.id === id)

function byClaim(a: TouchedTurn, b: TouchedTurn): number {
  const [one, other] = [a.input.booking, b.input.booking]
  return (
    Number(one.riskAccepted !== null) - Number(other.riskAccepted !== null) ||
    a.input.dueAt - b.input.dueAt ||
    other.priority - one.priority ||
    (a.input.turnId < b.input.turnId ? -1 : 1)
  )
}

function sectionsSpokenOf(after: WorldAfter): Set<SectionId> {
  const bookings = after.bookings.flatMap(({ before, after: booking }) =>
    before ? [before, booking] : [booking],
  )
  return withShared(
    after.world,
    new Set(bookings.flatMap(({ roomId }) => roomOf(after.world, roomId).sectionIds)),
  )
}

/** How a wall between two halves stands follows from what happens in either. */
function withShared({ setup }: World, sections: ReadonlySet<SectionId>): Set<SectionId> {
  const shared = setup.equipment.filter(({ sectionIds }) => sectionIds.some((id) => sections.has(id)))
  return new Set([...sections, ...shared.flatMap(({ sectionIds }) => sectionIds)])
}

const inSections = (world: World, booking: Booking, sections: ReadonlySet<SectionId>): boolean =>
  roomOf(world, booking.roomId).sectionIds.some((sectionId) => sections.has(sectionId))

const hasChanged = (input: TurnInput, before: Turn | null): boolean =>
  before === null ||
  before.inputHash !== input.inputHash ||
  before.releaseAt !== input.releaseAt ||
  before.dueAt !== input.dueAt ||
  before.roomId !== input.room.id ||
  before.toLayoutId !== input.toLayoutId ||
  before.predecessorBookingIds.length !== input.predecessorBookingIds.length ||
  before.predecessorBookingIds.some((id, index) => id !== input.predecessorBookingIds[index])

/**
 * The hall has changed under it, and what is asked changes nothing about it: what it has become by that is nobody's doing
 * here, and is found when its time comes to be looked at.
 * @param at  where it comes among those that are looked at; null: it is new
 */
function isLookedAtLater(
  { world, asItWas, bookings }: WorldAfter,
  booking: Booking,
  at: Instant | null,
  input: TurnInput | null,
  inputOf: (world: World, booking: Booking) => TurnInput | null,
): boolean {
  if (at === null || !isStale(world, at)) return false
  if (bookings.length === 0) return true
  if (bookings.some((change) => change.after.id === booking.id)) return false
  return keyOf(inputOf(asItWas(), booking)) === keyOf(input)
}

const keyOf = (input: TurnInput | null): string | null =>
  input &&
  [input.inputHash, input.releaseAt, input.dueAt, input.toLayoutId, ...input.predecessorBookingIds].join()
