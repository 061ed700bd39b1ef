import { cleanPiecesShort } from '../../network/clean-pieces-short.ts'
import { piecesText } from '../../wording/pieces-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/**
 * Of each kind of cloth or place setting, the banquet that takes most: after it they are in the wash, and clean ones
 * must be there for the next. Silent where there are not enough for even one: that is said of the layout.
 */
export function linenForOneUse({ setup, usesOf }: SetupReading): Found[] {
  return setup.furnishings.flatMap((furnishing): Found[] => {
    const largest = usesOf(furnishing.id)
      .filter(({ layout }) => layout.kind === 'banquet')
      .reduce<ReturnType<SetupReading['usesOf']>[number] | null>(
        (most, use) => (most !== null && most.count >= use.count ? most : use),
        null,
      )
    if (largest === null || largest.count > furnishing.countOwned) return []
    const used = [{ furnishingId: furnishing.id, count: largest.count }]
    const [short] = cleanPiecesShort({
      standing: used,
      toLayout: { ...largest.layout, furnishings: used },
      outgoing: { kind: 'banquet', foodServed: true, floorWet: false, headcount: 1 },
      furnishings: [furnishing],
    })
    if (short === undefined) return []
    return [
      {
        code: 'linen-for-one-use',
        about: aboutRow('furnishing', furnishing),
        message: `layout ${largest.layout.name} takes ${piecesText(largest.count, furnishing)} and the site owns ${furnishing.countOwned}: while those of one meal are in the wash, ${short.short} are missing for the next`,
        fix: `own ${short.short} more, or leave time to wash between two meals`,
        field: '/countOwned',
      },
    ]
  })
}
