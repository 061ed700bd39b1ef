/** What stands in a room before a booking, section by section: what somebody saw there, or what was left there. */
import type { Booking } from '../../domain/booking.ts'
import type { FurnishingId, LayoutId, SectionId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Layout, Placement } from '../../domain/layout.ts'
import type { LayoutKind } from '../../domain/layout-kind.ts'
import type { Observation } from '../../domain/observation.ts'
import type { Room } from '../../domain/room.ts'
import type { StandingPieces } from '../network/index.ts'
import { homeSince } from './return-home.ts'
import { firstFrom, layoutOf, roomOf, type World } from './world.ts'

export interface WhatStands {
  /** By clear, then id; none: nobody was there, the home layout stands. */
  readonly predecessors: readonly Booking[]
  /** Those of them after which the room was put back into its home layout, with the moment from which it is. */
  readonly wentHome: ReadonlyMap<Booking, Instant>
  /** By `seenAt`, then id; what was seen counts until the room is used or turned again. */
  readonly observations: readonly Observation[]
  readonly layouts: readonly Layout[]
  readonly pieces: readonly StandingPieces[]
  readonly kind: LayoutKind | null
  /** Exactly this one layout stands, in the whole room. */
  readonly wholeLayoutId: LayoutId | null
  /** Where each piece stands; null: only how many there are is known. */
  readonly placements: readonly Placement[] | null
}

/** What one section holds. */
interface Left {
  readonly sectionId: SectionId
  readonly last: Booking | null
  /** Since then the room of the last booking stands as it does at home; null: as the booking left it. */
  readonly homeSince: Instant | null
  readonly seen: Observation | null
}

/**
 * @param booking  need not be among the bookings of the world; itself never counts as its predecessor
 * @param homeToo  what is put back meanwhile counts as put back
 */
export function whatStandsBefore(world: World, booking: Booking, homeToo = true): WhatStands {
  const room = roomOf(world, booking.roomId)
  const left = room.sectionIds.map((sectionId): Left => {
    const last = lastBefore(world, booking, sectionId)
    const home = homeToo && last ? homeSince(world, last, booking.doorsAt) : null
    const since = home ?? last?.doorsAt ?? null
    return { sectionId, last, homeSince: home, seen: lastSeen(world, booking, sectionId, since) }
  })
  const wentHome = new Map(
    left.flatMap(({ last, homeSince }) => (last && homeSince ? [[last, homeSince]] : [])),
  )
  const predecessors = distinct(left.flatMap(({ last }) => last ?? [])).sort(
    (a, b) => a.clearAt - b.clearAt || (a.id < b.id ? -1 : 1),
  )
  const observations = distinct(left.flatMap(({ seen }) => seen ?? [])).sort(
    (a, b) => a.seenAt - b.seenAt || (a.id < b.id ? -1 : 1),
  )
  if (predecessors.length === 0 && observations.length === 0) return homeLayoutStands(world, room)
  const layouts = predecessors.map((predecessor) => layoutLeft(world, predecessor, wentHome.has(predecessor)))
  const [only] = predecessors
  const whole =
    observations.length === 0 && predecessors.length === 1 && only?.roomId === room.id
      ? layouts[0]
      : undefined
  return {
    predecessors,
    wentHome,
    observations,
    layouts,
    pieces: piecesOf(piecesLeft(world, left)),
    kind: commonKind([
      ...distinct(
        left.flatMap(({ last, homeSince, seen }) =>
          last && !seen ? layoutLeft(world, last, homeSince !== null) : [],
        ),
      ).map(({ kind }) => kind),
      ...observations.map(({ standsLike }) => standsLike),
    ]),
    wholeLayoutId: whole?.id ?? null,
    placements: whole && whole.placements.length > 0 ? whole.placements : null,
  }
}

/** How much of a predecessor's room is turned here, by area: 1 where it is all of it. */
export function shareTurned(world: World, booking: Booking, predecessor: Booking): number {
  const { sectionIds } = roomOf(world, booking.roomId)
  const left = roomOf(world, predecessor.roomId)
  const here = left.sectionIds.filter(
    (id) => sectionIds.includes(id) && lastBefore(world, booking, id)?.id === predecessor.id,
  )
  return areaSquareMetres(world, { sectionIds: here }) / areaSquareMetres(world, left)
}

/** What stands in the room of a booking after it, or once it was put back. */
export function layoutLeft(world: World, booking: Booking, isHome: boolean): Layout {
  const { homeLayoutId } = roomOf(world, booking.roomId)
  return layoutOf(world, isHome && homeLayoutId !== null ? homeLayoutId : booking.layoutId)
}

