/** Whether people who asked for one layout could do with another. */
import type { Furnishing } from '../../../domain/furnishing.ts'
import type { Layout } from '../../../domain/layout.ts'

/** Of the same kind; or neither is for games, and both have tables or neither has. */
export function servesAlike(asked: Layout, other: Layout, furnishings: readonly Furnishing[]): boolean {
  if (asked.kind === other.kind) return true
  if (asked.kind === 'games' || other.kind === 'games') return false
  return hasTables(asked, furnishings) === hasTables(other, furnishings)
}

const hasTables = (layout: Layout, furnishings: readonly Furnishing[]): boolean =>
  layout.furnishings.some(({ furnishingId }) => {
    const kind = furnishings.find(({ id }) => id === furnishingId)?.kind
    return kind === 'round-table' || kind === 'long-table'
  })
