/** Piece by piece from where to where: what a floor plan of the turn draws as arrows. */
import type { FurnishingId } from '../../domain/ids.ts'
import type { Placement } from '../../domain/layout.ts'
import type { PieceMove, PieceMoveEnd } from '../../domain/piece-move.ts'
import type { Parked } from './parking.ts'
import type { PieceMoves } from './piece-moves.ts'

/**
 * Of furnishings all of whose places are known; of others nobody knows which piece goes where. By furnishing; of each
 * what goes from place to place, then what goes to the store, then what comes from it; by where it starts, x before y.
 */
export function arrows(moves: readonly PieceMoves[], parked: ReadonlyMap<FurnishingId, Parked>): PieceMove[] {
  return moves.flatMap(({ furnishing, way, placed }): PieceMove[] => {
    if (!placed) return []
    const store: PieceMoveEnd = { kind: 'store', storagePlaceId: way.store.id }
    const waiting = parked.get(furnishing.id)
    const inRoom = placed.onFloor.slice(0, waiting?.count ?? 0)
    const outAndBack = placed.onFloor.slice(waiting?.count ?? 0)
    const arrow = (from: PieceMoveEnd, to: PieceMoveEnd, metres: number): PieceMove => ({
      furnishingId: furnishing.id,
      from,
      to,
      parkedAt: from.kind === 'place' && to.kind === 'place' ? (waiting?.place ?? null) : null,
      metres,
    })
    const out = [...placed.toStore, ...outAndBack.map(({ from }) => from)]
    const back = [...placed.fromStore, ...outAndBack.map(({ to }) => to)]
    return [
      ...[...placed.straight]
        .sort((a, b) => byPlace(a.from, b.from) || byPlace(a.to, b.to))
        .map(({ from, to, metres }) => ({ ...arrow(placeOf(from), placeOf(to), metres), parkedAt: null })),
      ...inRoom
        .sort((a, b) => byPlace(a.from, b.from) || byPlace(a.to, b.to))
        .map(({ from, to, metres }) => arrow(placeOf(from), placeOf(to), metres)),
      ...out.sort(byPlace).map((from) => arrow(placeOf(from), store, way.distanceMetres)),
      ...back.sort(byPlace).map((to) => arrow(store, placeOf(to), way.distanceMetres)),
    ]
  })
}

const placeOf = ({ xMetres, yMetres, rotationDegrees }: Placement): PieceMoveEnd => ({
  kind: 'place',
  xMetres,
  yMetres,
  rotationDegrees,
})

const byPlace = (a: Placement, b: Placement): number =>
  a.xMetres - b.xMetres || a.yMetres - b.yMetres || a.rotationDegrees - b.rotationDegrees
