import { floorOutline, metresOutside } from '../../geometry/index.ts'
import { widthText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** The depth of a wall or a porch. */
const METRES_ALLOWED = 1

/** Off every room over its section of which the floor is known, as rooms have corners of their own to measure from. */
export function exitOffFloor({ setup, units, exitsOf }: SetupReading): Found[] {
  const nearest = new Map<string, { metres: number; roomName: string }>()
  for (const room of setup.rooms) {
    if (room.floor === null) continue
    const outline = floorOutline(room.floor)
    for (const { id, position } of exitsOf(room)) {
      if (position === null) continue
      const metres = metresOutside(outline, position)
      const known = nearest.get(id)
      if (!known || metres < known.metres) nearest.set(id, { metres, roomName: room.name })
    }
  }
  return setup.exits.flatMap((exit): Found[] => {
    const off = nearest.get(exit.id)
    if (!off || off.metres <= METRES_ALLOWED) return []
    return [
      {
        code: 'exit-off-floor',
        about: aboutRow('exit', exit),
        message: `exit ${exit.name} is ${widthText(off.metres, units)} off the floor of ${off.roomName}, so no distance to it is right`,
        fix: 'measure its place again, from the corner that the floor is measured from',
        field: '/position',
      },
    ]
  })
}
