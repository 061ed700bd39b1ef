/** The order in which alternatives are offered: what disturbs least comes first. */
import type { Alternative } from '../../../domain/alternative.ts'
import type { Instant } from '../../../domain/instant.ts'

/** Other doors so near to those asked for disturb less than another layout or room: one hour. */
const NEAR_MS = 3600_000

/**
 * Doors within an hour, another layout, another room, doors further away, and last what somebody must agree to. Of doors
 * the nearer first; as near as each other, the earlier.
 */
export const ranked = (alternatives: readonly Alternative[], askedAt: Instant | null): Alternative[] =>
  alternatives
    .map((alternative) => ({ alternative, rank: rankOf(alternative, askedAt) }))
    .sort((a, b) => a.rank.reduce((order, part, index) => order || part - b.rank[index]!, 0))
    .map(({ alternative }) => alternative)

function rankOf(alternative: Alternative, askedAt: Instant | null): readonly [number, number, number] {
  switch (alternative.kind) {
    case 'other-doors': {
      const { doorsAt } = alternative
      const awayMs = Math.abs(doorsAt - (askedAt ?? doorsAt))
      return [awayMs <= NEAR_MS ? 0 : 3, awayMs, doorsAt]
    }
    case 'other-layout':
      return [1, 0, 0]
    case 'other-room':
      return [2, 0, 0]
    case 'more-hands':
      return [4, 0, 0]
    default:
      return alternative satisfies never
  }
}
