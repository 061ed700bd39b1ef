/** Everything a turn follows from, derived from the bookings around it; its fingerprint says whether it changed. */
import { type Booking, leftAt } from '../../domain/booking.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import { homeTurnId } from '../../domain/home-turn-id.ts'
import type { BookingId, LayoutId, TurnId } from '../../domain/ids.ts'
import { earlierOf, type Instant, instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import { TURN_LONGEST_SECONDS, type TurnPurpose } from '../../domain/turn.ts'
import { type NetworkInput, type OutgoingUse, sameSetting } from '../network/index.ts'
import { deviceBefore, reachesBeyond, settingIn } from './device-before.ts'
import { fingerprint } from './fingerprint.ts'
import { networkInputOf } from './network-input-of.ts'
import { homeSpan } from './return-home.ts'
import { type DeviceHeld, type TurnAsks, turnAsks } from './turn-asks.ts'
import { shareTurned, type WhatStands, whatStandsBefore } from './what-stands.ts'
import { firstFrom, layoutOf, roomOf, type World } from './world.ts'

export interface TurnInput {
  readonly turnId: TurnId
  readonly purpose: TurnPurpose
  /** That it prepares, or after which it puts the room back. */
  readonly booking: Booking
  readonly room: Room
  readonly toLayoutId: LayoutId
  readonly predecessorBookingIds: readonly BookingId[]
  readonly fromLayoutIds: readonly LayoutId[]
  /** The last predecessor is clear, or its room put back; at most 48 h before doors. */
  readonly releaseAt: Instant
  readonly dueAt: Instant
  /** The guests before are only out then, after doors; null: by `releaseAt`. */
  readonly overrunsUntilAt: Instant | null
  readonly network: NetworkInput
  readonly asks: TurnAsks
  /** All the task network is made from, policy and rates apart: a turn says which of them it was judged under. */
  readonly inputText: string
  /** Of that text, and of what the bookings around it ask beside. */
  readonly inputHash: string
}

/** Of the turn that prepares a booking. */
export function turnInputOf(world: World, booking: Booking): TurnInput {
  return inputOf(world, booking, booking, {
    turnId: booking.turnId,
    purpose: 'prepare',
    toLayout: layoutOf(world, booking.layoutId),
    earliestAt: instantPlusSeconds(booking.doorsAt, -TURN_LONGEST_SECONDS),
    dueAt: booking.doorsAt,
  })
}

/** Of the turn that puts its room back after a booking; null: it is not put back. */
export function homeTurnInputOf(world: World, booking: Booking): TurnInput | null {
  const span = homeSpan(world, booking)
  const { homeLayoutId } = roomOf(world, booking.roomId)
  if (span === null || homeLayoutId === null) return null
  // As if somebody wanted the home layout when it is due.
  const { toAt: doorsAt } = span
  const asIf = { ...booking, id: NOBODY, doorsAt }
  return inputOf(world, booking, asIf, {
    turnId: homeTurnId(booking.turnId),
    purpose: 'return-home',
    toLayout: layoutOf(world, homeLayoutId),
    earliestAt: span.fromAt,
    dueAt: span.toAt,
  })
}

/** No booking has it. */
const NOBODY = 'booking_nobody' as BookingId

interface Wanted {
  readonly turnId: TurnId
  readonly purpose: TurnPurpose
  readonly toLayout: Layout
  /** Not before. */
  readonly earliestAt: Instant
  readonly dueAt: Instant
}

/** @param asIf  the booking before which it is asked what stands */
function inputOf(world: World, booking: Booking, asIf: Booking, wanted: Wanted): TurnInput {
  const { toLayout, dueAt } = wanted
  const stands = whatStandsBefore(world, asIf, wanted.purpose === 'prepare')
  const standsSince = stands.predecessors.map((one) => stands.wentHome.get(one) ?? leftAt(one))
  const outAt = [wanted.earliestAt, ...standsSince, ...overrunsInto(world, asIf)].reduce(laterOf)
  const releaseAt = earlierOf(outAt, dueAt)
  const overrunsUntilAt = outAt > dueAt ? outAt : null
  const room = roomOf(world, booking.roomId)
  const span: HalfOpenInterval = { fromAt: releaseAt, toAt: laterOf(releaseAt, dueAt) }
  const network = networkInputOf(world, room, toLayout, span, {
    pieces: stands.pieces,
    kind: stands.kind,
    placements: stands.placements,
    isWanted: stands.wholeLayoutId === toLayout.id,
    // What it shares with another room is left as it stands where only this one is put back.
    settingOf: (equipment) =>
      wanted.purpose === 'return-home' && reachesBeyond(room, equipment)
        ? settingIn(toLayout, equipment)
        : deviceBefore(world, asIf, equipment, wanted.purpose === 'prepare').setting,
    outgoing: outgoingUse(world, asIf, stands),
  })
  const isHeard = network.acousticallyJoinedRoomIds.length > 0
  const devicesHeld = network.equipmentFrom.flatMap(({ equipment, setting }): DeviceHeld[] => {
    if (!reachesBeyond(room, equipment) || sameSetting(setting, settingIn(toLayout, equipment))) return []
    const { heldUntilAt } = deviceBefore(world, asIf, equipment)
    if (heldUntilAt === null || heldUntilAt <= releaseAt) return []
    return [{ equipmentId: equipment.id, untilAt: heldUntilAt }]
  })
  const asks = turnAsks(booking, wanted.purpose, stands, isHeard, devicesHeld)
  const { policy: _policy, rates: _rates, rateMarks: _marks, ...hashed } = network
  const inputText = JSON.stringify(hashed)
  return {
    turnId: wanted.turnId,
    purpose: wanted.purpose,
    booking,
    room,
    toLayoutId: toLayout.id,
    predecessorBookingIds: stands.predecessors.map((predecessor) => predecessor.id),
    fromLayoutIds: stands.layouts.map((layout) => layout.id),
    releaseAt,
    dueAt,
    overrunsUntilAt,
    network,
    asks,
    inputText,
    inputHash: fingerprint(
      asks.isNothing && overrunsUntilAt === null
        ? inputText
        : inputText + JSON.stringify([asks, overrunsUntilAt]),
    ),
  }
}

/** Guests of before who stay beyond their clear, and perhaps beyond the bookings that were to follow them. */
const overrunsInto = (world: World, asIf: Booking): Instant[] =>
  roomOf(world, asIf.roomId).sectionIds.flatMap((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    return here
      .slice(0, firstFrom(here, asIf.doorsAt))
      .flatMap(({ id, overrunsUntilAt }) => (id === asIf.id ? [] : (overrunsUntilAt ?? [])))
  })

/** Those whose room was put back meanwhile left nothing to clean. */
function outgoingUse(
  world: World,
  booking: Booking,
  { predecessors, wentHome }: WhatStands,
): OutgoingUse | null {
  const uses = predecessors.filter((predecessor) => !wentHome.has(predecessor))
  const lastUse = uses.at(-1)
  if (!lastUse) return null
  return {
    kind: layoutOf(world, lastUse.layoutId).kind,
    foodServed: uses.some((predecessor) => predecessor.foodServed),
    floorWet: uses.some((predecessor) => predecessor.floorWet),
    // Guests of a larger room left their share of the rubbish here, the rest is cleared where they left it.
    headcount: Math.ceil(
      uses.reduce(
        (sum, predecessor) => sum + predecessor.headcount * shareTurned(world, booking, predecessor),
        0,
      ),
    ),
  }
}
