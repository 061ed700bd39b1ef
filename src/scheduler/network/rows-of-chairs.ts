/** Whether chairs of the wanted layout stand in rows, which are marked and lined up, and in how many. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'
import type { LayoutKind } from '../../domain/layout-kind.ts'
import type { AdvicePlacement } from '../standards/advice/index.ts'
import { chairLines, rowSurvey } from '../standards/advice/row-survey.ts'
import type { NetworkInput } from './network-input.ts'
import { isChair, isTable } from './piece-kinds.ts'
import type { PieceMoves } from './piece-moves.ts'
import { placesSet } from './placed-moves.ts'
import type { FloorPlan } from './zones.ts'

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
    .flatMap(({ furnishing, placesTo }) => chairsAt(furnishing, placesTo ?? []))
  return chairs.length > 0 && rowSurvey(chairs, []) !== null
}

/** Chairs to a row where no plan shows any. Common practice, no source. */
const CHAIRS_TO_A_ROW = 12

/**
 * Rows in which chairs are set, zone by zone: as the plan has them, else rows of twelve. Where only some of the chairs of
 * a plan are set and nobody knows which, that share of its rows.
 * @param setByZone  chairs of the furnishing that are set, by zone index
 */
export function rowsSetByZone(moves: PieceMoves, setByZone: readonly number[], plan: FloorPlan): number[] {
  const places = moves.placed ? placesSet(moves.placed) : moves.placesTo
  if (places === null) return setByZone.map((chairs) => Math.ceil(chairs / CHAIRS_TO_A_ROW))
  return setByZone.map((chairs, index) => {
    const here = places.filter((place) => plan.zoneAt(place) === index)
    if (here.length === 0) return Math.ceil(chairs / CHAIRS_TO_A_ROW)
    const lines = chairLines(chairsAt(moves.furnishing, here))
    return Math.ceil((lines * Math.min(chairs, here.length)) / here.length)
  })
}

function chairsAt(furnishing: Furnishing, places: readonly Placement[]): AdvicePlacement[] {
  const { kind, widthMetres, depthMetres, seatsPerPiece } = furnishing
  return places.map(({ xMetres, yMetres, rotationDegrees }) => ({
    kind,
    xMetres,
    yMetres,
    rotationDegrees,
    widthMetres: widthMetres ?? CHAIR_METRES,
    depthMetres: depthMetres ?? CHAIR_METRES,
    seatsPerPiece,
  }))
}
