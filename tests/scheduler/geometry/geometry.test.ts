import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FloorPoint } from '../../../src/domain/floor.ts'
import {
  containsCircle,
  containsPoint,
  containsPolygon,
  floorOutline,
  pieceOutline,
  polygonArea,
  polygonSides,
  repeatedCorner,
  selfCrossing,
  sideLengthMetres,
} from '../../../src/scheduler/geometry/index.ts'

const outline = (...corners: [number, number][]): FloorPoint[] =>
  corners.map(([xMetres, yMetres]) => ({ xMetres, yMetres }))

const square = outline([0, 0], [10, 0], [10, 10], [0, 10])
/** An L: the corner at (5, 5) points inwards. */
const ell = outline([0, 0], [10, 0], [10, 5], [5, 5], [5, 10], [0, 10])
const bowTie = outline([0, 0], [10, 10], [10, 0], [0, 10])

const runs = { seed: 20261125, numRuns: 200 }
const at = (xMetres: number, yMetres: number): FloorPoint => ({ xMetres, yMetres })

describe('the area of a floor', () => {
  test('is width times depth of a rectangle, and what its corners enclose of any other', () => {
    expect(polygonArea(floorOutline({ kind: 'rectangle', widthMetres: 18, depthMetres: 12 }))).toBe(216)
    expect(polygonArea(ell)).toBe(75)
    expect(polygonArea(outline([0, 0], [4, 0], [0, 3]))).toBe(6)
  })

  test('is nothing without three corners, and for corners on one line', () => {
    expect(polygonArea([])).toBe(0)
    expect(polygonArea(outline([1, 1], [2, 2]))).toBe(0)
    expect(polygonArea(outline([0, 0], [5, 0], [9, 0]))).toBe(0)
  })

  test('is the same whichever way round, wherever it lies and wherever one begins', () => {
    const shift = fc.double({ min: -400, max: 400, noNaN: true })
    fc.assert(
      fc.property(shift, shift, fc.nat(5), (x, y, begin) => {
        const moved = ell.map((corner) => at(corner.xMetres + x, corner.yMetres + y))
        const turned = [...moved.slice(begin), ...moved.slice(0, begin)]
        expect(polygonArea(turned)).toBeCloseTo(75, 6)
        expect(polygonArea(turned.toReversed())).toBeCloseTo(75, 6)
      }),
      runs,
    )
  })
})

describe('an outline', () => {
  test('that goes round its floor once does not cross itself', () => {
    for (const one of [square, ell, ell.toReversed()]) expect(selfCrossing(one)).toBeNull()
  })

  test('that crosses itself says which two sides do', () => {
    expect(selfCrossing(bowTie)).toEqual({ side: 0, otherSide: 2 })
  })

  test('that only touches itself crosses itself too', () => {
    const pinched = outline([0, 0], [10, 0], [10, 10], [5, 0], [0, 10])
    expect(selfCrossing(pinched)).toEqual({ side: 0, otherSide: 2 })
  })

  test('that runs back along itself crosses itself', () => {
    expect(selfCrossing(outline([0, 0], [10, 0], [5, 0], [5, 5]))).toEqual({ side: 0, otherSide: 1 })
    const atTheEnd = outline([5, 0], [9, 0], [9, 5], [10, 5], [10, 0])
    expect(selfCrossing(atTheEnd)).toEqual({ side: 0, otherSide: 4 })
  })

  test('may have a corner in the middle of a straight wall', () => {
    expect(selfCrossing(outline([0, 0], [5, 0], [10, 0], [10, 10], [0, 10]))).toBeNull()
  })

  test('that comes back to a corner says which', () => {
    expect(repeatedCorner(square)).toBeNull()
    expect(repeatedCorner([...square, at(0, 0.0004)])).toEqual({ corner: 4, earlier: 0 })
    expect(repeatedCorner([...square, at(-0, 0.002)])).toBeNull()
  })

  test('of a regular star of five points crosses itself, of its hull it does not', () => {
    const onCircle = (step: number) =>
      Array.from({ length: 5 }, (_, k) => {
        const angle = (2 * Math.PI * k * step) / 5
        return at(8 * Math.cos(angle), 8 * Math.sin(angle))
      })
    expect(selfCrossing(onCircle(1))).toBeNull()
    expect(selfCrossing(onCircle(2))).not.toBeNull()
  })

  test('has as many sides as corners, and their lengths', () => {
    expect(polygonSides(ell).map(sideLengthMetres)).toEqual([10, 5, 5, 5, 5, 10])
    expect(polygonSides([])).toEqual([])
  })
})

describe('what lies on a floor', () => {
  test('is a point within it or on its edge', () => {
    expect(containsPoint(ell, at(2, 8))).toBe(true)
    expect(containsPoint(ell, at(10, 2.5))).toBe(true)
    expect(containsPoint(ell, at(5, 5))).toBe(true)
    expect(containsPoint(ell, at(7, 7))).toBe(false)
    expect(containsPoint(ell, at(-0.01, 2))).toBe(false)
  })

  test('is a part of it whose every corner and side lies within, though it may follow the walls', () => {
    expect(containsPolygon(ell, ell)).toBe(true)
    expect(containsPolygon(ell, outline([0, 0], [10, 0], [10, 5], [0, 5]))).toBe(true)
    expect(containsPolygon(square, ell)).toBe(true)
    expect(containsPolygon(ell, square)).toBe(false)
  })

  test('is not a part that cuts across a corner that points inwards, though its own corners are within', () => {
    expect(containsPolygon(ell, outline([1, 9], [9, 1], [1, 1]))).toBe(true)
    expect(containsPolygon(ell, outline([4, 9], [9, 4], [1, 1]))).toBe(false)
    // Its long side passes the corner at (5, 5) exactly, and is outside on neither hand.
    expect(containsPolygon(ell, outline([0, 10], [10, 0], [0, 0]))).toBe(true)
  })

  test('is a round table only as far from the wall as its radius', () => {
    expect(containsCircle(square, at(1, 5), 1)).toBe(true)
    expect(containsCircle(square, at(0.9, 5), 1)).toBe(false)
    expect(containsCircle(square, at(12, 5), 1)).toBe(false)
  })

  test('is a long table turned as it stands', () => {
    const table = (x: number, rotationDegrees: number) => pieceOutline(at(x, 5), 2.4, 0.8, rotationDegrees)
    expect(containsPolygon(square, table(1.2, 0))).toBe(true)
    expect(containsPolygon(square, table(0.5, 0))).toBe(false)
    expect(containsPolygon(square, table(0.5, 90))).toBe(true)
  })

  test('lies within every rectangle that is larger on all sides, and within none that is smaller', () => {
    const size = fc.integer({ min: 1, max: 400 })
    fc.assert(
      fc.property(size, size, fc.integer({ min: 1, max: 50 }), (width, depth, more) => {
        const inner = outline([0, 0], [width, 0], [width, depth], [0, depth])
        const outer = outline(
          [-more, -more],
          [width + more, -more],
          [width + more, depth + more],
          [-more, depth + more],
        )
        expect(containsPolygon(outer, inner)).toBe(true)
        expect(containsPolygon(inner, outer)).toBe(false)
      }),
      runs,
    )
  })
})
