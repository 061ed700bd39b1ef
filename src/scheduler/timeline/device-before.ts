/**
 * How a device stands before a booking, and from when it may be moved. A device may reach beyond the room, as a wall
 * between two halves does: then whoever was last in any of its sections left it as it stands, and as long as somebody is
 * in the other part it stays so.
 */
import { type Booking, leftAt } from '../../domain/booking.ts'
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { SectionId } from '../../domain/ids.ts'
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import { homeSetting } from '../network/index.ts'
import { homeSince } from './return-home.ts'
import { lastBefore, lastSeen, layoutLeft } from './what-stands.ts'
import { firstFrom, roomOf, sharesSection, type World } from './world.ts'

export interface DeviceBefore {
  readonly setting: EquipmentSetting
  /** Who had it so; null: it was seen so since, or nobody was there. */
  readonly leftBy: Booking | null
  /** Until then somebody is in a part of it that is not the room's; null: it reaches no further, or nobody was there. */
  readonly heldUntilAt: Instant | null
}

/** It stands in some sections of the room, and in others that are not the room's. */
export const reachesBeyond = (room: Pick<Room, 'sectionIds'>, equipment: Equipment): boolean =>
  sharesSection(room, equipment) && sectionsBeyond(room, equipment).length > 0

export const sectionsBeyond = ({ sectionIds }: Pick<Room, 'sectionIds'>, equipment: Equipment): SectionId[] =>
  equipment.sectionIds.filter((id) => !sectionIds.includes(id))

/** What a layout asks of a device; one it does not name belongs at home. */
export function settingIn(layout: Layout, equipment: Equipment): EquipmentSetting {
  const named = layout.equipment.find((wanted) => wanted.equipmentId === equipment.id)
  return named ? named.setting : homeSetting(equipment)
}

/**
 * As somebody saw it since the last use of any of its sections, else as that use left it, else at home.
 * @param homeToo  what is put back meanwhile counts as put back
 */
export function deviceBefore(
  world: World,
  booking: Booking,
  equipment: Equipment,
  homeToo = true,
): DeviceBefore {
  const beyond = lastBeyond(world, booking, equipment)
  const within = equipment.sectionIds.flatMap((sectionId) => lastBefore(world, booking, sectionId) ?? [])
  const last = [...within, ...beyond].reduce<Booking | null>(
    (known, one) => (known === null || isEarlier(known, one) ? one : known),
    null,
  )
  // Putting a part back does not touch what it shares with another one.
  const isWhole = last !== null && !reachesBeyond(roomOf(world, last.roomId), equipment)
  const home = homeToo && isWhole ? homeSince(world, last, booking.doorsAt) : null
  const seen = seenSince(world, booking, equipment, home ?? last?.doorsAt ?? null)
  const left = last ? settingIn(layoutLeft(world, last, home !== null), equipment) : homeSetting(equipment)
  return {
    setting: seen ?? left,
    leftBy: seen === null && home === null ? last : null,
    heldUntilAt: beyond.length === 0 ? null : beyond.map(leftAt).reduce(laterOf),
  }
}

/** In each part of it that is not the room's: who began last before the booking, and of two that begin with it the smaller id. */
export const lastBeyond = (world: World, booking: Booking, equipment: Equipment): Booking[] =>
  sectionsBeyond(roomOf(world, booking.roomId), equipment).flatMap((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    const beside = here[firstFrom(here, booking.doorsAt)]
    const isFirst = beside?.doorsAt === booking.doorsAt && beside.id < booking.id
    return (isFirst ? beside : lastBefore(world, booking, sectionId)) ?? []
  })

function seenSince(
  world: World,
  booking: Booking,
  equipment: Equipment,
  since: Instant | null,
): EquipmentSetting | null {
  const found = equipment.sectionIds.flatMap((sectionId) => {
    const seen = lastSeen(world, booking, sectionId, since)
    const device = seen?.equipment.find(({ equipmentId }) => equipmentId === equipment.id)
    return seen && device ? { seen, setting: device.setting } : []
  })
  const newest = found.reduce<(typeof found)[number] | null>(
    (known, one) => (known === null || isOlder(known.seen, one.seen) ? one : known),
    null,
  )
  return newest?.setting ?? null
}

const isEarlier = (a: Booking, b: Booking): boolean =>
  a.doorsAt < b.doorsAt || (a.doorsAt === b.doorsAt && a.id < b.id)

const isOlder = (
  a: { readonly seenAt: Instant; readonly id: string },
  b: { readonly seenAt: Instant; readonly id: string },
): boolean => a.seenAt < b.seenAt || (a.seenAt === b.seenAt && a.id < b.id)
