/** What stands in a room before a booking, section by section, and who left it there. */
import type { Booking } from '../../domain/booking.ts'
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { FurnishingId, LayoutId } from '../../domain/ids.ts'
import type { Layout, LayoutKind } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import type { StandingPieces } from '../network/index.ts'
import { homeSetting } from '../network/index.ts'
import { layoutOf, roomOf, sharesSection, type World } from './world.ts'

export interface WhatStands {
  /** By clear, then id; none: nobody was there, the home layout stands. */
  readonly predecessors: readonly Booking[]
  readonly layouts: readonly Layout[]
  readonly pieces: readonly StandingPieces[]
  readonly kind: LayoutKind | null
  /** Exactly this one layout stands, in the whole room. */
  readonly wholeLayoutId: LayoutId | null
}

/** @param booking  need not be among the bookings of the world; itself never counts as its predecessor */
export function whatStandsBefore(world: World, booking: Booking): WhatStands {
  const room = roomOf(world, booking.roomId)
  const lastBySection = room.sectionIds.map((sectionId) => ({
    sectionId,
    last: lastBefore(world, booking, { sectionIds: [sectionId] }),
  }))
  const predecessors = distinct(lastBySection.flatMap(({ last }) => (last ? [last] : []))).sort(
    (a, b) => a.clearAt - b.clearAt || (a.id < b.id ? -1 : 1),
  )
  if (predecessors.length === 0) return homeLayoutStands(world, room)
  const count = new Map<FurnishingId, number>()
  for (const predecessor of predecessors) {
    const left = roomOf(world, predecessor.roomId)
    const sectionIds = lastBySection
      .filter(({ last }) => last === predecessor)
      .map(({ sectionId }) => sectionId)
    // A layout is taken to be spread evenly over its room, so a part of the room holds its share.
    const share = areaSquareMetres(world, { sectionIds }) / areaSquareMetres(world, left)
    for (const piece of layoutOf(world, predecessor.layoutId).furnishings) {
      count.set(piece.furnishingId, (count.get(piece.furnishingId) ?? 0) + Math.round(piece.count * share))
    }
  }
  const layouts = predecessors.map((predecessor) => layoutOf(world, predecessor.layoutId))
  const [only] = predecessors
  return {
    predecessors,
    layouts,
    pieces: piecesOf(count),
    kind: layouts.every((layout) => layout.kind === layouts[0]?.kind) ? (layouts[0]?.kind ?? null) : 'other',
    wholeLayoutId: predecessors.length === 1 && only?.roomId === room.id ? only.layoutId : null,
  }
}

/**
 * How a device stands before a booking: as the last predecessor in whose room it is left it, or at home.
 * Only predecessors count, so that the answer follows from the sections of the room and nothing further away.
 */
export function settingBefore(world: World, stands: WhatStands, equipment: Equipment): EquipmentSetting {
  const last = stands.predecessors.findLast((predecessor) =>
    sharesSection(roomOf(world, predecessor.roomId), equipment),
  )
  return last ? settingIn(layoutOf(world, last.layoutId), equipment) : homeSetting(equipment)
}

/** What a layout asks of a device; one it does not name belongs at home. */
export function settingIn(layout: Layout, equipment: Equipment): EquipmentSetting {
  const named = layout.equipment.find((wanted) => wanted.equipmentId === equipment.id)
  return named ? named.setting : homeSetting(equipment)
}

export function areaSquareMetres(world: World, room: Pick<Room, 'sectionIds'>): number {
  return room.sectionIds.reduce((area, sectionId) => {
    const section = world.sectionsById.get(sectionId)
    if (!section) throw new Error(`the snapshot does not hold ${sectionId}`)
    return area + section.areaSquareMetres
  }, 0)
}

function lastBefore(world: World, booking: Booking, space: Pick<Room, 'sectionIds'>): Booking | null {
  let last: Booking | null = null
  for (const other of world.bookings) {
    if (other.doorsAt >= booking.doorsAt) break
    if (other.id !== booking.id && sharesSection(roomOf(world, other.roomId), space)) last = other
  }
  return last
}

function homeLayoutStands(world: World, room: Room): WhatStands {
  const layout = room.homeLayoutId === null ? null : layoutOf(world, room.homeLayoutId)
  return {
    predecessors: [],
    layouts: layout ? [layout] : [],
    pieces: piecesOf(new Map((layout?.furnishings ?? []).map((piece) => [piece.furnishingId, piece.count]))),
    kind: layout?.kind ?? null,
    wholeLayoutId: layout?.id ?? null,
  }
}

const piecesOf = (count: ReadonlyMap<FurnishingId, number>): StandingPieces[] =>
  [...count]
    .filter(([, pieces]) => pieces > 0)
    .map(([furnishingId, pieces]) => ({ furnishingId, count: pieces }))
    .sort((a, b) => (a.furnishingId < b.furnishingId ? -1 : 1))

const distinct = <Thing>(things: readonly Thing[]): Thing[] => [...new Set(things)]
