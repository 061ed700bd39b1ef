/** How far two pieces on the floor stand inside each other. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Placement } from '../../domain/layout.ts'

/** Seen from above: a circle, or a turned rectangle. */
export interface PieceShape {
  readonly x: number
  readonly y: number
  readonly isRound: boolean
  /** Half of it; of a circle both are the radius. */
  readonly halfWidth: number
  readonly halfDepth: number
  /** Of the x axis of the piece, of length 1. */
  readonly cosine: number
  readonly sine: number
  /** How far from its middle it reaches at most. */
  readonly reachMetres: number
}

/** null: its size is not known. */
export function pieceShape(
  { kind, widthMetres, depthMetres }: Furnishing,
  { xMetres, yMetres, rotationDegrees }: Placement,
): PieceShape | null {
  if (widthMetres === null || depthMetres === null) return null
  const isRound = kind === 'round-table'
  const [halfWidth, halfDepth] = [widthMetres / 2, (isRound ? widthMetres : depthMetres) / 2]
  const radians = (rotationDegrees * Math.PI) / 180
  return {
    x: xMetres,
    y: yMetres,
    isRound,
    halfWidth,
    halfDepth,
    cosine: Math.cos(radians),
    sine: Math.sin(radians),
    reachMetres: isRound ? halfWidth : Math.hypot(halfWidth, halfDepth),
  }
}

/** Metres by which one of them would have to be moved at least; 0 or less: they stand apart, or touch. */
export function depthMetres(a: PieceShape, b: PieceShape): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y]
  if (a.isRound && b.isRound) return a.halfWidth + b.halfWidth - Math.hypot(dx, dy)
  if (a.isRound) return depthOfCircle(a.halfWidth, b, -dx, -dy)
  if (b.isRound) return depthOfCircle(b.halfWidth, a, dx, dy)
  return depthOfRectangles(a, b, dx, dy)
}

/** @param dx  from the middle of the rectangle to that of the circle */
function depthOfCircle(radius: number, rectangle: PieceShape, dx: number, dy: number): number {
  const { cosine, sine, halfWidth, halfDepth } = rectangle
  const beyondWidth = Math.abs(dx * cosine + dy * sine) - halfWidth
  const beyondDepth = Math.abs(dy * cosine - dx * sine) - halfDepth
  const isWithin = beyondWidth <= 0 && beyondDepth <= 0
  const apart = isWithin
    ? Math.max(beyondWidth, beyondDepth)
    : Math.hypot(Math.max(0, beyondWidth), Math.max(0, beyondDepth))
  return radius - apart
}

/** Along that side of one of them along which it is least: two rectangles apart are so along one of these. */
function depthOfRectangles(a: PieceShape, b: PieceShape, dx: number, dy: number): number {
  const axes: readonly (readonly [number, number])[] = [
    [a.cosine, a.sine],
    [-a.sine, a.cosine],
    [b.cosine, b.sine],
    [-b.sine, b.cosine],
  ]
  const depths = axes.map(([x, y]) => halfAlong(a, x, y) + halfAlong(b, x, y) - Math.abs(dx * x + dy * y))
  return Math.min(...depths)
}

const halfAlong = ({ cosine, sine, halfWidth, halfDepth }: PieceShape, x: number, y: number): number =>
  Math.abs(cosine * x + sine * y) * halfWidth + Math.abs(cosine * y - sine * x) * halfDepth
