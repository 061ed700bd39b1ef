import type { Layout } from '../../../domain/layout.ts'
import { listText } from '../../wording/list-text.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { chairSeats, isChair, isTable, piecesOf } from '../seating.ts'
import type { SetupReading } from '../setup-reading.ts'

/** A few chairs more than seats are for those who come late. */
const SHARE_SPARE = 0.1

/** Layouts with chairs only: where none are listed, seats may be fixed to the floor. */
export function seatsDiffer(reading: SetupReading): Found[] {
  return reading.setup.layouts.flatMap((layout): Found[] => {
    const seats = chairSeats(reading, layout)
    if (layout.seats === null || seats === 0) return []
    if (seats >= layout.seats && seats <= layout.seats * (1 + SHARE_SPARE)) return []
    return [
      {
        code: 'seats-differ',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} seats ${layout.seats}, with ${listText(seatingTexts(reading, layout))}`,
        fix: `say that it seats ${seats}, or correct its pieces`,
        field: '/seats',
      },
    ]
  })
}

/** Tables first. Pieces that seat several say how many in all. */
const seatingTexts = (reading: SetupReading, layout: Layout): string[] => [
  ...piecesOf(reading, layout, isTable).map(({ furnishing, count }) => piecesText(count, furnishing)),
  ...piecesOf(reading, layout, isChair).map(({ furnishing, count }) =>
    (furnishing.seatsPerPiece ?? 1) === 1
      ? piecesText(count, furnishing)
      : `${piecesText(count, furnishing)} for ${count * (furnishing.seatsPerPiece ?? 1)}`,
  ),
]
