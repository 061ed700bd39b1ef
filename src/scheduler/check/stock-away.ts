/** Times in which so many pieces are away that a layout cannot be set up, and the bookings that want them then. */
import type { Booking } from '../../domain/booking.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Instant } from '../../domain/instant.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
import { piecesText } from '../wording/pieces-text.ts'
import { lastingChange, piecesMore } from './put-away.ts'
import type { LayoutUse, SetupReading } from './setup-reading.ts'
import { countsFromNow, holdsAt, isOver, leastDuring, meets, type Shortage, shortages } from './shortage.ts'
import { whenText } from './when-text.ts'

export interface StockAway {
  readonly furnishing: Furnishing
  /** Counts what is borrowed until further notice. */
  readonly owned: number
  readonly shortage: Shortage
  /** Layouts that the whole stock would do for, and what is left then does not; most pieces first. */
  readonly asks: readonly [LayoutUse, ...LayoutUse[]]
  /** Those that have too few while they last, by doors. */
  readonly booked: readonly Booking[]
}

/** By furnishing, then time. Others than those the whole stock would do for are short anyway. */
export function stockAway(reading: SetupReading): StockAway[] {
  const { setup, now, bookings } = reading
  const coming = setup.stockChanges.filter((change) => !isOver(change, now))
  return setup.furnishings.flatMap((furnishing): StockAway[] => {
    const changes = coming.filter(({ of }) => of.kind === 'furnishing' && of.furnishingId === furnishing.id)
    if (changes.length === 0) return []
    const owned = furnishing.countOwned + Math.max(0, lastingChange(reading, furnishing))
    const uses = reading
      .usesOf(furnishing.id)
      .filter(({ count }) => count <= owned)
      .sort((a, b) => b.count - a.count)
    const countByLayout = new Map(uses.map(({ layout, count }) => [layout.id, count]))
    const leftAt = (at: Instant): number =>
      Math.max(
        0,
        changes
          .filter((change) => holdsAt(change, at))
          .reduce((sum, change) => sum + piecesMore(change), furnishing.countOwned),
      )
    const counts = countsFromNow(changes, now, leftAt)
    return shortages(uses[0]?.count ?? 0, counts).flatMap((shortage): StockAway[] => {
      const [most, ...others] = uses.filter(({ count }) => count > shortage.least)
      if (!most) return []
      const booked = bookings.filter(({ layoutId, doorsAt, clearAt }) => {
        const count = countByLayout.get(layoutId) ?? 0
        const span = { fromAt: doorsAt, toAt: clearAt }
        return count > shortage.least && meets(shortage, span) && leastDuring(span, counts) < count
      })
      return [{ furnishing, owned, shortage, asks: [most, ...others], booked }]
    })
  })
}

/** `5 round tables of 18 are away until Sat 28 Nov 09:00, which leaves 13` */
export function awayText({ furnishing, owned, shortage }: StockAway, reading: SetupReading): string {
  const { now, setup } = reading
  const { least, leastAt, isEven } = shortage
  const away = owned - least
  const from = leastAt <= now ? 'now' : `from ${dayAndTimeOf(leastAt, setup.site.zone)}`
  const are = away === 1 ? 'is' : 'are'
  const leaves = isEven ? String(least) : `as few as ${least} ${from}`
  return `${isEven ? '' : 'up to '}${piecesText(away, furnishing)} of ${owned} ${are} away ${whenText(shortage, reading)}, which leaves ${leaves}`
}
