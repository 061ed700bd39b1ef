import { piecesText } from '../../wording/pieces-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { lastingChange } from '../put-away.ts'
import type { SetupReading } from '../setup-reading.ts'

/** What is borrowed until further notice counts as owned. */
export function stockShort(reading: SetupReading): Found[] {
  return reading.setup.furnishings.flatMap((furnishing) => {
    const owned = furnishing.countOwned + Math.max(0, lastingChange(reading, furnishing))
    return reading
      .usesOf(furnishing.id)
      .filter(({ count }) => count > owned)
      .map(({ layout, index, count }): Found => {
        const short = piecesText(count - owned, furnishing)
        return {
          code: 'stock-short',
          about: aboutRow('layout', layout),
          message: `layout ${layout.name} asks ${piecesText(count, furnishing)}, the site owns ${owned}`,
          fix: `ask ${owned} at most in the layout, or enter the ${short} that the site has more`,
          field: `/furnishings/${index}/count`,
        }
      })
  })
}
