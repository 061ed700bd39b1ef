import type { FloorPoint } from '../../../domain/floor.ts'
import type { Layout } from '../../../domain/layout.ts'
import type { Room } from '../../../domain/room.ts'
import { floorPaths } from '../../placement/index.ts'
import { aboutRow, type Found } from '../found.ts'
import { notOnTheFloor } from '../off-the-floor.ts'
import type { SetupReading } from '../setup-reading.ts'

interface Reached {
  readonly what: string
  readonly point: FloorPoint
}

/** One finding for each room: the first layout with something that cannot be walked to from the rest. */
export function floorCut(reading: SetupReading): Found[] {
  return reading.setup.rooms.flatMap((room): Found[] => {
    if (room.fixedThings.length === 0) return []
    const doors = doorsOf(reading, room)
    for (const layout of reading.layoutsOf(room.id)) {
      const [first, ...others] = [...doors, ...piecesOf(reading, layout)]
      if (!first || others.length === 0) continue
      const metres = floorPaths(room.floor, room.fixedThings).metresBetween(
        [first.point],
        others.map(({ point }) => point),
      )
      const cutOff = others[metres.indexOf(Number.POSITIVE_INFINITY)]
      if (!cutOff) continue
      return [
        {
          code: 'floor-cut',
          about: aboutRow('room', room),
          message: `in layout ${layout.name} no way leads along the floor of ${room.name} from ${first.what} to ${cutOff.what}: fixed things are in between`,
          fix: 'leave open in the outlines of the fixed things what people walk through, or correct the places',
          field: '/fixedThings',
        },
      ]
    }
    return []
  })
}

const doorsOf = ({ stores }: SetupReading, room: Room): Reached[] =>
  [...stores.values()].flatMap(({ name, routes }) =>
    routes.flatMap(({ roomId, doorAt }) =>
      roomId === room.id && doorAt !== null
        ? [{ what: `the door of the way to ${name}`, point: doorAt }]
        : [],
    ),
  )

const piecesOf = ({ furnishings }: SetupReading, { placements }: Layout): Reached[] =>
  placements.flatMap((point) => {
    const furnishing = furnishings.get(point.furnishingId)
    if (!furnishing || notOnTheFloor.has(furnishing.kind)) return []
    return [{ what: `the ${furnishing.name} at ${point.xMetres} m, ${point.yMetres} m`, point }]
  })
