import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function joinedOneSided({ setup, rooms }: SetupReading): Found[] {
  return setup.rooms.flatMap((room) =>
    room.acousticallyJoinedRoomIds.flatMap((id, index): Found[] => {
      const other = rooms.get(id)
      if (!other || other.acousticallyJoinedRoomIds.includes(room.id)) return []
      return [
        {
          code: 'joined-one-sided',
          about: aboutRow('room', room),
          message: `${room.name} says that ${other.name} hears it, and ${other.name} does not say so of ${room.name}: it is taken to hold for both`,
          fix: `say it on ${other.name} as well, or remove it here`,
          field: `/acousticallyJoinedRoomIds/${index}`,
        },
      ]
    }),
  )
}
