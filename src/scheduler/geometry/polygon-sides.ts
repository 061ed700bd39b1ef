/** The sides of a polygon: from each corner to the next one, the last one back to the first. */
import type { FloorPoint } from '../../domain/floor.ts'

export interface Side {
  readonly from: FloorPoint
  readonly to: FloorPoint
}

/** @returns as many as there are corners, side k beginning at corner k; none for no corners */
export const polygonSides = (corners: readonly FloorPoint[]): Side[] =>
  corners.map((from, index) => ({ from, to: corners[(index + 1) % corners.length]! }))

export const sideLengthMetres = ({ from, to }: Side): number =>
  Math.hypot(to.xMetres - from.xMetres, to.yMetres - from.yMetres)
