import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function roomNoOpeningHours({ setup }: SetupReading): Found[] {
  return setup.rooms
    .filter(({ openingHours }) => openingHours === null)
    .map((room) => ({
      code: 'room-no-opening-hours',
      about: aboutRow('room', room),
      message: `${room.name} has no opening hours, so it can be booked at any hour of the night`,
      fix: 'enter its opening hours, unless it is always open',
      field: '/openingHours',
    }))
}
