import type { Furnishing, FurnishingKind } from '../../../domain/furnishing.ts'
import { widthText } from '../amount-text.ts'
import { carriedWays } from '../carried-ways.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Common practice, no source: chair and table trolleys are made to go through a door of about 0.75 m. */
const TROLLEY_WIDTH_METRES = 0.7

/** Their sizes are as they stand; they go through a door folded, on edge or in pieces. */
const goThroughOnEdge: ReadonlySet<FurnishingKind> = new Set([
  'round-table',
  'long-table',
  'games-table',
  'stage-deck',
  'stage-rail',
  'post-pair',
  'dance-floor-panel',
  'table-cloth',
  'place-setting',
])

/** The widest thing that goes through each passage. Stairs are another matter. */
export function passageTooNarrow(reading: SetupReading): Found[] {
  const ways = carriedWays(reading)
  return reading.setup.passages.flatMap((passage): Found[] => {
    const { clearWidthMetres } = passage
    if (clearWidthMetres === null || passage.kind === 'stairs') return []
    const [widest] = ways
      .filter(({ passages }) => passages.includes(passage))
      .flatMap(({ furnishings }) => furnishings.flatMap(widthsOf))
      .sort((a, b) => b.metres - a.metres)
    if (!widest || widest.metres <= clearWidthMetres) return []
    const { units } = reading
    return [
      {
        code: 'passage-too-narrow',
        about: aboutRow('passage', passage),
        message: `the ${passage.name} is ${widthText(clearWidthMetres, units)} clear, ${widest.what} ${widthText(widest.metres, units)} wide`,
        fix: 'measure again, or lead the route another way',
        field: '/clearWidthMetres',
      },
    ]
  })
}

function widthsOf({ name, namePlural, kind, trolley, widthMetres, depthMetres }: Furnishing) {
  const widths: { what: string; metres: number }[] = []
  if (trolley) widths.push({ what: `a trolley of ${namePlural} is about`, metres: TROLLEY_WIDTH_METRES })
  if (widthMetres !== null && depthMetres !== null && !goThroughOnEdge.has(kind)) {
    widths.push({ what: `one ${name} is`, metres: Math.min(widthMetres, depthMetres) })
  }
  return widths
}