export function areaSquareMetres(world: World, room: Pick<Room, 'sectionIds'>): number {
  return room.sectionIds.reduce((area, sectionId) => {
    const section = world.sectionsById.get(sectionId)
    if (!section) throw new Error(`the snapshot does not hold ${sectionId}`)
    return area + section.areaSquareMetres
  }, 0)
}

/**
 * A layout, and what was seen, is taken to be spread evenly over its room, so a part of the room holds its share: whole
 * pieces, so that the parts of a room together hold what the room holds.
 */
function piecesLeft(world: World, left: readonly Left[]): ReadonlyMap<FurnishingId, number> {
  const count = new Map<FurnishingId, number>()
  const leave = (from: Room, sectionIds: readonly SectionId[], pieces: readonly StandingPieces[]) => {
    for (const piece of pieces) {
      const bySection = spreadOver(world, from, piece.count)
      const here = sectionIds.reduce((sum, id) => sum + (bySection.get(id) ?? 0), 0)
      count.set(piece.furnishingId, (count.get(piece.furnishingId) ?? 0) + here)
    }
  }
  const sectionsOf = (is: (one: Left) => boolean) => left.filter(is).map(({ sectionId }) => sectionId)
  for (const seen of distinct(left.flatMap((one) => one.seen ?? []))) {
    leave(
      roomOf(world, seen.roomId),
      sectionsOf((one) => one.seen === seen),
      seen.pieces,
    )
  }
  for (const last of distinct(left.flatMap((one) => (one.seen ? [] : (one.last ?? []))))) {
    const standing = left.filter((one) => one.last === last && one.seen === null)
    const isHome = standing.some(({ homeSince }) => homeSince !== null)
    const sectionIds = standing.map(({ sectionId }) => sectionId)
    leave(roomOf(world, last.roomId), sectionIds, layoutLeft(world, last, isHome).furnishings)
  }
  return count
}

/** By area, in whole pieces: what is left after each section is rounded at the border to the next one. */
function spreadOver(world: World, room: Room, pieces: number): ReadonlyMap<SectionId, number> {
  const whole = areaSquareMetres(world, room)
  const bySection = new Map<SectionId, number>()
  let area = 0
  let given = 0
  for (const sectionId of room.sectionIds) {
    area += areaSquareMetres(world, { sectionIds: [sectionId] })
    const upToHere = Math.round((pieces * area) / whole)
    bySection.set(sectionId, upToHere - given)
    given = upToHere
  }
  return bySection
}

const commonKind = (kinds: readonly (LayoutKind | null)[]): LayoutKind | null =>
  kinds.every((kind) => kind === kinds[0]) ? (kinds[0] ?? null) : 'other'

export function lastBefore(world: World, booking: Booking, sectionId: SectionId): Booking | null {
  const here = world.bookingsBySection.get(sectionId) ?? []
  for (let index = firstFrom(here, booking.doorsAt) - 1; index >= 0; index -= 1) {
    const other = here[index]!
    if (other.id !== booking.id) return other
  }
  return null
}

/** The newest that was seen since the doors of the last booking there, or since it was put back, and before doors. */
export function lastSeen(
  world: World,
  booking: Booking,
  sectionId: SectionId,
  since: Instant | null,
): Observation | null {
  return (
    world.observations.findLast(
      ({ roomId, seenAt }) =>
        seenAt <= booking.doorsAt &&
        (since === null || seenAt >= since) &&
        roomOf(world, roomId).sectionIds.includes(sectionId),
    ) ?? null
  )
}

function homeLayoutStands(world: World, room: Room): WhatStands {
  const layout = room.homeLayoutId === null ? null : layoutOf(world, room.homeLayoutId)
  return {
    predecessors: [],
    wentHome: new Map(),
    observations: [],
    layouts: layout ? [layout] : [],
    pieces: piecesOf(new Map((layout?.furnishings ?? []).map((piece) => [piece.furnishingId, piece.count]))),
    kind: layout?.kind ?? null,
    wholeLayoutId: layout?.id ?? null,
    placements: layout && layout.placements.length > 0 ? layout.placements : null,
  }
}

const piecesOf = (count: ReadonlyMap<FurnishingId, number>): StandingPieces[] =>
  [...count]
    .filter(([, pieces]) => pieces > 0)
    .map(([furnishingId, pieces]) => ({ furnishingId, count: pieces }))
    .sort((a, b) => (a.furnishingId < b.furnishingId ? -1 : 1))

const distinct = <Thing>(things: readonly Thing[]): Thing[] => [...new Set(things)]
