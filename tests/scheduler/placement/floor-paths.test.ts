import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FixedThing } from '../../../src/domain/fixed-thing.ts'
import type { Floor, FloorPoint } from '../../../src/domain/floor.ts'
import { containsPoint, fixedOutline } from '../../../src/scheduler/geometry/index.ts'
import { floorPaths } from '../../../src/scheduler/placement/index.ts'

const at = (xMetres: number, yMetres: number): FloorPoint => ({ xMetres, yMetres })
const box = (xMetres: number, yMetres: number, widthMetres: number, depthMetres: number): FixedThing =>
  FixedThing.parse({
    name: `thing at ${xMetres} ${yMetres}`,
    outline: { kind: 'rectangle', xMetres, yMetres, widthMetres, depthMetres },
  })
const hall: Floor = { kind: 'rectangle', widthMetres: 20, depthMetres: 12 }
const metres = (
  floor: Floor | null,
  things: readonly FixedThing[],
  from: FloorPoint,
  to: FloorPoint,
): number => floorPaths(floor, things).metresBetween([from], [to])[0]!

describe('the way along the floor', () => {
  test('is straight where nothing stands in between', () => {
    expect(metres(hall, [], at(1, 1), at(4, 5))).toBe(5)
    expect(metres(null, [], at(1, 1), at(4, 5))).toBe(5)
    expect(metres(hall, [box(6, 6, 2, 2)], at(1, 1), at(4, 5))).toBe(5)
  })

  test('goes around a stage in the middle, by the nearer side', () => {
    // The stage from 8 to 12 and 4 to 8. From (5, 4) over its corners (8, 4) and (12, 4) to (15, 8): 3 + 4 + 5.
    expect(metres(hall, [box(8, 4, 4, 4)], at(5, 4), at(15, 8))).toBeCloseTo(12, 9)
    // Along its upper side, which lies in the way by nothing.
    expect(metres(hall, [box(8, 4, 4, 4)], at(5, 8), at(15, 8))).toBeCloseTo(10, 9)
    // From the middle of one side to that of the other: √(3² + 2²) twice and the 4 m along it.
    expect(metres(hall, [box(8, 4, 4, 4)], at(5, 6), at(15, 6))).toBeCloseTo(4 + 2 * Math.sqrt(13), 9)
  })

  test('does not lead between a stage and the wall it stands at', () => {
    // The stage from 8 to 12, from 7 to the wall at 12: 5 down its side, 4 along its front, 5 up again.
    expect(metres(hall, [box(8, 7, 4, 5)], at(8, 12), at(12, 12))).toBeCloseTo(14, 9)
    expect(metres(hall, [box(8, 8, 4, 4)], at(7, 12), at(13, 12))).toBeCloseTo(4 + 2 * Math.sqrt(17), 9)
  })

  test('does not lead between two things that touch, and leads between two that leave a hand’s breadth', () => {
    const touching = [box(8, 2, 4, 4), box(8, 6, 4, 4)]
    expect(metres(hall, touching, at(6, 6), at(14, 6))).toBeCloseTo(4 + 2 * Math.sqrt(20), 9)
    const apart = [box(8, 2, 4, 3.9), box(8, 6.1, 4, 3.9)]
    expect(metres(hall, apart, at(6, 6), at(14, 6))).toBe(8)
  })

  test('bends at the inner corner of a floor that is not a rectangle', () => {
    const corners = [at(0, 0), at(10, 0), at(10, 4), at(4, 4), at(4, 10), at(0, 10)]
    for (const around of [corners, [...corners].reverse()]) {
      // From (8, 4) along the edge to the corner (4, 4), 4 m, and from there 5 m to (1, 8).
      expect(metres({ kind: 'polygon', corners: around }, [], at(8, 4), at(1, 8))).toBeCloseTo(9, 9)
      // Straight past it, as the corner is on the far side; from (9, 3) over it: √26 twice.
      expect(metres({ kind: 'polygon', corners: around }, [], at(7, 1), at(1, 7))).toBeCloseTo(
        Math.sqrt(72),
        9,
      )
      expect(metres({ kind: 'polygon', corners: around }, [], at(9, 3), at(3, 9))).toBeCloseTo(
        2 * Math.sqrt(26),
        9,
      )
    }
  })

  test('begins and ends in the corner of the floor, or between a thing and the wall', () => {
    expect(metres(hall, [box(0, 6, 2, 2)], at(0, 0), at(20, 12))).toBeCloseTo(Math.hypot(20, 12), 9)
    // Out of the corner along the wall to (2, 6), then past the thing.
    expect(metres(hall, [box(0, 6, 2, 2)], at(0, 6), at(0, 8))).toBeCloseTo(6, 9)
  })

  test('goes around a column of any shape', () => {
    const diamond = FixedThing.parse({
      name: 'Column',
      outline: { kind: 'polygon', corners: [at(10, 4), at(12, 6), at(10, 8), at(8, 6)] },
    })
    expect(metres(hall, [diamond], at(6, 6), at(14, 6))).toBeCloseTo(2 * Math.sqrt(20), 9)
  })

  test('leaves a stage where its edge is nearest, and stays on it between two who stand there', () => {
    const stage = box(8, 8, 4, 4)
    // 1 m to the front edge at (10, 8), then straight.
    expect(metres(hall, [stage], at(10, 9), at(10, 5))).toBeCloseTo(4, 9)
    expect(metres(hall, [stage], at(10, 9), at(13, 4))).toBeCloseTo(1 + 5, 9)
    expect(metres(hall, [stage], at(9, 9), at(11, 11))).toBeCloseTo(Math.sqrt(8), 9)
  })

  test('is infinite to where no way leads', () => {
    const wall = box(8, 0, 1, 12)
    expect(metres(hall, [wall], at(5, 6), at(12, 6))).toBe(Number.POSITIVE_INFINITY)
    expect(metres(hall, [wall], at(5, 6), at(2, 6))).toBe(3)
  })
})

