import type { StockChange } from '../../../domain/stock-change.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Each change by itself; those that are over do not matter any more. */
export function stockChangeOverOwned(reading: SetupReading): Found[] {
  const { setup, now } = reading
  return setup.stockChanges.flatMap((change): Found[] => {
    const what = stockOf(reading, change)
    if (!what || what.count <= what.owned || change.why === 'borrowed') return []
    if (change.toAt !== null && change.toAt <= now) return []
    const where = change.why === 'lent-out' ? 'lent out' : 'out of service'
    return [
      {
        code: 'stock-change-over-owned',
        about: aboutRow('stockChange', { id: change.id, name: what.namePlural }),
        message: `${what.count} ${what.namePlural} are ${where}, the site owns ${what.owned}`,
        fix: `enter ${what.owned} at most, or correct how many the site owns`,
        field: '/of/count',
      },
    ]
  })
}

function stockOf(
  { setup, furnishings }: SetupReading,
  { of }: StockChange,
): { count: number; owned: number; namePlural: string } | null {
  if (of.kind === 'equipment') return null
  const stock =
    of.kind === 'furnishing'
      ? furnishings.get(of.furnishingId)
      : setup.tools.find(({ id }) => id === of.toolId)
  return stock ? { count: of.count, owned: stock.countOwned, namePlural: stock.namePlural } : null
}
