/** A named arrangement of one room: what stands in it and the state each device must be in. */
import { z } from 'zod'
import { EquipmentSetting } from './equipment.ts'
import { FloorPoint } from './floor.ts'
import { EquipmentId, FurnishingId, LayoutId, RoomId, SiteId } from './ids.ts'
import { LayoutKind } from './layout-kind.ts'
import { Name, PieceCount } from './units.ts'

/** One piece on the floor: its middle, and how it is turned from the x axis, against the clock. */
export const Placement = z.object({
  furnishingId: FurnishingId,
  ...FloorPoint.shape,
  rotationDegrees: z.number().min(0).lt(360).default(0),
})
export type Placement = z.infer<typeof Placement>

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
  placements: z.array(Placement).max(5_000).default([]).meta({
    description:
      'Where pieces stand: for each furnishing all of its pieces, or none. None: only how many there are is known',
  }),
  amplified: z
    .boolean()
    .default(false)
    .meta({ description: 'Speech or sound is amplified: hearing receivers are then advised' }),
})
export type Layout = z.infer<typeof Layout>
