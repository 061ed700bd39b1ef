/** Which piece goes where, of a furnishing all of whose places are known: between places, to the store, from it. */
import type { Placement } from '../../domain/layout.ts'
import { type FloorPaths, leastMoves } from '../placement/index.ts'
import type { StoreWay } from './travel.ts'

export interface MoveOnFloor {
  readonly from: Placement
  readonly to: Placement
  /** Along the floor; 0 where it is only turned. */
  readonly metres: number
}

/** Without the pieces that stay. */
export interface PlacedMoves {
  /** The shortest first: put aside, or carried out and back. */
  readonly onFloor: readonly MoveOnFloor[]
  /** Taken up once and put where they are wanted. */
  readonly straight: readonly MoveOnFloor[]
  readonly toStore: readonly Placement[]
  readonly fromStore: readonly Placement[]
}

/** @param interchangeable  false: none may take a place of another, as what was eaten from is not set again */
export function placedMoves(
  from: readonly Placement[],
  to: readonly Placement[],
  interchangeable: boolean,
  way: StoreWay,
  paths: FloorPaths,
): PlacedMoves {
  if (!interchangeable) return { onFloor: [], straight: [], toStore: from, fromStore: to }
  const moves = leastMoves(from, to, paths, way.doorAt)
  return {
    onFloor: moves.onFloor
      .map((move) => ({ from: from[move.from]!, to: to[move.to]!, metres: move.metres }))
      .sort((a, b) => a.metres - b.metres),
    straight: [],
    toStore: moves.toStore.map((index) => from[index]!),
    fromStore: moves.fromStore.map((index) => to[index]!),
  }
}

/** Places where a piece is put, whatever it comes from. */
export const placesSet = ({ onFloor, straight, fromStore }: PlacedMoves): Placement[] => [
  ...straight.map(({ to }) => to),
  ...onFloor.map(({ to }) => to),
  ...fromStore,
]
