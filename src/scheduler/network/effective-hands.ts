/** Hands on one task add up less than linearly: they wait for each other and for the trolley. */
import type { Policy } from '../../domain/policy.ts'

/**
 * What `hands` on one task are worth.
 * @param table  the site's table, in any order; one hand is worth one whatever it says; of two entries for the same
 *               number the later counts
 * @param hands  1 or more
 * @returns straight lines between the entries, level beyond the last, never under 1: a helper does not undo work
 * @source model of the site's crew; the usual table (2 → 2, 4 → 3.7, 6 → 5.2, 8 → 6.4, 12 → 8) is common practice, no source
 */
export function effectiveHands(table: Policy['effectiveHands'], hands: number): number {
  let below = { hands: 1, effective: 1 }
  let above: Policy['effectiveHands'][number] | null = null
  for (const entry of table) {
    if (entry.hands <= 1) continue
    if (entry.hands <= hands && entry.hands >= below.hands) below = entry
    if (entry.hands > hands && (above === null || entry.hands <= above.hands)) above = entry
  }
  if (above === null || below.hands >= hands) return Math.max(1, below.effective)
  const along = (hands - below.hands) / (above.hands - below.hands)
  return Math.max(1, below.effective + along * (above.effective - below.effective))
}
