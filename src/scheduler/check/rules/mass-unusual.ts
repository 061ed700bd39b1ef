import { massText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { isFarOutside, massRanges } from '../usual-ranges.ts'

export function massUnusual({ setup, units }: SetupReading): Found[] {
  return setup.furnishings.flatMap((furnishing): Found[] => {
    const range = massRanges[furnishing.kind]
    if (!range || !isFarOutside(furnishing.massKilograms, range)) return []
    return [
      {
        code: 'mass-unusual',
        about: aboutRow('furnishing', furnishing),
        message: `one ${furnishing.name} weighs ${massText(furnishing.massKilograms, units)}, usual is ${massText(range.least, units)} to ${massText(range.most, units)}`,
        fix: 'weigh one piece and correct it',
        field: '/massKilograms',
      },
    ]
  })
}
