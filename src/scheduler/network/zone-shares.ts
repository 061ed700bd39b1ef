/** How many pieces of a furnishing are taken from each zone and wanted in it. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'
import { builtAs, likelyZone } from './kept-together.ts'
import { partsByWeight } from './lots.ts'
import type { PieceMoves } from './piece-moves.ts'
import { countsByZone, matchedByZone } from './placement-matching.ts'
import type { FloorPlan } from './zones.ts'

/** By zone index. */
export interface ZoneShares {
  readonly parkedFrom: readonly number[]
  readonly parkedTo: readonly number[]
  /** What goes out for good, and what is carried out to come back. */
  readonly toStore: readonly number[]
  readonly fromStore: readonly number[]
}

/**
 * Where pieces are known to stand on both sides, zone by zone as they are matched; else in proportion to what stands and
 * what is wanted in each zone, so that no zone gives more than it has.
 * @param parkedCount  of the pieces that move; the rest of them is carried out and back
 */
export function sharesByZone(moves: PieceMoves, parkedCount: number, plan: FloorPlan): ZoneShares {
  const outAndBack = moves.moves - parkedCount
  if (moves.displaced) {
    const matched = matchedByZone(moves.displaced, plan)
    const parkedFrom = partsByWeight(parkedCount, matched.movesFrom)
    const parkedTo = partsByWeight(parkedCount, matched.movesTo)
    return {
      parkedFrom,
      parkedTo,
      toStore: matched.toStore.map((count, i) => count + matched.movesFrom[i]! - parkedFrom[i]!),
      fromStore: matched.fromStore.map((count, i) => count + matched.movesTo[i]! - parkedTo[i]!),
    }
  }
  const stood = standingByZone(moves.stood, moves.furnishing.kind, moves.seenFrom, plan)
  const wanted = standingByZone(moves.wanted, moves.furnishing.kind, moves.seenTo, plan)
  const toStore = partsByWeight(moves.toStore + outAndBack, stood)
  const fromStore = partsByWeight(moves.fromStore + outAndBack, wanted)
  return {
    toStore,
    fromStore,
    parkedFrom: partsByWeight(
      parkedCount,
      stood.map((count, i) => count - toStore[i]!),
    ),
    parkedTo: partsByWeight(
      parkedCount,
      wanted.map((count, i) => count - fromStore[i]!),
    ),
  }
}

/**
 * Where they are known to stand, or what they belong to; else all in the zone that is likely for what they
 * are built into, and what is not built into anything is spread evenly over the floor.
 */
export function standingByZone(
  count: number,
  kind: FurnishingKind,
  seen: readonly Placement[] | null,
  plan: FloorPlan,
): number[] {
  if (seen) return partsByWeight(count, countsByZone(seen, plan))
  const thing = builtAs(kind)
  if (thing === null) {
    return partsByWeight(
      count,
      plan.zones.map((zone) => zone.areaSquareMetres),
    )
  }
  const likely = likelyZone(thing, plan.zones.length)
  return plan.zones.map((_, index) => (index === likely ? count : 0))
}

/** Whether the zone that such pieces are counted to is only a likely one. */
export const zoneIsGuessed = (
  kind: FurnishingKind,
  seen: readonly Placement[] | null,
  { zones }: FloorPlan,
): boolean => seen === null && builtAs(kind) !== null && zones.length > 1
