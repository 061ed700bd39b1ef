/** How much of the stock a layout leaves to be put away. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { Layout } from '../../domain/layout.ts'
import type { StockChange } from '../../domain/stock-change.ts'
import type { SetupReading } from './setup-reading.ts'

export interface Left {
  readonly layout: Layout
  /** 0 or more. */
  readonly left: number
}

/**
 * Pieces of one furnishing that neither stand in a layout nor, with every other room as it is at home, elsewhere. Of
 * home layouts in rooms that share a section the one with most of these pieces counts, so that too little is said to
 * be left rather than too much.
 * @returns for every layout of a room in force, by id
 */
export function leftToPutAway(reading: SetupReading, furnishing: Furnishing): Left[] {
  const { setup, rooms, layouts } = reading
  const homes = setup.rooms
    .flatMap((room) => {
      const home = room.homeLayoutId === null ? undefined : layouts.get(room.homeLayoutId)
      const count = home ? countIn(home, furnishing.id) : 0
      return count > 0 ? [{ room, count }] : []
    })
    .sort((a, b) => b.count - a.count)
  const stock = furnishing.countOwned + lastingChange(reading, furnishing)
  return [...layouts.values()].map((layout) => {
    const room = rooms.get(layout.roomId)
    const taken = new Set(room?.sectionIds)
    let left = stock - countIn(layout, furnishing.id)
    for (const home of homes) {
      if (home.room.sectionIds.some((id) => taken.has(id))) continue
      for (const id of home.room.sectionIds) taken.add(id)
      left -= home.count
    }
    return { layout, left: Math.max(0, left) }
  })
}

const countIn = (layout: Layout, furnishingId: FurnishingId): number =>
  layout.furnishings.find((piece) => piece.furnishingId === furnishingId)?.count ?? 0

/** Pieces borrowed (more) or away (fewer) now and until further notice. */
export function lastingChange({ setup, now }: SetupReading, { id }: Furnishing): number {
  return setup.stockChanges
    .filter((change) => change.toAt === null && change.fromAt <= now && isOf(change, id))
    .reduce((sum, change) => sum + piecesMore(change), 0)
}

const isOf = ({ of }: StockChange, id: FurnishingId): boolean =>
  of.kind === 'furnishing' && of.furnishingId === id

/** How many pieces it gives the site; below 0 where it takes them. */
export const piecesMore = ({ of, why }: StockChange): number =>
  of.kind === 'equipment' ? 0 : why === 'borrowed' ? of.count : -of.count
