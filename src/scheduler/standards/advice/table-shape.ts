/** Tables on the floor as circles and turned rectangles, and how far things are from their edges. */
import type { FloorPoint } from '../../../domain/floor.ts'
import type { AdvicePlacement } from './advice-input.ts'

/** A table that people sit at; the round ones are as deep as they are wide. */
export const isTable = ({ kind }: AdvicePlacement): boolean =>
  kind === 'round-table' || kind === 'long-table' || kind === 'games-table'

/** From a point to the edge of a table, 0 inside it. */
export function metresFromTable(table: AdvicePlacement, point: FloorPoint): number {
  const [dx, dy] = [point.xMetres - table.xMetres, point.yMetres - table.yMetres]
  if (table.kind === 'round-table') return Math.max(0, Math.hypot(dx, dy) - table.widthMetres / 2)
  const radians = (table.rotationDegrees * Math.PI) / 180
  const along = Math.abs(dx * Math.cos(radians) + dy * Math.sin(radians))
  const across = Math.abs(dy * Math.cos(radians) - dx * Math.sin(radians))
  return Math.hypot(Math.max(0, along - table.widthMetres / 2), Math.max(0, across - table.depthMetres / 2))
}

/** Between the edges of two tables, 0 where they touch or overlap. */
export function metresBetweenTables(a: AdvicePlacement, b: AdvicePlacement): number {
  if (a.kind === 'round-table') return Math.max(0, metresFromTable(b, a) - a.widthMetres / 2)
  if (b.kind === 'round-table') return Math.max(0, metresFromTable(a, b) - b.widthMetres / 2)
  const [cornersA, cornersB] = [cornersOf(a), cornersOf(b)]
  if (overlap(cornersA, cornersB)) return 0
  // The shortest line between two rectangles that lie apart starts at a corner of one of them.
  return Math.min(
    ...cornersA.map((corner) => metresFromTable(b, corner)),
    ...cornersB.map((corner) => metresFromTable(a, corner)),
  )
}

/** Whether two long tables overlap, by more than they would when laid edge to edge by hand. */
export function standInEachOther(a: AdvicePlacement, b: AdvicePlacement): boolean {
  const SLACK_METRES = 0.05
  const smaller = (table: AdvicePlacement): AdvicePlacement => ({
    ...table,
    widthMetres: Math.max(0, table.widthMetres - SLACK_METRES),
    depthMetres: Math.max(0, table.depthMetres - SLACK_METRES),
  })
  return overlap(cornersOf(smaller(a)), cornersOf(smaller(b)))
}

/** How far from its middle a table reaches at most. */
export const reachMetres = (table: AdvicePlacement): number =>
  table.kind === 'round-table' ? table.widthMetres / 2 : Math.hypot(table.widthMetres, table.depthMetres) / 2

function cornersOf({
  xMetres,
  yMetres,
  widthMetres,
  depthMetres,
  rotationDegrees,
}: AdvicePlacement): FloorPoint[] {
  const radians = (rotationDegrees * Math.PI) / 180
  const [cosine, sine] = [Math.cos(radians), Math.sin(radians)]
  return [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ].map(([alongSide, acrossSide]) => {
    const along = (alongSide! * widthMetres) / 2
    const across = (acrossSide! * depthMetres) / 2
    return {
      xMetres: xMetres + along * cosine - across * sine,
      yMetres: yMetres + along * sine + across * cosine,
    }
  })
}

/** Two rectangles overlap unless a line along a side of one of them separates them. */
function overlap(a: readonly FloorPoint[], b: readonly FloorPoint[]): boolean {
  return ![...sidesOf(a), ...sidesOf(b)].some(({ x, y }) => {
    const onto = (corners: readonly FloorPoint[]) =>
      corners.map((corner) => corner.xMetres * x + corner.yMetres * y)
    const [ontoA, ontoB] = [onto(a), onto(b)]
    return Math.max(...ontoA) <= Math.min(...ontoB) || Math.max(...ontoB) <= Math.min(...ontoA)
  })
}

/** Directions of two sides of a rectangle that meet. */
function sidesOf(corners: readonly FloorPoint[]): { x: number; y: number }[] {
  return [0, 1].map((index) => ({
    x: corners[index + 1]!.xMetres - corners[index]!.xMetres,
    y: corners[index + 1]!.yMetres - corners[index]!.yMetres,
  }))
}
