/** Layouts that seat everybody who is expected. */
import type { Layout } from '../../../domain/layout.ts'
import type { LayoutKind } from '../../../domain/layout-kind.ts'

/**
 * A layout without a number of seats sets no limit: it seats them where it is of the kind that was asked for.
 * @returns the kind asked for first, then the fewest seats, those without a number last; then by id
 */
export function seatingLayouts(layouts: readonly Layout[], headcount: number, kind: LayoutKind): Layout[] {
  return layouts
    .filter((layout) => (layout.seats === null ? layout.kind === kind : layout.seats >= headcount))
    .sort(
      (a, b) =>
        Number(a.kind !== kind) - Number(b.kind !== kind) ||
        (a.seats ?? Number.MAX_SAFE_INTEGER) - (b.seats ?? Number.MAX_SAFE_INTEGER) ||
        (a.id < b.id ? -1 : 1),
    )
}
