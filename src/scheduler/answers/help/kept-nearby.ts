/** The same hall with some pieces kept in the room instead of in their store: no way to walk, and nothing in front. */
import type { Furnishing } from '../../../domain/furnishing.ts'
import type { FurnishingId, RoomId, StoragePlaceId } from '../../../domain/ids.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { StoragePlace } from '../../../domain/storage-place.ts'
import { isSoiled } from '../../network/is-soiled.ts'
import type { NetworkInput } from '../../network/network-input.ts'
import { countsById } from '../../network/piece-moves.ts'

/** Names of places are no longer. */
const NAME_MOST = 120

/**
 * They come onto the floor where they always do, so that the same ones stay, come in and go out.
 * @param place  what it is called where pieces are said to come from or go
 */
export function keptNearby(
  snapshot: SiteSnapshot,
  roomId: RoomId,
  ids: readonly FurnishingId[],
  place: string,
): SiteSnapshot {
  const nearby = new Map<StoragePlaceId, StoragePlace>()
  for (const { id, storagePlaceId } of snapshot.furnishings) {
    if (!ids.includes(id)) continue
    const store = snapshot.storagePlaces.find((one) => one.id === storagePlaceId)
    const doorAt = store?.routes.find((route) => route.roomId === roomId)?.doorAt ?? null
    const beside = StoragePlace.parse({
      id: `storage_beside-${storagePlaceId.slice('storage_'.length)}`,
      siteId: snapshot.site.id,
      name: place.slice(0, NAME_MOST),
      routes: [{ roomId, distanceMetres: 0, doorAt }],
    })
    nearby.set(storagePlaceId, beside)
  }
  return {
    ...snapshot,
    storagePlaces: [...snapshot.storagePlaces, ...nearby.values()],
    furnishings: snapshot.furnishings.map((one) =>
      ids.includes(one.id)
        ? { ...one, storagePlaceId: nearby.get(one.storagePlaceId)?.id ?? one.storagePlaceId }
        : one,
    ),
  }
}

export interface GoesOneWay {
  readonly furnishing: Furnishing
  readonly stood: number
  readonly wanted: number
}

/**
 * Each furnishing with what stands and what is wanted, by id. Those that are replaced by clean ones, and so go both ways
 * at once, are left out.
 */
export function piecesOneWay(input: NetworkInput): GoesOneWay[] {
  const stood = countsById(input.standing)
  const wanted = countsById(input.toLayout.furnishings)
  return input.furnishings
    .filter((furnishing) => !isSoiled(furnishing, input.outgoing) || !stood.has(furnishing.id))
    .map((furnishing) => ({
      furnishing,
      stood: stood.get(furnishing.id) ?? 0,
      wanted: wanted.get(furnishing.id) ?? 0,
    }))
}
