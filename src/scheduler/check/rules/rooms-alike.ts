import type { Room } from '../../../domain/room.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function roomsAlike({ setup }: SetupReading): Found[] {
  const known = new Map<string, Room>()
  return setup.rooms.flatMap((room): Found[] => {
    const sections = [...new Set(room.sectionIds)].sort().join(' ')
    const same = known.get(sections)
    if (!same) {
      known.set(sections, room)
      return []
    }
    return [
      {
        code: 'rooms-alike',
        about: aboutRow('room', room),
        message: `room ${room.name} is of the same sections as room ${same.name}: it is one room entered twice`,
        fix: 'take one of them out of use, or correct the sections; another use of a room is a layout',
        field: '/sectionIds',
      },
    ]
  })
}
