import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { awayText, stockAway } from '../stock-away.ts'

/** Where it is booked at that time, that is said in place of this. */
export function stockAwayShort(reading: SetupReading): Found[] {
  return stockAway(reading)
    .filter(({ booked }) => booked.length === 0)
    .map((away): Found => {
      const { furnishing, shortage, asks } = away
      const [{ layout, count }, ...others] = asks
      const also =
        others.length === 0 ? '' : others.length === 1 ? ' (and one more)' : ` (and ${others.length} more)`
      return {
        code: 'stock-away-short',
        about: aboutRow('furnishing', furnishing),
        message: `${awayText(away, reading)}, and layout ${layout.name}${also} asks ${count}`,
        fix: `borrow ${count - shortage.least}, bring some back, or book a smaller layout for that time`,
        field: null,
      }
    })
}
