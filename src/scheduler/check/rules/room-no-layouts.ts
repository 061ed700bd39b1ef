import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function roomNoLayouts({ setup, layoutsOf }: SetupReading): Found[] {
  return setup.rooms
    .filter(({ id }) => layoutsOf(id).length === 0)
    .map((room) => ({
      code: 'room-no-layouts',
      about: aboutRow('room', room),
      message: `${room.name} has no layout, so it cannot be booked`,
      fix: 'add the layouts it is used in, or take the room out of use',
      field: null,
    }))
}
