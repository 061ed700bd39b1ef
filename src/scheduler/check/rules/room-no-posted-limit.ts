import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function roomNoPostedLimit({ setup }: SetupReading): Found[] {
  return setup.rooms
    .filter(({ occupantLimitPosted }) => occupantLimitPosted === null)
    .map((room) => ({
      code: 'room-no-posted-limit',
      about: aboutRow('room', room),
      message: `${room.name} has no posted occupant limit`,
      fix: 'enter the number on the sign in the room, or ask the fire authority for one',
      field: '/occupantLimitPosted',
    }))
}
