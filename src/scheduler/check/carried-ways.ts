/** Which pieces are carried from which store to which room. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Passage } from '../../domain/passage.ts'
import type { Room } from '../../domain/room.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { SetupReading } from './setup-reading.ts'

export interface CarriedWay {
  readonly store: StoragePlace
  readonly room: Room
  /** Those that live in the store and stand in a layout of the room, by id; one at least. */
  readonly furnishings: readonly Furnishing[]
  /** Place in `store.routes`; null: there is no such route. */
  readonly routeIndex: number | null
  readonly passages: readonly Passage[]
}

/** By store, then room. */
export function carriedWays(reading: SetupReading): CarriedWay[] {
  const { setup } = reading
  const passages = new Map(setup.passages.map((passage) => [passage.id, passage]))
  return setup.storagePlaces.flatMap((store) => {
    const living = setup.furnishings.filter(({ storagePlaceId }) => storagePlaceId === store.id)
    return setup.rooms.flatMap((room) => {
      const furnishings = living.filter(({ id }) =>
        reading.usesOf(id).some(({ layout }) => layout.roomId === room.id),
      )
      if (furnishings.length === 0) return []
      const routeIndex = store.routes.findIndex(({ roomId }) => roomId === room.id)
      const route = store.routes[routeIndex]
      return [
        {
          store,
          room,
          furnishings,
          routeIndex: route ? routeIndex : null,
          passages: (route?.passageIds ?? []).flatMap((id) => passages.get(id) ?? []),
        },
      ]
    })
  })
}
