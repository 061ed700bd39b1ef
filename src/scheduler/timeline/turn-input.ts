/** Everything a turn follows from, derived from the bookings around it; its fingerprint says whether it changed. */
import type { Booking } from '../../domain/booking.ts'
import type { BookingId, FurnishingId, LayoutId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Room } from '../../domain/room.ts'
import { TURN_LONGEST_SECONDS } from '../../domain/turn.ts'
import type { NetworkInput } from '../network/index.ts'
import { DEFAULT_RATES } from '../network/index.ts'
import { fingerprint } from './fingerprint.ts'
import { areaSquareMetres, settingBefore, type WhatStands, whatStandsBefore } from './what-stands.ts'
import { layoutOf, roomOf, sharesSection, type World } from './world.ts'

export interface TurnInput {
  readonly booking: Booking
  readonly room: Room
  readonly predecessorBookingIds: readonly BookingId[]
  readonly fromLayoutIds: readonly LayoutId[]
  /** The last predecessor is clear, at most 48 h before doors. */
  readonly releaseAt: Instant
  readonly dueAt: Instant
  readonly network: NetworkInput
  /** All the task network is made from, the policy apart: a turn says which policy it was judged under. */
  readonly inputText: string
  /** Of that text. */
  readonly inputHash: string
}

export function turnInputOf(world: World, booking: Booking): TurnInput {
  const room = roomOf(world, booking.roomId)
  const stands = whatStandsBefore(world, booking)
  const network = networkInputOf(world, booking, room, stands)
  const { policy: _policy, rates: _rates, ...hashed } = network
  const inputText = JSON.stringify(hashed)
  const earliestAt = instantPlusSeconds(booking.doorsAt, -TURN_LONGEST_SECONDS)
  const lastClearAt = stands.predecessors.at(-1)?.clearAt ?? earliestAt
  return {
    booking,
    room,
    predecessorBookingIds: stands.predecessors.map((predecessor) => predecessor.id),
    fromLayoutIds: stands.layouts.map((layout) => layout.id),
    releaseAt: laterOf(lastClearAt, earliestAt),
    dueAt: booking.doorsAt,
    network,
    inputText,
    inputHash: fingerprint(inputText),
  }
}

function networkInputOf(world: World, booking: Booking, room: Room, stands: WhatStands): NetworkInput {
  const toLayout = layoutOf(world, booking.layoutId)
  const involved = new Set<FurnishingId>(
    [...stands.pieces, ...toLayout.furnishings].map((pieces) => pieces.furnishingId),
  )
  const furnishings = world.setup.furnishings.filter((furnishing) => involved.has(furnishing.id))
  const stores = new Set(furnishings.map((furnishing) => furnishing.storagePlaceId))
  const lastUse = stands.predecessors.at(-1)
  const sections = world.setup.sections.filter((section) => room.sectionIds.includes(section.id))
  return {
    room,
    areaSquareMetres: areaSquareMetres(world, room),
    floorKinds: [...new Set(sections.map((section) => section.floorKind))].sort(),
    standing: stands.pieces,
    standingKind: stands.kind,
    toLayout,
    outgoing: lastUse
      ? {
          kind: layoutOf(world, lastUse.layoutId).kind,
          foodServed: stands.predecessors.some((predecessor) => predecessor.foodServed),
          floorWet: stands.predecessors.some((predecessor) => predecessor.floorWet),
        }
      : null,
    equipmentFrom: world.setup.equipment
      .filter((equipment) => sharesSection(equipment, room))
      .map((equipment) => ({ equipment, setting: settingBefore(world, stands, equipment) })),
    furnishings,
    storagePlaces: world.setup.storagePlaces
      .filter((place) => stores.has(place.id))
      // Only the route to this room matters here; others may come and go without touching the turn.
      .map((place) => ({ ...place, routes: place.routes.filter((route) => route.roomId === room.id) })),
    policy: world.setup.policy,
    rates: DEFAULT_RATES,
    sameLayout: stands.wholeLayoutId === booking.layoutId,
  }
}
