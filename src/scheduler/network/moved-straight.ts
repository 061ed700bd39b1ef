/** Which pieces go straight to where they are wanted, instead of being put aside first. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'
import { standsOnFloor } from './piece-kinds.ts'
import type { MoveOnFloor, PlacedMoves } from './placed-moves.ts'

/** Of one furnishing. */
interface MovesOfPieces {
  readonly furnishing: Furnishing
  readonly moves: number
  readonly placed: PlacedMoves | null
}

/** A piece that moves, as large as a circle over its longer side. */
interface Moving {
  readonly furnishing: Furnishing
  readonly from: Placement | null
  readonly to: Placement | null
  readonly radiusMetres: number
  /** It may go straight: not far, and of a size that is known. */
  readonly mayBeStraight: boolean
}

/**
 * A piece goes straight where that is no farther than the short carry that handling figures include, and its new place is
 * free by then: of other kinds, and of pieces that are put aside or carried out, none stands there; of its own kind only the
 * next one, which goes straight itself and first, as in a row that is shifted; and nothing else is wanted near its old
 * place. Pieces of unknown size never do. One that is only turned stays where it is for this.
 * @param moves  of a turn whose floor need not be clear in between
 */
export function withStraightMoves<Moves extends MovesOfPieces>(
  moves: readonly Moves[],
  shortCarryMetres: number,
): Moves[] {
  const movingOf = new Map<MoveOnFloor, Moving>()
  const all: Moving[] = []
  for (const { furnishing, placed } of moves) {
    if (!placed) continue
    const { widthMetres, depthMetres } = furnishing
    const isSizeKnown = widthMetres !== null && depthMetres !== null
    const radiusMetres = Math.max(widthMetres ?? 0, depthMetres ?? 0) / 2
    const isOnFloor = standsOnFloor(furnishing.kind) && isSizeKnown
    for (const move of placed.onFloor) {
      const mayBeStraight = isOnFloor && move.metres <= shortCarryMetres
      movingOf.set(move, { furnishing, from: move.from, to: move.to, radiusMetres, mayBeStraight })
    }
    const gone = placed.toStore.map((from) => ({
      furnishing,
      from,
      to: null,
      radiusMetres,
      mayBeStraight: false,
    }))
    const come = placed.fromStore.map((to) => ({
      furnishing,
      from: null,
      to,
      radiusMetres,
      mayBeStraight: false,
    }))
    if (isSizeKnown) all.push(...gone, ...come)
  }
  all.push(...movingOf.values())
  const straight = straightOf(all)
  return moves.map((one) => {
    const { placed } = one
    const isStraight = (move: MoveOnFloor) => straight.has(movingOf.get(move)!)
    const goStraight = placed?.onFloor.filter(isStraight) ?? []
    if (!placed || goStraight.length === 0) return one
    const onFloor = placed.onFloor.filter((move) => !isStraight(move))
    return {
      ...one,
      moves: one.moves - goStraight.length,
      movesStraight: goStraight.length,
      placed: { ...placed, onFloor, straight: goStraight },
    }
  })
}

/** The most of those that may: who stands in the way of one that does not, or goes round in a circle, is taken out. */
function straightOf(all: readonly Moving[]): Set<Moving> {
  const straight = new Set(all.filter(({ mayBeStraight }) => mayBeStraight))
  // Who must have gone before one can come.
  const waitsFor = new Map<Moving, Moving[]>()
  const blockedBy = new Map<Moving, Moving[]>()
  for (const one of straight) {
    waitsFor.set(
      one,
      all.filter((other) => other !== one && areNear(one, one.to, other, other.from)),
    )
    blockedBy.set(
      one,
      all.filter((other) => other !== one && areNear(one, one.from, other, other.to)),
    )
  }
  for (let before = -1; before !== straight.size; ) {
    before = straight.size
    for (const one of straight) {
      // Kinds come one after the other on the list: only among its own kind can one piece wait for the next.
      const isInTheWay = (other: Moving) => !straight.has(other) || other.furnishing !== one.furnishing
      if (waitsFor.get(one)!.some(isInTheWay) || blockedBy.get(one)!.some(isInTheWay)) straight.delete(one)
    }
    for (const one of goingRound(straight, waitsFor)) straight.delete(one)
  }
  return straight
}

/** Those that wait for each other, and those behind them. */
function goingRound(straight: ReadonlySet<Moving>, waitsFor: ReadonlyMap<Moving, Moving[]>): Set<Moving> {
  const left = new Set(straight)
  for (let before = -1; before !== left.size; ) {
    before = left.size
    for (const one of left) if (!waitsFor.get(one)!.some((other) => left.has(other))) left.delete(one)
  }
  return left
}

function areNear(one: Moving, place: Placement | null, other: Moving, there: Placement | null): boolean {
  if (place === null || there === null) return false
  const x = place.xMetres - there.xMetres
  const y = place.yMetres - there.yMetres
  const clear = one.radiusMetres + other.radiusMetres
  return x * x + y * y < clear * clear * (1 - 1e-9)
}
