/** A named arrangement of one room: what stands in it and the state each device must be in. */
import { z } from 'zod'
import { EquipmentSetting } from './equipment.ts'
import { EquipmentId, FurnishingId, LayoutId, RoomId, SiteId } from './ids.ts'
import { Name, PieceCount } from './units.ts'

export const LayoutKind = z.enum(['worship', 'banquet', 'games', 'overflow', 'meeting', 'other'])
export type LayoutKind = z.infer<typeof LayoutKind>

export const Layout = z.object({
  id: LayoutId,
  siteId: SiteId,
  roomId: RoomId,
  name: Name,
  kind: LayoutKind,
  seats: z
    .int()
    .min(0)
    .max(20_000)
    .nullable()
    .meta({ description: 'null: nobody is seated, so seats set no limit' }),
  furnishings: z.array(z.object({ furnishingId: FurnishingId, count: PieceCount })).max(100),
  equipment: z
    .array(z.object({ equipmentId: EquipmentId, setting: EquipmentSetting }))
    .max(100)
    .meta({ description: 'A device that is not named here belongs in its home state' }),
})
export type Layout = z.infer<typeof Layout>
