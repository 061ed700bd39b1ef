/** Where furnishings live when they are not out, how much goes in, and how far it is from there to each room. */
import { z } from 'zod'
import { FloorPoint } from './floor.ts'
import { FurnishingId, PassageId, RoomId, SiteId, StoragePlaceId } from './ids.ts'
import { Metres, Name, SquareMetres } from './units.ts'

export const StoreRoute = z.object({
  roomId: RoomId,
  distanceMetres: Metres,
  passageIds: z
    .array(PassageId)
    .max(10)
    .default([])
    .meta({ description: 'Doorways, corridors and lifts on the way, in order from the store' }),
  doorAt: FloorPoint.nullable().default(null).meta({
    description:
      'Where the way comes onto the floor of the room: it decides which pieces go out and come in; null: not known',
  }),
})
export type StoreRoute = z.infer<typeof StoreRoute>

export const StoragePlace = z.object({
  id: StoragePlaceId,
  siteId: SiteId,
  name: Name,
  routes: z
    .array(StoreRoute)
    .max(200)
    .meta({ description: 'One way, along the route walked, to the middle of the room' }),
  areaSquareMetres: SquareMetres.nullable()
    .default(null)
    .meta({ description: 'Floor for pieces, ways between them left out; null: no limit is known' }),
  limits: z
    .array(z.object({ furnishingId: FurnishingId, countMost: z.int().min(0).max(5_000) }))
    .max(100)
    .default([])
    .meta({
      description: 'The most pieces of a kind it takes; a kind that is not named has no limit of its own',
    }),
  depthOrder: z.array(FurnishingId).max(100).default([]).meta({
    description:
      'What stands behind what, from the door to the back; what stands in front must come out first. None: everything can be reached',
  }),
})
export type StoragePlace = z.infer<typeof StoragePlace>
