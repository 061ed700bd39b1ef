import { areaText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { zoneOverlaps } from '../zone-overlaps.ts'

/** The largest overlap of each room. */
export function zonesOverlap({ setup, units }: SetupReading): Found[] {
  return setup.rooms.flatMap((room): Found[] => {
    const [worst] = zoneOverlaps(room).sort((a, b) => b.squareMetres - a.squareMetres)
    if (!worst) return []
    return [
      {
        code: 'zones-overlap',
        about: aboutRow('room', room),
        message: `zones ${worst.other.name} and ${worst.zone.name} of ${room.name} overlap by ${areaText(worst.squareMetres, units)}, which is worked twice`,
        fix: 'draw the zones so that they meet without overlapping, or remove them all to have equal strips',
        field: `/zones/${worst.index}/corners`,
      },
    ]
  })
}
