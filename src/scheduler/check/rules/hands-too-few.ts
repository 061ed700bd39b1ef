import type { Furnishing, FurnishingKind } from '../../../domain/furnishing.ts'
import { massText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { isFarOutside, massRanges } from '../usual-ranges.ts'

/** By usual practice two to a piece; no source. */
const twoByKind: ReadonlySet<FurnishingKind> = new Set(['stage-deck', 'stage-rail', 'post-pair'])

/** Two to a table of 8 ft or 72 in, by usual practice; measured ones are a little shorter. */
const twoFromMetres: Readonly<Partial<Record<FurnishingKind, number>>> = {
  'long-table': 2.4,
  'round-table': 1.8,
}

/** The guideline weight for a man at the best height, close to the body; HSE L23, second-hand. */
const KILOGRAMS_EACH_MOST = 25
/** Two to a deck of 80 kg is usual, whatever guidance says: the task says what guidance says. */
const KILOGRAMS_EACH_MOST_ON_A_STAGE = 40

/** What is rolled or slid stays on the floor: for that, only the usual number of people counts. */
export function handsTooFew({ setup, units }: SetupReading): Found[] {
  return setup.furnishings.flatMap((furnishing): Found[] => {
    const { name, handsPerPiece, massKilograms } = furnishing
    const each = massKilograms / handsPerPiece
    const isForTwo = handsPerPiece === 1 && takesTwo(furnishing)
    if (!isForTwo && !isTooHeavy(furnishing, each)) return []
    const most = mostEach(furnishing)
    return [
      {
        code: 'hands-too-few',
        about: aboutRow('furnishing', furnishing),
        message: isForTwo
          ? `one ${name} is handled by one person, two is usual`
          : `one ${name} of ${massText(massKilograms, units)} is lifted by ${handsPerPiece === 1 ? 'one person' : `${handsPerPiece} people`}, ${massText(each, units)} each: more than ${massText(most, units)} is too much for most people`,
        fix: `have ${isForTwo ? 'two' : 'more people'} handle it, or correct ${isForTwo ? 'what kind of piece it is' : 'what it weighs'}`,
        field: '/handsPerPiece',
      },
    ]
  })
}

function takesTwo({ kind, widthMetres, depthMetres }: Furnishing): boolean {
  const from = twoFromMetres[kind]
  return twoByKind.has(kind) || (from !== undefined && Math.max(widthMetres ?? 0, depthMetres ?? 0) >= from)
}

const mostEach = ({ kind, handsPerPiece }: Furnishing): number =>
  twoByKind.has(kind) && handsPerPiece > 1 ? KILOGRAMS_EACH_MOST_ON_A_STAGE : KILOGRAMS_EACH_MOST

/** A mass that no piece of the kind has is a slip of the keyboard, and said as that. */
function isTooHeavy(furnishing: Furnishing, each: number): boolean {
  const { kind, massKilograms, method } = furnishing
  const range = massRanges[kind]
  if (range && isFarOutside(massKilograms, range)) return false
  return (method === 'carry' || method === 'trolley') && each > mostEach(furnishing)
}
