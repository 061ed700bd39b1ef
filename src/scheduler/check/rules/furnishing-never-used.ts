import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function furnishingNeverUsed({ setup, usesOf }: SetupReading): Found[] {
  return setup.furnishings
    .filter(({ id }) => usesOf(id).length === 0)
    .map((furnishing) => ({
      code: 'furnishing-never-used',
      about: aboutRow('furnishing', furnishing),
      message: `no layout uses the ${furnishing.namePlural}`,
      fix: 'add them to the layouts they belong to, or take them out of use',
      field: null,
    }))
}
