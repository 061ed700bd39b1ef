/** How much there is of something at a time: what is owned, without what is out of service or lent out, with what is borrowed. */
import { type HalfOpenInterval, overlaps } from '../../domain/half-open-interval.ts'
import { Instant, LATEST_AT } from '../../domain/instant.ts'
import type { StockChange, StockChangeOf } from '../../domain/stock-change.ts'

/** The least there is at any time of the span: what is missing for a part of it is not counted on. Never below 0. */
export function stockAt(
  countOwned: number,
  changes: readonly StockChange[],
  isOf: (of: StockChangeOf) => boolean,
  span: HalfOpenInterval,
): number {
  const untilFurtherNotice = Instant.parse(LATEST_AT)
  const counted = changes.flatMap(({ of, why, fromAt, toAt }) => {
    const during = { fromAt, toAt: toAt ?? untilFurtherNotice }
    if (!isOf(of) || !overlaps(during, span)) return []
    const count = of.kind === 'equipment' ? 1 : of.count
    if (why !== 'borrowed') return [-count]
    return during.fromAt <= span.fromAt && during.toAt >= span.toAt ? [count] : []
  })
  return Math.max(
    0,
    counted.reduce((sum, change) => sum + change, countOwned),
  )
}
