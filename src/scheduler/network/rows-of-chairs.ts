/** Whether chairs of the wanted layout stand in rows, which are marked and lined up. */
import type { LayoutKind } from '../../domain/layout-kind.ts'
import { rowSurvey } from '../standards/advice/row-survey.ts'
import type { NetworkInput } from './network-input.ts'
import { isChair, isTable } from './piece-kinds.ts'
import type { PieceMoves } from './piece-moves.ts'

/** Of the other kinds, chairs of meetings and of what has no name may stand in rows, in a circle, or anyhow. */
const ALWAYS_IN_ROWS: readonly LayoutKind[] = ['worship', 'overflow']
const PERHAPS_IN_ROWS: readonly LayoutKind[] = ['meeting', 'other']

/** Where a chair's size is not on record. Common practice, no source. */
const CHAIR_METRES = 0.5

/**
 * Chairs stand in rows for worship and overflow; for a meeting, or where the kind is `other`, if their placements show
 * it. Where there are tables, chairs stand at them; at a banquet or at games, along the wall.
 */
export function chairsStandInRows(moves: readonly PieceMoves[], { toLayout }: NetworkInput): boolean {
  if (moves.some((one) => one.wanted > 0 && isTable(one.furnishing.kind))) return false
  if (ALWAYS_IN_ROWS.includes(toLayout.kind)) return true
  return PERHAPS_IN_ROWS.includes(toLayout.kind) && placementsShowRows(moves)
}

function placementsShowRows(moves: readonly PieceMoves[]): boolean {
  const chairs = moves
    .filter(({ furnishing }) => isChair(furnishing.kind))
    .flatMap(({ furnishing, placesTo }) =>
      (placesTo ?? []).map(({ xMetres, yMetres, rotationDegrees }) => ({
        kind: furnishing.kind,
        xMetres,
        yMetres,
        rotationDegrees,
        widthMetres: furnishing.widthMetres ?? CHAIR_METRES,
        depthMetres: furnishing.depthMetres ?? CHAIR_METRES,
        seatsPerPiece: furnishing.seatsPerPiece,
      })),
    )
  return chairs.length > 0 && rowSurvey(chairs, []) !== null
}
