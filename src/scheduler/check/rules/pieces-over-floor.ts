import { areaText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { notOnTheFloor } from '../off-the-floor.ts'
import { piecesOf } from '../seating.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Pieces without a size do not count, so that only what cannot be is found. */
export function piecesOverFloor(reading: SetupReading): Found[] {
  const { setup, rooms, units, roomSquareMetres } = reading
  return setup.layouts.flatMap((layout): Found[] => {
    const room = rooms.get(layout.roomId)
    const floor = room ? roomSquareMetres(room) : null
    if (floor === null) return []
    const covered = piecesOf(reading, layout, ({ kind }) => !notOnTheFloor.has(kind)).reduce(
      (sum, { furnishing: { kind, widthMetres, depthMetres }, count }) =>
        sum + count * (widthMetres ?? 0) * (depthMetres ?? 0) * (kind === 'round-table' ? Math.PI / 4 : 1),
      0,
    )
    if (covered <= floor) return []
    return [
      {
        code: 'pieces-over-floor',
        about: aboutRow('layout', layout),
        message: `the pieces of layout ${layout.name} cover ${areaText(covered, units)}, the floor is ${areaText(floor, units)}`,
        fix: 'correct the counts of the layout, the sizes of the pieces or the area of the floor',
        field: '/furnishings',
      },
    ]
  })
}
