/** Which pieces stand where one is wanted already, of one furnishing: any of them is as good as another. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'
import type { FloorPlan } from './zones.ts'

/** Nobody sets a table to the centimetre. Both: common practice, no source. */
const SAME_PLACE_METRES = 0.05
const SAME_TURN_DEGREES = 2
/** Decimal places carry noise: 5 cm exactly are 5 cm. */
const NOISE = 1e-9

/** After so many degrees of turning a piece looks as before; null: it does at once. */
function degreesUntilAlike({ kind, widthMetres, depthMetres }: Furnishing): number | null {
  switch (kind) {
    case 'round-table':
      return null
    case 'long-table':
    case 'games-table':
    case 'stage-deck':
    case 'dance-floor-panel':
      return widthMetres !== null && widthMetres === depthMetres ? 90 : 180
    case 'post-pair':
      return 180
    default:
      return 360
  }
}

/**
 * The pieces that do not stand where one is wanted, and the places where none stands. A piece stays where a place is
 * wanted within 5 cm and 2 degrees of it, as far as its shape shows how it is turned: a round table looks the same
 * however it is turned, a rectangular one, a deck or a panel the other way round too, a square one a quarter round.
 * What is nearest to each other belongs together.
 */
export function notInItsPlace(
  furnishing: Furnishing,
  from: readonly Placement[],
  to: readonly Placement[],
): { from: Placement[]; to: Placement[] } {
  const alikeDegrees = degreesUntilAlike(furnishing)
  const pairs = pairsNear(from, to, (a, b) => isTurnedAlike(a, b, alikeDegrees))
  const stays = new Set<number>()
  const held = new Set<number>()
  for (const { fromIndex, toIndex } of pairs) {
    if (stays.has(fromIndex) || held.has(toIndex)) continue
    stays.add(fromIndex)
    held.add(toIndex)
  }
  return {
    from: from.filter((_, index) => !stays.has(index)),
    to: to.filter((_, index) => !held.has(index)),
  }
}

function isTurnedAlike(a: Placement, b: Placement, alikeDegrees: number | null): boolean {
  if (alikeDegrees === null) return true
  const turned = Math.abs(a.rotationDegrees - b.rotationDegrees) % alikeDegrees
  return Math.min(turned, alikeDegrees - turned) <= SAME_TURN_DEGREES + NOISE
}

interface Pair {
  readonly fromIndex: number
  readonly toIndex: number
  readonly metres: number
}

/** Pieces and places that are the same place, nearest first. Each is looked up in the squares around it only. */
function pairsNear(
  from: readonly Placement[],
  to: readonly Placement[],
  isAlike: (a: Placement, b: Placement) => boolean,
): Pair[] {
  const toBySquare = new Map<number, number[]>()
  for (const [index, place] of to.entries()) {
    const square = squareAt(place, 0, 0)
    const others = toBySquare.get(square)
    if (others) others.push(index)
    else toBySquare.set(square, [index])
  }
  const pairs: Pair[] = []
  for (const [fromIndex, place] of from.entries()) {
    for (const [right, up] of SQUARES_AROUND) {
      for (const toIndex of toBySquare.get(squareAt(place, right, up)) ?? []) {
        const other = to[toIndex]!
        const metres = Math.hypot(place.xMetres - other.xMetres, place.yMetres - other.yMetres)
        if (metres <= SAME_PLACE_METRES + NOISE && isAlike(place, other)) {
          pairs.push({ fromIndex, toIndex, metres })
        }
      }
    }
  }
  return pairs.sort((a, b) => a.metres - b.metres || a.fromIndex - b.fromIndex || a.toIndex - b.toIndex)
}

const SQUARES_AROUND = [-1, 0, 1].flatMap((right) => [-1, 0, 1].map((up) => [right, up] as const))

/** More squares than any floor has in a line: floors reach 500 m either way. */
const SQUARES_IN_A_LINE = 100_000

/** Squares a little larger than what counts as the same place, so that neighbours hold all there is. */
const SQUARE_METRES_LONG = SAME_PLACE_METRES + 2 * NOISE

const squareAt = ({ xMetres, yMetres }: Placement, right: number, up: number): number =>
  (Math.floor(xMetres / SQUARE_METRES_LONG) + right) * SQUARES_IN_A_LINE +
  (Math.floor(yMetres / SQUARE_METRES_LONG) + up)

export function countsByZone(places: readonly Placement[], plan: FloorPlan): number[] {
  const counts = plan.zones.map(() => 0)
  for (const place of places) counts[plan.zoneAt(place)]! += 1
  return counts
}
