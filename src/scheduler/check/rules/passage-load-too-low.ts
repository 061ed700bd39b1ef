import type { Furnishing } from '../../../domain/furnishing.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import { massText } from '../amount-text.ts'
import { carriedWays } from '../carried-ways.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** A full trolley, or one piece where there is none. The trolley itself and who pushes it come on top. */
export function passageLoadTooLow(reading: SetupReading): Found[] {
  const ways = carriedWays(reading)
  const { units } = reading
  return reading.setup.passages.flatMap((passage): Found[] => {
    const limit = passage.loadLimitKilograms
    if (limit === null) return []
    const [heaviest] = ways
      .filter(({ passages }) => passages.includes(passage))
      .flatMap(({ furnishings }) => furnishings)
      .map((furnishing) => ({ furnishing, ...loadOf(furnishing) }))
      .sort((a, b) => b.kilograms - a.kilograms)
    if (!heaviest || heaviest.kilograms <= limit) return []
    const { furnishing, pieces, kilograms } = heaviest
    const load = pieces === 1 ? `one ${furnishing.name}` : `a trolley with ${piecesText(pieces, furnishing)}`
    return [
      {
        code: 'passage-load-too-low',
        about: aboutRow('passage', passage),
        message: `the ${passage.name} carries ${massText(limit, units)}, ${load} is ${massText(kilograms, units)}${pieces === 1 ? '' : ' without the trolley'}`,
        fix: 'load fewer pieces on a trolley, or lead the route another way',
        field: '/loadLimitKilograms',
      },
    ]
  })
}

const loadOf = ({ trolley, massKilograms, countOwned }: Furnishing) => {
  const pieces = Math.min(trolley?.capacityPieces ?? 1, countOwned)
  return { pieces, kilograms: pieces * massKilograms }
}
