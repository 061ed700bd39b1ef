import { listText } from '../../wording/list-text.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { isTable, piecesOf, tablePlaces } from '../seating.ts'
import type { SetupReading } from '../setup-reading.ts'

/** At a banquet everybody sits at a table. Tables that do not say how many places they have are left alone. */
export function placesShort(reading: SetupReading): Found[] {
  return reading.setup.layouts.flatMap((layout): Found[] => {
    const places = layout.kind === 'banquet' ? tablePlaces(reading, layout) : null
    if (places === null || layout.seats === null || places >= layout.seats) return []
    const tables = piecesOf(reading, layout, isTable).map(({ furnishing, count }) =>
      piecesText(count, furnishing),
    )
    return [
      {
        code: 'places-short',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} seats ${layout.seats}, its ${listText(tables)} have ${places} places`,
        fix: `add tables, or say that it seats ${places}`,
        field: '/seats',
      },
    ]
  })
}
