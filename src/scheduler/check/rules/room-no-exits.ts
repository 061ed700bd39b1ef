import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function roomNoExits({ setup, exitsOf }: SetupReading): Found[] {
  return setup.rooms
    .filter((room) => exitsOf(room).length === 0)
    .map((room) => ({
      code: 'room-no-exits',
      about: aboutRow('room', room),
      message: `${room.name} has no exit`,
      fix: 'enter its exits with their clear widths',
      field: null,
    }))
}
