import { describe, expect, test } from 'vitest'
import { Furnishing } from '../../../src/domain/furnishing.ts'
import { Placement } from '../../../src/domain/layout.ts'
import { depthMetres, type PieceShape, pieceShape } from '../../../src/scheduler/check/piece-depth.ts'
import { cleanRows } from './a-clean-site.ts'

function shape(kind: string, width: number, depth: number, x: number, y: number, degrees = 0): PieceShape {
  const furnishing = Furnishing.parse({
    ...cleanRows.furnishings.furnishing_table,
    id: 'furnishing_one',
    siteId: 'site_quarry',
    kind,
    widthMetres: width,
    depthMetres: depth,
  })
  const placement = Placement.parse({
    furnishingId: 'furnishing_one',
    xMetres: x,
    yMetres: y,
    rotationDegrees: degrees,
  })
  const made = pieceShape(furnishing, placement)
  if (!made) throw new Error('the piece has no size')
  return made
}
const round = (x: number, y: number) => shape('round-table', 2, 2, x, y)
const long = (x: number, y: number, degrees = 0) => shape('long-table', 4, 1, x, y, degrees)

describe('how far two pieces stand inside each other', () => {
  test('goes by the middles of two round ones', () => {
    expect(depthMetres(round(0, 0), round(1.5, 0))).toBeCloseTo(0.5, 9)
    expect(depthMetres(round(0, 0), round(3, 4))).toBeCloseTo(-3, 9)
  })

  test('goes by the nearest side or corner of a long one beside a round one', () => {
    expect(depthMetres(round(0, 1.2), long(0, 0))).toBeCloseTo(0.3, 9)
    expect(depthMetres(long(0, 0), round(2.6, 1.3))).toBeCloseTo(0, 9)
    expect(depthMetres(round(1, 0), long(0, 0, 90))).toBeCloseTo(0.5, 9)
    expect(depthMetres(round(0, 0), long(0, 0))).toBeCloseTo(1.5, 9)
  })

  test('goes by the side along which two long ones are moved apart soonest', () => {
    expect(depthMetres(long(0, 0), long(3.9, 0.2))).toBeCloseTo(0.1, 9)
    expect(depthMetres(long(0, 0), long(2.3, 0, 90))).toBeCloseTo(0.2, 9)
    expect(depthMetres(long(0, 0), long(0, 1))).toBeCloseTo(0, 9)
    // Corner to side, though their boxes overlap: the corner of the turned one reaches 2.5/√2 down.
    expect(depthMetres(long(0, 0), long(0, 0.5 + 2.5 / Math.SQRT2 + 0.1, 45))).toBeCloseTo(-0.1, 9)
  })
})
