/** Where furnishings live when they are not out, and how far it is from there to each room. */
import { z } from 'zod'
import { RoomId, SiteId, StoragePlaceId } from './ids.ts'
import { Metres, Name } from './units.ts'

export const StoragePlace = z.object({
  id: StoragePlaceId,
  siteId: SiteId,
  name: Name,
  routes: z
    .array(z.object({ roomId: RoomId, distanceMetres: Metres }))
    .max(200)
    .meta({ description: 'One way, along the route walked, to the middle of the room' }),
})
export type StoragePlace = z.infer<typeof StoragePlace>
