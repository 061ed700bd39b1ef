/** What can be wrong with a storage place beyond its shape. */
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import type { Fault } from '../problems.ts'

export function storagePlaceFaults(place: StoragePlace, setup: SiteSetup): Fault[] {
  const atRoute = (index: number) => `/routes/${index}/roomId`
  const roomIds = place.routes.map(({ roomId }) => roomId)
  return [
    ...unknownIds(atRoute, roomIds, setup.rooms, 'room', setup.retired.rooms),
    ...repeated(atRoute, roomIds, 'room'),
    ...place.routes.flatMap(({ passageIds }, route) => {
      const at = (index: number) => `/routes/${route}/passageIds/${index}`
      return [
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

const furnishingFaults = (
  at: (index: number) => string,
  ids: readonly string[],
  setup: SiteSetup,
): Fault[] => [
  ...unknownIds(at, ids, setup.furnishings, 'furnishing', setup.retired.furnishings),
  ...repeated(at, ids, 'furnishing'),
]
