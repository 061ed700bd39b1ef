import { isForAdultsOnly } from '../../network/safety-notes.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/**
 * Pieces that a layout uses and minors may not handle: by their kind, by their mass, or because the site says so.
 * Silent while nobody at all is on duty: that is said once.
 */
export function adultsOnlyNobody({ setup, lanes, usesOf }: SetupReading): Found[] {
  if (lanes.length === 0 || lanes.some(({ adult }) => adult)) return []
  return setup.furnishings
    .filter((furnishing) => usesOf(furnishing.id).length > 0 && isForAdultsOnly(furnishing, setup))
    .map((furnishing) => ({
      code: 'adults-only-nobody',
      about: aboutRow('furnishing', furnishing),
      message: `only adults may handle ${furnishing.namePlural}, and no adult is on a shift`,
      fix: 'add a shift with adults',
      field: null,
    }))
}
