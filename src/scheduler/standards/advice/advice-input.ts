/** What advice is given on: plain facts about a layout in its room. */
import type { FloorPoint } from '../../../domain/floor.ts'
import type { FurnishingKind } from '../../../domain/furnishing.ts'
import type { LayoutKind } from '../../../domain/layout-kind.ts'
import type { UnitSystem } from '../../../domain/site.ts'
import { amount, count, finite, positive } from '../occupancy/checked-number.ts'
import type { CodeLocale, CodeTables } from '../occupancy/code-tables.ts'
import { codeTables } from '../occupancy/tables-of-locale.ts'

export interface AdviceExit {
  readonly name: string
  readonly clearWidthMillimetres: number
  /** null: unknown. */
  readonly opensOutward: boolean | null
  readonly panicHardware?: boolean | null | undefined
  /** null or left out: unknown. */
  readonly stepFree?: boolean | null | undefined
  readonly xMetres?: number | undefined
  readonly yMetres?: number | undefined
}

/** One piece: its middle on the floor, its width along the x axis before it is turned against the clock. */
export interface AdvicePlacement extends FloorPoint {
  readonly kind: FurnishingKind
  readonly rotationDegrees: number
  readonly widthMetres: number
  readonly depthMetres: number
  /** Seats of a chair, places at a table; null: unknown. */
  readonly seatsPerPiece: number | null
}

export interface AdviceInput {
  readonly locale: CodeLocale
  readonly units: UnitSystem
  readonly layoutKind: LayoutKind
  readonly seats: number | null
  readonly headcount: number | null
  readonly netAreaSquareMetres: number
  readonly occupantLimitPosted: number | null
  readonly exits: readonly AdviceExit[]
  readonly roomDiagonalMetres: number | null
  readonly sprinklersAndVoiceAlarm: boolean
  /** null or none: only how many pieces there are is known. */
  readonly placements: readonly AdvicePlacement[] | null
  readonly amplified: boolean
  /** Tables that people sit at. */
  readonly tablesCount: number
  /** Seats of all chairs and benches that stand in it, at tables or not. */
  readonly chairSeats: number
  /** Footprint of the decks that stand in it; 0: none, null: there are some, but their size is not known. */
  readonly stageAreaSquareMetres: number | null
  /** Corners of the floor on which the pieces are placed, in order; left out: walls are not known. */
  readonly floorCorners?: readonly FloorPoint[] | null | undefined
  /** The room is used for nothing but worship; left out: it is not. */
  readonly worshipOnly?: boolean | undefined
  /** Tables of the site, in place of the default ones of the locale. */
  readonly tables?: CodeTables | undefined
}

/** The tables that advice is given by. */
export const tablesOf = (input: Pick<AdviceInput, 'locale' | 'tables'>): CodeTables =>
  input.tables ?? codeTables(input.locale)

/** People the layout is for: the more of seats and headcount; null: neither is known. */
export function peopleExpected({
  seats,
  headcount,
}: Pick<AdviceInput, 'seats' | 'headcount'>): number | null {
  return seats === null && headcount === null ? null : Math.max(seats ?? 0, headcount ?? 0)
}

/** @throws RangeError naming the field that cannot be */
export function checkAdviceInput(input: AdviceInput): void {
  amount('netAreaSquareMetres', input.netAreaSquareMetres)
  count('tablesCount', input.tablesCount)
  count('chairSeats', input.chairSeats)
  if (input.stageAreaSquareMetres !== null) amount('stageAreaSquareMetres', input.stageAreaSquareMetres)
  if (input.seats !== null) count('seats', input.seats)
  if (input.headcount !== null) count('headcount', input.headcount)
  if (input.occupantLimitPosted !== null) count('occupantLimitPosted', input.occupantLimitPosted)
  if (input.roomDiagonalMetres !== null) positive('roomDiagonalMetres', input.roomDiagonalMetres)
  for (const [index, exit] of input.exits.entries()) {
    amount(`exits[${index}].clearWidthMillimetres`, exit.clearWidthMillimetres)
    if (exit.xMetres !== undefined) finite(`exits[${index}].xMetres`, exit.xMetres)
    if (exit.yMetres !== undefined) finite(`exits[${index}].yMetres`, exit.yMetres)
  }
  for (const [index, piece] of (input.placements ?? []).entries()) {
    finite(`placements[${index}].xMetres`, piece.xMetres)
    finite(`placements[${index}].yMetres`, piece.yMetres)
    finite(`placements[${index}].rotationDegrees`, piece.rotationDegrees)
    positive(`placements[${index}].widthMetres`, piece.widthMetres)
    positive(`placements[${index}].depthMetres`, piece.depthMetres)
    if (piece.seatsPerPiece !== null) count(`placements[${index}].seatsPerPiece`, piece.seatsPerPiece)
  }
  for (const [index, corner] of (input.floorCorners ?? []).entries()) {
    finite(`floorCorners[${index}].xMetres`, corner.xMetres)
    finite(`floorCorners[${index}].yMetres`, corner.yMetres)
  }
}
