/** Which piece goes where, for pieces of one furnishing: any of them is as good as another. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'
import type { FloorPlan } from './zones.ts'

/** Places are compared on a grid as fine as this: nobody sets a table to the centimetre. Common practice, no source. */
const GRID_METRES = 0.05

/**
 * The pieces that do not stand where one is wanted, and the places where none stands. A round table looks the same
 * however it is turned; anything else has to be turned the same way, within a degree.
 */
export function notInItsPlace(
  { kind }: Furnishing,
  from: readonly Placement[],
  to: readonly Placement[],
): { from: Placement[]; to: Placement[] } {
  const placeName = ({ xMetres, yMetres, rotationDegrees }: Placement): string => {
    const turned = kind === 'round-table' ? 0 : Math.round(rotationDegrees) % 360
    return `${Math.round(xMetres / GRID_METRES)}/${Math.round(yMetres / GRID_METRES)}/${turned}`
  }
  const free = new Map<string, number>()
  for (const placement of to) free.set(placeName(placement), (free.get(placeName(placement)) ?? 0) + 1)
  const displaced = from.filter((placement) => !taken(free, placeName(placement)))
  const held = new Map<string, number>()
  for (const placement of from) held.set(placeName(placement), (held.get(placeName(placement)) ?? 0) + 1)
  return { from: displaced, to: to.filter((placement) => !taken(held, placeName(placement))) }
}

/** Takes one of what is left under a name. */
function taken(left: Map<string, number>, name: string): boolean {
  const count = left.get(name) ?? 0
  if (count === 0) return false
  left.set(name, count - 1)
  return true
}

/** Pieces by zone index. */
export interface MatchedByZone {
  /** Pieces taken from a zone that are set again somewhere in the room. */
  readonly movesFrom: readonly number[]
  readonly movesTo: readonly number[]
  readonly toStore: readonly number[]
  readonly fromStore: readonly number[]
}

/**
 * Displaced pieces go to free places of their own zone first, then to those of the nearest zone: pairs of zones by how
 * far they are apart, then by number. What is left over goes to the store or comes from it.
 */
export function matchedByZone(
  displaced: { readonly from: readonly Placement[]; readonly to: readonly Placement[] },
  plan: FloorPlan,
): MatchedByZone {
  const toStore = countsByZone(displaced.from, plan)
  const fromStore = countsByZone(displaced.to, plan)
  const movesFrom = plan.zones.map(() => 0)
  const movesTo = plan.zones.map(() => 0)
  for (const [a, b] of pairsFromNear(plan)) {
    const count = Math.min(toStore[a]!, fromStore[b]!)
    toStore[a]! -= count
    fromStore[b]! -= count
    movesFrom[a]! += count
    movesTo[b]! += count
  }
  return { movesFrom, movesTo, toStore, fromStore }
}

export function countsByZone(places: readonly Placement[], plan: FloorPlan): number[] {
  const counts = plan.zones.map(() => 0)
  for (const place of places) counts[plan.zoneAt(place)]! += 1
  return counts
}

function pairsFromNear({ zones, apart }: FloorPlan): [a: number, b: number][] {
  return zones
    .flatMap((_, a) => zones.map((_, b) => ({ a, b, metres: a === b ? -1 : apart(a, b) })))
    .sort((x, y) => x.metres - y.metres || x.a - y.a || x.b - y.b)
    .map(({ a, b }) => [a, b])
}
