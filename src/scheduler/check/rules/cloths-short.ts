import { counted } from '../../wording/counted.ts'
import { aboutRow, type Found } from '../found.ts'
import { piecesOf, tableCount } from '../seating.ts'
import type { SetupReading } from '../setup-reading.ts'

/** A site that owns no cloths lays none. */
export function clothsShort(reading: SetupReading): Found[] {
  const { setup } = reading
  if (setup.furnishings.every(({ kind }) => kind !== 'table-cloth')) return []
  return setup.layouts.flatMap((layout): Found[] => {
    if (layout.kind !== 'banquet') return []
    const tables = tableCount(reading, layout)
    const cloths = piecesOf(reading, layout, ({ kind }) => kind === 'table-cloth').reduce(
      (sum, { count }) => sum + count,
      0,
    )
    if (cloths >= tables) return []
    return [
      {
        code: 'cloths-short',
        about: aboutRow('layout', layout),
        message: `layout ${layout.name} has ${counted(tables, 'table')} and ${cloths === 0 ? 'no cloths' : counted(cloths, 'cloth')}`,
        fix: `add ${counted(tables - cloths, 'cloth')}, unless the tables stay bare`,
        field: '/furnishings',
      },
    ]
  })
}
