import type { Furnishing } from '../../../domain/furnishing.ts'
import type { RoomId } from '../../../domain/ids.ts'
import type { StoragePlace } from '../../../domain/storage-place.ts'
import { listText } from '../../wording/list-text.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { leftToPutAway } from '../put-away.ts'
import type { SetupReading } from '../setup-reading.ts'

interface Shelf {
  readonly store: StoragePlace
  /** Place in `store.limits`. */
  readonly index: number
  readonly countMost: number
}

/**
 * The store where the pieces live, together with others that name a limit for them, against the layout that leaves
 * most of them. A store without a limit for them takes any number.
 */
export function storeLimitShort(reading: SetupReading): Found[] {
  const { setup } = reading
  return setup.furnishings.flatMap((furnishing): Found[] => {
    const shelves = shelvesFor(reading, furnishing)
    const [home] = shelves
    if (!home) return []
    const room = shelves.reduce((sum, { countMost }) => sum + countMost, 0)
    const most = mostByRoom(reading, furnishing)
    // Rooms at home leave as much as any other: the room that uses most of the pieces is the one people think of.
    const [worst] = leftToPutAway(reading, furnishing).sort(
      (a, b) => b.left - a.left || (most.get(b.layout.roomId) ?? 0) - (most.get(a.layout.roomId) ?? 0),
    )
    if (!worst || worst.left <= room) return []
    const stores = listText(shelves.map(({ store }) => `the ${store.name}`))
    const hold = shelves.length === 1 ? 'holds' : 'together hold'
    return [
      {
        code: 'store-limit-short',
        about: aboutRow('storagePlace', home.store),
        message: `${stores} ${hold} ${piecesText(room, furnishing)}, layout ${worst.layout.name} leaves ${worst.left} to put away`,
        fix: `find a place for ${worst.left - room} more, raise the limit if they do go in, or leave them standing in that layout`,
        field: `/limits/${home.index}/countMost`,
      },
    ]
  })
}

/** The most pieces that a layout of each room uses. */
function mostByRoom({ usesOf }: SetupReading, { id }: Furnishing): ReadonlyMap<RoomId, number> {
  const most = new Map<RoomId, number>()
  for (const { layout, count } of usesOf(id)) {
    most.set(layout.roomId, Math.max(most.get(layout.roomId) ?? 0, count))
  }
  return most
}

/** Where they live first; none when that has no limit for them. */
function shelvesFor({ setup }: SetupReading, { id, storagePlaceId }: Furnishing): Shelf[] {
  const shelves = setup.storagePlaces.flatMap((store): Shelf[] => {
    const index = store.limits.findIndex(({ furnishingId }) => furnishingId === id)
    const limit = store.limits[index]
    return limit ? [{ store, index, countMost: limit.countMost }] : []
  })
  const home = shelves.find(({ store }) => store.id === storagePlaceId)
  return home ? [home, ...shelves.filter((shelf) => shelf !== home)] : []
}
