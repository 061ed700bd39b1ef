/** What people sit on, and what they sit at. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Layout } from '../../domain/layout.ts'
import type { SetupReading } from './setup-reading.ts'

/** Chairs, and whatever else gives seats by itself: benches, stools. */
export const isChair = ({ kind, seatsPerPiece }: Furnishing): boolean =>
  kind === 'stacking-chair' || kind === 'folding-chair' || (kind === 'other' && (seatsPerPiece ?? 0) > 0)

export const isTable = ({ kind }: Furnishing): boolean => kind === 'round-table' || kind === 'long-table'

/** In the order the layout lists them. */
export const piecesOf = (
  { furnishings }: SetupReading,
  layout: Layout,
  is: (furnishing: Furnishing) => boolean,
): { readonly furnishing: Furnishing; readonly count: number }[] =>
  layout.furnishings.flatMap(({ furnishingId, count }) => {
    const furnishing = furnishings.get(furnishingId)
    return furnishing && is(furnishing) ? [{ furnishing, count }] : []
  })

/** Seats that chairs give; one for each where nothing is said. */
export const chairSeats = (reading: SetupReading, layout: Layout): number =>
  piecesOf(reading, layout, isChair).reduce(
    (sum, { furnishing, count }) => sum + count * (furnishing.seatsPerPiece ?? 1),
    0,
  )

/** Places at the tables; null where a table does not say how many, or there is none. */
export function tablePlaces(reading: SetupReading, layout: Layout): number | null {
  const tables = piecesOf(reading, layout, isTable)
  if (tables.length === 0) return null
  let places = 0
  for (const { furnishing, count } of tables) {
    if (furnishing.seatsPerPiece === null) return null
    places += count * furnishing.seatsPerPiece
  }
  return places
}

/** `15 round tables` of a layout, all kinds of tables together. */
export const tableCount = (reading: SetupReading, layout: Layout): number =>
  piecesOf(reading, layout, isTable).reduce((sum, { count }) => sum + count, 0)
