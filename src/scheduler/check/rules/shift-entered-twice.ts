import type { Shift } from '../../../domain/shift.ts'
import { counted } from '../../wording/counted.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { shiftIsOver } from '../shift-life.ts'

/** Unnamed hands with the same name, number, skills and times. Two crews with names of their own may well overlap. */
export function shiftEnteredTwice(reading: SetupReading): Found[] {
  const seen = new Set<string>()
  return reading.setup.shifts.flatMap((shift): Found[] => {
    const { crew } = shift
    if (crew.kind === 'person' || shiftIsOver(shift, reading)) return []
    const content = contentOf(shift)
    if (!seen.has(content)) {
      seen.add(content)
      return []
    }
    return [
      {
        code: 'shift-entered-twice',
        about: aboutRow('shift', shift),
        message: `shift ${shift.name} of ${counted(crew.hands, 'hand')} is there twice with the same times, so its hands count twice`,
        fix: 'take one of the two out of use, or give them names of their own if both are meant',
        field: null,
      },
    ]
  })
}

const contentOf = ({ name, crew, times }: Shift): string => JSON.stringify({ name, crew, times })
