/** Everything a turn follows from, derived from the bookings around it; its fingerprint says whether it changed. */
import type { Booking } from '../../domain/booking.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { BookingId, LayoutId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Room } from '../../domain/room.ts'
import { TURN_LONGEST_SECONDS } from '../../domain/turn.ts'
import type { NetworkInput, OutgoingUse } from '../network/index.ts'
import { fingerprint } from './fingerprint.ts'
import { networkInputOf } from './network-input-of.ts'
import { settingBefore, shareTurned, type WhatStands, whatStandsBefore } from './what-stands.ts'
import { layoutOf, roomOf, type World } from './world.ts'

export interface TurnInput {
  readonly booking: Booking
  readonly room: Room
  readonly predecessorBookingIds: readonly BookingId[]
  readonly fromLayoutIds: readonly LayoutId[]
  /** The last predecessor is clear, at most 48 h before doors. */
  readonly releaseAt: Instant
  readonly dueAt: Instant
  readonly network: NetworkInput
  /** All the task network is made from, policy and rates apart: a turn says which of them it was judged under. */
  readonly inputText: string
  /** Of that text. */
  readonly inputHash: string
}

export function turnInputOf(world: World, booking: Booking): TurnInput {
  const room = roomOf(world, booking.roomId)
  const stands = whatStandsBefore(world, booking)
  const earliestAt = instantPlusSeconds(booking.doorsAt, -TURN_LONGEST_SECONDS)
  const releaseAt = laterOf(stands.predecessors.at(-1)?.clearAt ?? earliestAt, earliestAt)
  const span: HalfOpenInterval = { fromAt: releaseAt, toAt: booking.doorsAt }
  const network = networkInputOf(world, room, layoutOf(world, booking.layoutId), span, {
    pieces: stands.pieces,
    kind: stands.kind,
    placements: stands.placements,
    isWanted: stands.wholeLayoutId === booking.layoutId,
    settingOf: (equipment) => settingBefore(world, stands, equipment),
    outgoing: outgoingUse(world, booking, stands),
  })
  const { policy: _policy, rates: _rates, rateMarks: _marks, ...hashed } = network
  const inputText = JSON.stringify(hashed)
  return {
    booking,
    room,
    predecessorBookingIds: stands.predecessors.map((predecessor) => predecessor.id),
    fromLayoutIds: stands.layouts.map((layout) => layout.id),
    releaseAt,
    dueAt: booking.doorsAt,
    network,
    inputText,
    inputHash: fingerprint(inputText),
  }
}

function outgoingUse(world: World, booking: Booking, { predecessors }: WhatStands): OutgoingUse | null {
  const lastUse = predecessors.at(-1)
  if (!lastUse) return null
  return {
    kind: layoutOf(world, lastUse.layoutId).kind,
    foodServed: predecessors.some((predecessor) => predecessor.foodServed),
    floorWet: predecessors.some((predecessor) => predecessor.floorWet),
    // Guests of a larger room left their share of the rubbish here, the rest is cleared where they left it.
    headcount: Math.ceil(
      predecessors.reduce(
        (sum, predecessor) => sum + predecessor.headcount * shareTurned(world, booking, predecessor),
        0,
      ),
    ),
  }
}
