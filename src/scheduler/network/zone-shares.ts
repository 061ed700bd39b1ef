/** How many pieces of a furnishing are taken from each zone and wanted in it. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'
import type { Rates } from '../../domain/rate-set.ts'
import { type FloorCarry, floorCarries } from './floor-carry.ts'
import { builtAs, likelyZone } from './kept-together.ts'
import { partsByWeight } from './lots.ts'
import type { PieceMoves } from './piece-moves.ts'
import type { MoveOnFloor } from './placed-moves.ts'
import { countsByZone } from './placement-matching.ts'
import type { FloorPlan } from './zones.ts'

/** By zone index. */
export interface ZoneShares {
  readonly parkedFrom: readonly number[]
  readonly parkedTo: readonly number[]
  /** What goes out for good, and what is carried out to come back. */
  readonly toStore: readonly number[]
  readonly fromStore: readonly number[]
  /** From where to where those go that are parked; null: nobody knows. */
  readonly carries: readonly FloorCarry[] | null
  /** By zone they go to: what is moved straight there. */
  readonly straightTo: readonly number[]
}

/**
 * Where pieces are known to stand on both sides, as each of them goes; else in proportion to what stands and what is
 * wanted in each zone, so that no zone gives more than it has.
 * @param parkedCount  of the pieces that move; the rest of them, those that go farthest, is carried out and back
 */
export function sharesByZone(
  moves: PieceMoves,
  parkedCount: number,
  plan: FloorPlan,
  rates: Rates,
): ZoneShares {
  if (moves.placed) {
    const { onFloor, straight, toStore, fromStore } = moves.placed
    const parked = onFloor.slice(0, parkedCount)
    const outAndBack = onFloor.slice(parkedCount)
    const starts = (some: readonly MoveOnFloor[]) => some.map(({ from }) => from)
    const ends = (some: readonly MoveOnFloor[]) => some.map(({ to }) => to)
    const zoneOf = {
      from: ({ from }: MoveOnFloor) => plan.zoneAt(from),
      to: ({ to }: MoveOnFloor) => plan.zoneAt(to),
    }
    return {
      parkedFrom: countsByZone(starts(parked), plan),
      parkedTo: countsByZone(ends(parked), plan),
      toStore: countsByZone([...toStore, ...starts(outAndBack)], plan),
      fromStore: countsByZone([...fromStore, ...ends(outAndBack)], plan),
      carries: floorCarries(parked, zoneOf, rates),
      straightTo: countsByZone(ends(straight), plan),
    }
  }
  const outAndBack = moves.moves - parkedCount
  const stood = stoodByZone(moves, plan)
  const wanted = wantedByZone(moves, plan)
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
    carries: null,
    straightTo: plan.zones.map(() => 0),
  }
}

export const stoodByZone = (
  { stood, furnishing, seenFrom, spreadFrom }: PieceMoves,
  plan: FloorPlan,
): number[] => spreadByZone(stood, spreadFrom, plan) ?? standingByZone(stood, furnishing.kind, seenFrom, plan)

const wantedByZone = ({ wanted, furnishing, seenTo, spreadTo }: PieceMoves, plan: FloorPlan): number[] =>
  spreadByZone(wanted, spreadTo, plan) ?? standingByZone(wanted, furnishing.kind, seenTo, plan)

/** null: it is not known for these zones. */
const spreadByZone = (count: number, spread: readonly number[] | null, plan: FloorPlan): number[] | null =>
  spread !== null && isSpreadKnown(spread, plan) ? partsByWeight(count, spread) : null

const isSpreadKnown = (spread: readonly number[] | null, { zones }: FloorPlan): boolean =>
  spread?.length === zones.length && spread.some((pieces) => pieces > 0)

/**
 * Where they are known to stand, or what they belong to; else all in the zone that is likely for what they
 * are built into, and what is not built into anything is spread evenly over the floor.
 */
function standingByZone(
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
  spread: readonly number[] | null,
  plan: FloorPlan,
): boolean => seen === null && !isSpreadKnown(spread, plan) && builtAs(kind) !== null && plan.zones.length > 1
