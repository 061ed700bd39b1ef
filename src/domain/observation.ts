/** What somebody saw standing in a room. It overrides what follows from the bookings, until the room is turned. */
import { z } from 'zod'
import { EquipmentSetting } from './equipment.ts'
import { EquipmentId, FurnishingId, ObservationId, RoomId, SiteId } from './ids.ts'
import { Instant } from './instant.ts'
import { LayoutKind } from './layout-kind.ts'
import { PieceCount, TextLine } from './units.ts'

export const Observation = z.object({
  id: ObservationId,
  siteId: SiteId,
  roomId: RoomId,
  seenAt: Instant,
  pieces: z
    .array(z.object({ furnishingId: FurnishingId, count: PieceCount }))
    .max(100)
    .meta({ description: 'Everything that stands; none: the bare floor' }),
  standsLike: LayoutKind.nullable()
    .default(null)
    .meta({ description: 'The kind of layout it looks like; null: none' }),
  equipment: z
    .array(z.object({ equipmentId: EquipmentId, setting: EquipmentSetting }))
    .max(100)
    .default([])
    .meta({ description: 'Devices as they are; one that is not named is as the last booking left it' }),
  note: TextLine(400).nullable().default(null),
})
export type Observation = z.infer<typeof Observation>
