/** What can be wrong with a storage place beyond its shape. */
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { StoragePlace, StoreRoute } from '../../domain/storage-place.ts'
import { floorOutline, metresOutside } from '../../scheduler/geometry/index.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export function storagePlaceFaults(place: StoragePlace, setup: SiteSetup): Fault[] {
  const atRoute = (index: number) => `/routes/${index}/roomId`
  const roomIds = place.routes.map(({ roomId }) => roomId)
  return [
    ...unknownIds(atRoute, roomIds, setup.rooms, 'room', setup.retired.rooms),
    ...repeated(atRoute, roomIds, 'room'),
    ...place.routes.flatMap((one, route) => {
      const { passageIds } = one
      const at = (index: number) => `/routes/${route}/passageIds/${index}`
      return [
        ...doorFaults(`/routes/${route}/doorAt`, one, setup),
        ...unknownIds(at, passageIds, setup.passages, 'passage'),
        ...repeated(at, passageIds, 'passage'),
      ]
    }),
    ...furnishingFaults(
      (index) => `/limits/${index}/furnishingId`,
      place.limits.map(({ furnishingId }) => furnishingId),
      setup,
    ),
    ...furnishingFaults((index) => `/depthOrder/${index}`, place.depthOrder, setup),
  ]
}

/** How far off the floor a door may be: the depth of a wall or a porch. */
const OFF_FLOOR_MOST_METRES = 1

/** Which pieces go out and come in is decided from there. */
function doorFaults(at: string, { roomId, doorAt }: StoreRoute, { rooms }: SiteSetup): Fault[] {
  const room = rooms.find(({ id }) => id === roomId)
  if (!room?.floor || doorAt === null) return []
  const metres = metresOutside(floorOutline(room.floor), doorAt)
  if (metres <= OFF_FLOOR_MOST_METRES) return []
  const shown = Math.ceil(metres * 10) / 10
  const message = `the door would be ${shown} m off the floor of ${room.name}; give a place in one of its walls, or leave doorAt out`
  return [bodyFault(at, message)]
}

const furnishingFaults = (
  at: (index: number) => string,
  ids: readonly string[],
  setup: SiteSetup,
): Fault[] => [
  ...unknownIds(at, ids, setup.furnishings, 'furnishing', setup.retired.furnishings),
  ...repeated(at, ids, 'furnishing'),
]
