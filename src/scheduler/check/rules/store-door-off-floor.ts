import { floorOutline, metresOutside } from '../../geometry/index.ts'
import { widthText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** The depth of a wall or a porch. */
const METRES_ALLOWED = 1

export function storeDoorOffFloor({ setup, units, rooms }: SetupReading): Found[] {
  return setup.storagePlaces.flatMap((store) =>
    store.routes.flatMap(({ roomId, doorAt }, index): Found[] => {
      const room = rooms.get(roomId)
      if (!room?.floor || doorAt === null) return []
      const metres = metresOutside(floorOutline(room.floor), doorAt)
      if (metres <= METRES_ALLOWED) return []
      return [
        {
          code: 'store-door-off-floor',
          about: aboutRow('storagePlace', store),
          message: `the way from ${store.name} comes onto the floor of ${room.name} ${widthText(metres, units)} off it, so which pieces go out is decided from the wrong place`,
          fix: 'measure the place of the door again, from the corner that the floor is measured from',
          field: `/routes/${index}/doorAt`,
        },
      ]
    }),
  )
}
