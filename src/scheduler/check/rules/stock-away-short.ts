import { piecesText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { piecesMore } from '../put-away.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Only layouts that the whole stock would do for: others are short anyway. */
export function stockAwayShort({ setup, now, usesOf }: SetupReading): Found[] {
  return setup.furnishings.flatMap((furnishing): Found[] => {
    const changes = setup.stockChanges.filter(
      ({ of, fromAt, toAt }) =>
        of.kind === 'furnishing' &&
        of.furnishingId === furnishing.id &&
        fromAt <= now &&
        (toAt === null || now < toAt),
    )
    const more = changes.reduce((sum, change) => sum + piecesMore(change), 0)
    const left = Math.max(0, furnishing.countOwned + more)
    const [worst, ...others] = usesOf(furnishing.id)
      .filter(({ count }) => count > left && count <= furnishing.countOwned)
      .sort((a, b) => b.count - a.count)
    if (!worst || more >= 0) return []
    const alsoShort =
      others.length === 0 ? '' : others.length === 1 ? ' (and one more)' : ` (and ${others.length} more)`
    return [
      {
        code: 'stock-away-short',
        about: aboutRow('furnishing', furnishing),
        message: `${piecesText(-more, furnishing)} of ${furnishing.countOwned} ${-more === 1 ? 'is' : 'are'} away now, which leaves ${left}, and layout ${worst.layout.name}${alsoShort} asks ${worst.count}`,
        fix: `borrow ${worst.count - left}, bring some back, or book a smaller layout until then`,
        field: null,
      },
    ]
  })
}
