import { areaText } from '../amount-text.ts'
import { floorSquareMetres } from '../floor-area.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Walls, pillars and rounding explain so much. */
const SHARE_ALLOWED = 0.05

export function floorAreaDiffers({ setup, units, sectionsSquareMetres }: SetupReading): Found[] {
  return setup.rooms.flatMap((room): Found[] => {
    const sections = sectionsSquareMetres(room)
    if (room.floor === null || sections === null) return []
    const floor = floorSquareMetres(room.floor)
    if (Math.abs(floor - sections) <= SHARE_ALLOWED * sections) return []
    return [
      {
        code: 'floor-area-differs',
        about: aboutRow('room', room),
        message: `the floor of ${room.name} is ${areaText(floor, units)}, its sections are ${areaText(sections, units)} together`,
        fix: 'measure again and correct the floor or the sections',
        field: '/floor',
      },
    ]
  })
}
