import { listText } from '../../wording/list-text.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { chairSeats, isTable, piecesOf } from '../seating.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Banquets and meetings that seat somebody. A reception where people stand seats nobody. */
export function tablesWithoutChairs(reading: SetupReading): Found[] {
  return reading.setup.layouts.flatMap((layout): Found[] => {
    const tables = piecesOf(reading, layout, isTable)
    if (layout.kind !== 'banquet' && layout.kind !== 'meeting') return []
    if (!layout.seats || tables.length === 0 || chairSeats(reading, layout) > 0) return []
    return [
      {
        code: 'tables-without-chairs',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} seats ${layout.seats} at ${listText(tables.map(({ furnishing, count }) => piecesText(count, furnishing)))} and has no chairs`,
        fix: 'add the chairs',
        field: '/furnishings',
      },
    ]
  })
}
