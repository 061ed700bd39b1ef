import { aboutClosure, bookedThenText, exitsShort } from '../exits-open.ts'
import type { Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { whenText } from '../when-text.ts'

/** Each time that the last exit of a room is shut while the room stays open. */
export function exitsAllClosed(reading: SetupReading): Found[] {
  return reading.setup.rooms.flatMap((room) => {
    const exits = reading.exitsOf(room).length
    const which = exits === 1 ? 'the only exit' : `all ${exits} exits`
    return exitsShort(reading, room, 1, 0).map(
      (short): Found => ({
        code: 'exits-all-closed',
        ...aboutClosure(short.closure),
        message: `${which} of ${room.name} ${exits === 1 ? 'is' : 'are'} closed ${whenText(short.shortage, reading)}, and the room is not${bookedThenText(short, reading)}`,
        fix: `close ${room.name} for that time too, or leave an exit open`,
      }),
    )
  })
}
