import { polygonArea } from '../../geometry/index.ts'
import { areaText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { zoneOverlaps } from '../zone-overlaps.ts'

const SHARE_ALLOWED = 0.05

/**
 * Too little: some floor is in no zone. Too much: zones reach beyond. Zones that overlap are another matter: until they
 * are drawn apart their areas tell nothing.
 */
export function zonesOffFloor({ setup, units, roomSquareMetres }: SetupReading): Found[] {
  return setup.rooms.flatMap((room): Found[] => {
    const floor = roomSquareMetres(room)
    if (room.zones.length === 0 || floor === null) return []
    const zones = room.zones.reduce((sum, { corners }) => sum + polygonArea(corners), 0)
    if (Math.abs(zones - floor) <= SHARE_ALLOWED * floor || zoneOverlaps(room).length > 0) return []
    return [
      {
        code: 'zones-off-floor',
        about: aboutRow('room', room),
        message: `the zones of ${room.name} are ${areaText(zones, units)} together, its floor is ${areaText(floor, units)}`,
        fix:
          zones < floor
            ? 'draw zones over the rest of the floor, or remove them all to have equal strips'
            : 'draw the zones within the floor, correct the floor, or remove them all to have equal strips',
        field: '/zones',
      },
    ]
  })
}