/** Stage, columns and places on a grid of half metres: edges that touch, corners in line, places at edges. */
const half = (most: number) => fc.integer({ min: 0, max: most * 2 }).map((steps) => steps / 2)
const aThing = fc
  .tuple(half(16), half(8), half(3), half(3))
  .map(([x, y, width, depth]) => box(x, y, width + 0.5, depth + 0.5))
const aPlace = fc.tuple(half(20), half(12)).map(([x, y]) => at(x, y))
const aFloor = fc.constantFrom<(Floor | null)[]>(hall, null, {
  kind: 'polygon',
  corners: [at(0, 0), at(20, 0), at(20, 6), at(12, 6), at(12, 9), at(20, 9), at(20, 12), at(0, 12)],
})
const anArrangement = fc.record({
  floor: aFloor,
  things: fc.array(aThing, { maxLength: 6 }),
  places: fc.tuple(aPlace, aPlace, aPlace),
})
const NOISE = 1e-9

/** Neither on a thing nor at its edge nor off the floor, and with a way to the others: there ways are ways. */
const isBeside = (point: FloorPoint, floor: Floor | null, things: readonly FixedThing[]): boolean =>
  (floor?.kind !== 'polygon' || containsPoint(floor.corners, point)) &&
  things.every(({ outline }) => !containsPoint(fixedOutline(outline), point))

describe('ways along any floor', () => {
  test('are never shorter than the straight line, and as long there as back', () => {
    fc.assert(
      fc.property(anArrangement, ({ floor, things, places: [a, b] }) => {
        const there = metres(floor, things, a, b)
        const straight = Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres)
        expect(there).toBeGreaterThanOrEqual(straight - NOISE)
        expect(metres(floor, things, b, a)).toBeCloseTo(there, 9)
      }),
      { seed: 21, numRuns: 400 },
    )
  })

  test('are never longer than over a third place, where none of the three is on a thing', () => {
    // A thing in each of six fields that leaves its edges free: there is a way between any two places.
    const apart = fc.tuple(
      ...[0, 1, 2, 3, 4, 5].map((field) =>
        fc
          .tuple(half(1), half(1), half(3), half(2))
          .map(([x, y, width, depth]) =>
            box(1 + 6 * (field % 3) + x, 1 + 5 * Math.floor(field / 3) + y, width + 0.5, depth + 0.5),
          ),
      ),
    )
    const inTheOpen = fc
      .record({
        floor: fc.constantFrom<(Floor | null)[]>(hall, null),
        things: apart,
        places: fc.tuple(aPlace, aPlace, aPlace),
      })
      .filter(({ floor, things, places }) => places.every((place) => isBeside(place, floor, things)))
    fc.assert(
      fc.property(inTheOpen, ({ floor, things, places: [a, b, c] }) => {
        const [ab, bc, ac] = [
          metres(floor, things, a, b),
          metres(floor, things, b, c),
          metres(floor, things, a, c),
        ]
        expect(ac).toBeLessThanOrEqual(ab + bc + NOISE)
      }),
      { seed: 22, numRuns: 400 },
    )
  })

  test('do not get shorter when one more thing stands in the way', () => {
    fc.assert(
      fc.property(anArrangement, aThing, ({ floor, things, places: [a, b] }, more) => {
        fc.pre([a, b].every((place) => isBeside(place, floor, [...things, more])))
        const before = metres(floor, things.slice(0, 2), a, b)
        const after = metres(floor, [...things.slice(0, 2), more], a, b)
        const straight = Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres)
        // Straight again: it closes the only way there was.
        if (after > straight + NOISE) expect(after).toBeGreaterThanOrEqual(before - NOISE)
      }),
      { seed: 23, numRuns: 400 },
    )
  })

  test('do not depend on which places are asked for together', () => {
    fc.assert(
      fc.property(anArrangement, ({ floor, things, places }) => {
        const all = floorPaths(floor, things).metresBetween(places, places)
        for (const [row, from] of places.entries()) {
          for (const [column, to] of places.entries()) {
            expect(all[row * 3 + column]).toBe(metres(floor, things, from, to))
          }
        }
      }),
      { seed: 24, numRuns: 100 },
    )
  })
})
