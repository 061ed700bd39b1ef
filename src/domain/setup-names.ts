/** How rows of the set-up are called, those out of use too: bookings of the past may still speak of them. */
import type { FurnishingId, LayoutId, RoomId, ShiftId } from './ids.ts'
import type { SiteSetup } from './snapshot.ts'

interface Named {
  readonly id: string
  readonly name: string
}

/** The id itself where there never was such a row. */
const nameOf = (id: string, ...rows: readonly (readonly Named[])[]): string =>
  rows.flat().find((row) => row.id === id)?.name ?? id

type Of<Part extends 'rooms' | 'layouts' | 'shifts'> = Pick<SiteSetup, Part | 'retired'>

export const roomName = ({ rooms, retired }: Of<'rooms'>, id: RoomId): string =>
  nameOf(id, rooms, retired.rooms)
export const layoutName = ({ layouts, retired }: Of<'layouts'>, id: LayoutId): string =>
  nameOf(id, layouts, retired.layouts)
export const shiftName = ({ shifts, retired }: Of<'shifts'>, id: ShiftId): string =>
  nameOf(id, shifts, retired.shifts)

/** As several of them are called. */
export const piecesName = (
  { furnishings, retired }: Pick<SiteSetup, 'furnishings' | 'retired'>,
  id: FurnishingId,
): string => [...furnishings, ...retired.furnishings].find((row) => row.id === id)?.namePlural ?? id
