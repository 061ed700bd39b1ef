import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { shiftHappens } from '../shift-life.ts'

/** A shift for once is over as soon as it was: that is no news. A pattern that ended may have been forgotten. */
export function shiftEnded({ setup, today }: SetupReading): Found[] {
  return setup.shifts.flatMap((shift): Found[] => {
    const { times } = shift
    if (times.kind === 'once' || times.lastDate === null || times.lastDate >= today) return []
    if (!shiftHappens(shift)) return []
    return [
      {
        code: 'shift-ended',
        about: aboutRow('shift', shift),
        message: `shift ${shift.name} ended on ${times.lastDate}`,
        fix: 'give it a later last day, or take it out of use',
        field: '/times/lastDate',
      },
    ]
  })
}
