import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** The posted limit refuses the guests anyway; the chairs would be carried for nothing. */
export function seatsOverLimit({ setup, rooms }: SetupReading): Found[] {
  return setup.layouts.flatMap((layout): Found[] => {
    const room = rooms.get(layout.roomId)
    const limit = room?.occupantLimitPosted ?? null
    if (!room || limit === null || layout.seats === null || layout.seats <= limit) return []
    return [
      {
        code: 'seats-over-limit',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} seats ${layout.seats}, the posted limit of ${room.name} is ${limit}`,
        fix: `seat ${limit} at most, or correct the limit to what the sign says`,
        field: '/seats',
      },
    ]
  })
}
