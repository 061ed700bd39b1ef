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

/** A piece that moves, at one of its ends: as large as a circle over its longer side. */
interface End {
  readonly place: Placement
  readonly radiusMetres: number
}

/**
 * A piece goes straight where that is no farther than the short carry that handling figures include, where no other
 * piece that moves stands in its new place, and where none is wanted in its old one: then it does not matter what is
 * done first. Pieces of unknown size never do. One that is only turned stays where it is for this.
 * @param moves  of a turn whose floor need not be clear in between
 */
export function withStraightMoves<Moves extends MovesOfPieces>(
  moves: readonly Moves[],
  shortCarryMetres: number,
): Moves[] {
  const starts = moves.flatMap(({ furnishing, placed }) =>
    placed ? endsOf(furnishing, [...placed.onFloor.map(({ from }) => from), ...placed.toStore]) : [],
  )
  const goals = moves.flatMap(({ furnishing, placed }) =>
    placed ? endsOf(furnishing, [...placed.onFloor.map(({ to }) => to), ...placed.fromStore]) : [],
  )
  return moves.map((one) => {
    const { furnishing, placed } = one
    if (!placed || !standsOnFloor(furnishing.kind)) return one
    const isStraight = (move: MoveOnFloor) =>
      move.metres <= shortCarryMetres &&
      endsOf(furnishing, [move.from, move.to]).length === 2 &&
      !isInTheWay(furnishing, move.to, starts, move.from) &&
      !isInTheWay(furnishing, move.from, goals, move.to)
    const straight = placed.onFloor.filter(isStraight)
    if (straight.length === 0) return one
    const onFloor = placed.onFloor.filter((move) => !straight.includes(move))
    return {
      ...one,
      moves: one.moves - straight.length,
      movesStraight: straight.length,
      placed: { ...placed, onFloor, straight },
    }
  })
}

/** None of pieces whose size nobody has entered. */
function endsOf({ widthMetres, depthMetres }: Furnishing, places: readonly Placement[]): End[] {
  if (widthMetres === null || depthMetres === null) return []
  const radiusMetres = Math.max(widthMetres, depthMetres) / 2
  return places.map((place) => ({ place, radiusMetres }))
}

/** @param own  the other end of the very piece */
function isInTheWay(furnishing: Furnishing, place: Placement, ends: readonly End[], own: Placement): boolean {
  const radiusMetres = Math.max(furnishing.widthMetres ?? 0, furnishing.depthMetres ?? 0) / 2
  return ends.some((end) => {
    if (end.place === own) return false
    const x = end.place.xMetres - place.xMetres
    const y = end.place.yMetres - place.yMetres
    const clear = radiusMetres + end.radiusMetres
    return x * x + y * y < clear * clear * (1 - 1e-9)
  })
}
