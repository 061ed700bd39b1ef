import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Only where every exit says so: of one that says nothing it is not known. */
export function exitsNotStepFree({ setup, exitsOf }: SetupReading): Found[] {
  return setup.rooms.flatMap((room): Found[] => {
    const exits = exitsOf(room)
    if (exits.length === 0 || exits.some(({ stepFree }) => stepFree !== false)) return []
    const none = exits.length === 1 ? 'the only exit' : `none of the ${exits.length} exits`
    return [
      {
        code: 'exits-not-step-free',
        about: aboutRow('room', room),
        message: `${none} of ${room.name} is ${exits.length === 1 ? 'not ' : ''}free of steps`,
        fix: 'agree how guests in wheelchairs get in, and out when it burns, or correct the exits',
        field: null,
      },
    ]
  })
}
