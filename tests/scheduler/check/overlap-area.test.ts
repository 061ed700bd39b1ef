import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { overlapSquareMetres } from '../../../src/scheduler/check/overlap-area.ts'
import { pieceOutline, polygonArea } from '../../../src/scheduler/geometry/index.ts'

const polygon = (...corners: readonly (readonly [number, number])[]) =>
  corners.map(([xMetres, yMetres]) => ({ xMetres, yMetres }))
const square = polygon([0, 0], [4, 0], [4, 4], [0, 4])

describe('the floor that two zones have in common', () => {
  test('is what both cover, whichever is asked first and whichever way round they are drawn', () => {
    const other = polygon([3, 2], [9, 2], [9, 9], [3, 9])
    expect(overlapSquareMetres(square, other)).toBeCloseTo(2, 9)
    expect(overlapSquareMetres(other, square)).toBeCloseTo(2, 9)
    expect(overlapSquareMetres([...square].reverse(), other)).toBeCloseTo(2, 9)
  })

  test('is nothing for zones that meet, in a side, in a corner or not at all', () => {
    expect(overlapSquareMetres(square, polygon([4, 0], [8, 0], [8, 4], [4, 4]))).toBe(0)
    expect(overlapSquareMetres(square, polygon([4, 4], [8, 4], [8, 8], [4, 8]))).toBe(0)
    expect(overlapSquareMetres(square, polygon([5, 5], [8, 5], [8, 8]))).toBe(0)
  })

  test('leaves out what lies in a corner that points inwards', () => {
    const around = polygon([0, 0], [6, 0], [6, 6], [4, 6], [4, 2], [2, 2], [2, 6], [0, 6])
    expect(overlapSquareMetres(around, polygon([2, 2], [4, 2], [4, 6], [2, 6]))).toBe(0)
    expect(overlapSquareMetres(around, polygon([1, 3], [5, 3], [5, 5], [1, 5]))).toBeCloseTo(4, 9)
  })

  test('is a regular octagon for two squares turned by 45°', () => {
    const turned = pieceOutline({ xMetres: 2, yMetres: 2 }, 4, 4, 45)
    // A square of side s less four corners: 2 (√2 − 1) s².
    expect(overlapSquareMetres(square, turned)).toBeCloseTo(2 * (Math.SQRT2 - 1) * 16, 9)
  })

  test('is never more than the smaller zone, and all of a zone that lies in the other', () => {
    const metres = fc.integer({ min: 1, max: 80 }).map((tenths) => tenths / 10)
    const piece = fc
      .tuple(metres, metres, metres, metres, fc.integer({ min: 0, max: 359 }))
      .map(([xMetres, yMetres, width, depth, degrees]) =>
        pieceOutline({ xMetres, yMetres }, width, depth, degrees),
      )
    const everything = polygon([-50, -50], [50, -50], [50, 50], [-50, 50])
    fc.assert(
      fc.property(piece, piece, (a, b) => {
        const smaller = Math.min(polygonArea(a), polygonArea(b))
        expect(overlapSquareMetres(a, b)).toBeLessThanOrEqual(smaller + 1e-9)
        expect(overlapSquareMetres(a, b)).toBeCloseTo(overlapSquareMetres(b, a), 9)
        expect(overlapSquareMetres(a, everything)).toBeCloseTo(polygonArea(a), 9)
      }),
      { seed: 20261125, numRuns: 200 },
    )
  })
})
