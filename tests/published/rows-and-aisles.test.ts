/**
 * Rows, aisles and ways between tables against IBC 1030 (2021; 1029 in 2015 and 2018). Read in pages that quote the code
 * (second-hand) or from memory, as each check says.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  aisleWidthNeededMillimetres,
  chairsJoinedAtLeast,
} from '../../src/scheduler/standards/occupancy/aisles.ts'
import {
  inchesFromMillimetres,
  metresFromFeet,
  millimetresFromInches,
} from '../../src/scheduler/standards/occupancy/imperial-units.ts'
import { rowClearWidthNeededMillimetres, rowSeatsMost } from '../../src/scheduler/standards/occupancy/rows.ts'
import {
  tableAccessway,
  tableEdgesApartMillimetres,
} from '../../src/scheduler/standards/occupancy/table-accessway.ts'
import { codeTables } from '../../src/scheduler/standards/occupancy/tables-of-locale.ts'

const us = codeTables('us')
const uk = codeTables('uk')
const sure = { seed: 20261125, numRuns: 300 }
const rowInches = (seats: number, aisleEnds: 1 | 2, backrests = true): number =>
  inchesFromMillimetres(rowClearWidthNeededMillimetres(us, { seats, aisleEnds, backrests }) ?? Number.NaN)

describe('the clear way between rows', () => {
  test.each([
    // IBC 1030.13.2 and 1030.13.2.1: 12 in up to 14 seats second-hand, 0.3 in for each seat beyond from memory
    [0, 0],
    [1, 12],
    [14, 12],
    [15, 12.3],
    [20, 13.8],
    [47, 21.9],
    [48, 22],
    [100, 22],
  ])('of %d seats with an aisle at both ends is %d in', (seats, inches) => {
    expect(rowInches(seats, 2)).toBeCloseTo(inches, 9)
  })

  test.each([
    // IBC 1030.13.2.2, second-hand
    [7, 12],
    [8, 12.6],
    [10, 13.8],
    [23, 21.6],
    [24, 22],
    [60, 22],
  ])('of %d seats with an aisle at one end is %d in', (seats, inches) => {
    expect(rowInches(seats, 1)).toBeCloseTo(inches, 9)
  })

  test('may be 12 in for ten seats without backrests, aisle at one end (second-hand)', () => {
    expect(rowInches(10, 1, false)).toBeCloseTo(12, 9)
    expect(rowInches(11, 1, false)).toBeCloseTo(12.6, 9)
  })

  test('never shrinks with more seats, and one aisle never asks for less than two', () => {
    const seats = fc.integer({ min: 0, max: 150 })
    fc.assert(
      fc.property(seats, seats, (a, b) => {
        for (const ends of [1, 2] as const) {
          expect(rowInches(Math.max(a, b), ends)).toBeGreaterThanOrEqual(rowInches(Math.min(a, b), ends))
        }
        expect(rowInches(a, 1)).toBeGreaterThanOrEqual(rowInches(a, 2))
      }),
      sure,
    )
  })
})

describe('the seats a row may have', () => {
  const most = (inches: number, aisleEnds: 1 | 2) =>
    rowSeatsMost(us, { clearWidthMillimetres: millimetresFromInches(inches), aisleEnds })

  test('are none under 12 in, at most 100 however wide (from memory)', () => {
    expect(most(11.9, 2)).toBe(0)
    expect(most(12, 2)).toBe(14)
    expect(most(13.8, 2)).toBe(20)
    expect(most(13.8, 1)).toBe(10)
    expect(most(22, 2)).toBe(100)
    expect(most(40, 2)).toBe(100)
  })

  test('are as many as the width was asked for', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100 }),
        fc.constantFrom(1 as const, 2 as const),
        (seats, aisleEnds) => {
          const width = rowClearWidthNeededMillimetres(us, { seats, aisleEnds }) ?? 0
          expect(rowSeatsMost(us, { clearWidthMillimetres: width, aisleEnds })).toBeGreaterThanOrEqual(seats)
          expect(rowSeatsMost(us, { clearWidthMillimetres: width - 1, aisleEnds })).toBeLessThan(
            Math.max(seats, 48),
          )
        },
      ),
      sure,
    )
  })
})

describe('an aisle (IBC 1030.9.1, from memory)', () => {
  test.each([
    [0, true, false, 0],
    [49, true, false, 36],
    [50, true, false, 42],
    [14, false, false, 30],
    [15, false, false, 36],
    [10, true, true, 48],
    [10, false, true, 36],
  ])(
    'for %d seats, both sides %s, stepped %s, is %d in',
    (seatsServed, seatsOnBothSides, stepped, inches) => {
      const width = aisleWidthNeededMillimetres(us, { seatsServed, seatsOnBothSides, stepped })
      expect(inchesFromMillimetres(width ?? Number.NaN)).toBeCloseTo(inches, 9)
    },
  )
})

test('more than 200 loose chairs are joined in threes at least (IBC 1030.15, from memory)', () => {
  expect([0, 200, 201].map((chairs) => chairsJoinedAtLeast(us, chairs))).toEqual([1, 1, 3])
  const chicago = { ...us, looseChairs: us.looseChairs && { ...us.looseChairs, joinedAtLeast: 5 } }
  expect(chairsJoinedAtLeast(chicago, 201)).toBe(5) // Chicago 14B-10-1029, read
})

describe('the way between tables (IBC 1030.13.1, from memory)', () => {
  const way = (feet: number, people = 20) =>
    tableAccessway(us, { lengthMetres: metresFromFeet(feet), people })
  const inches = (feet: number, people?: number) =>
    inchesFromMillimetres(way(feet, people)?.clearWidthMillimetres ?? Number.NaN)

  test('20 ft long is 16 in wide', () => {
    expect(inches(20)).toBeCloseTo(16, 9)
  })

  test('is 12 in up to 12 ft, half an inch more for each foot or part of it, and 30 ft at the longest', () => {
    expect(inches(12)).toBeCloseTo(12, 9)
    expect(inches(12.1)).toBeCloseTo(12.5, 9)
    expect(inches(30)).toBeCloseTo(21, 9)
    expect(way(30)?.lengthIsAllowed).toBe(true)
    expect(way(30.1)?.lengthIsAllowed).toBe(false)
  })

  test('asks for nothing up to 6 ft and four people', () => {
    expect(inches(6, 4)).toBe(0)
    expect(inches(6, 5)).toBeCloseTo(12, 9)
    expect(inches(6.1, 4)).toBeCloseTo(12, 9)
    expect(inches(20, 0)).toBe(0)
  })

  test('with chairs on both sides needs 19 + 19 + 12 = 50 in between the edges (a building official, second-hand)', () => {
    const apart = tableEdgesApartMillimetres(us, { lengthMetres: 3, people: 10, sidesWithChairs: 2 })
    expect(inchesFromMillimetres(apart ?? Number.NaN)).toBeCloseTo(50, 9)
  })
})

test('where a locale has no figure the answer is unknown, not zero', () => {
  expect(rowClearWidthNeededMillimetres(uk, { seats: 10, aisleEnds: 2 })).toBeNull()
  expect(rowSeatsMost(uk, { clearWidthMillimetres: 400, aisleEnds: 2 })).toBeNull()
  expect(aisleWidthNeededMillimetres(uk, { seatsServed: 10, seatsOnBothSides: true })).toBeNull()
  expect(chairsJoinedAtLeast(uk, 300)).toBeNull()
  expect(tableAccessway(uk, { lengthMetres: 5, people: 10 })).toBeNull()
  expect(tableEdgesApartMillimetres(uk, { lengthMetres: 5, people: 10, sidesWithChairs: 1 })).toBeNull()
})

test('what cannot be is refused with the name of the field', () => {
  expect(() => rowClearWidthNeededMillimetres(us, { seats: -1, aisleEnds: 2 })).toThrow(/^seats: /)
  expect(() => rowSeatsMost(us, { clearWidthMillimetres: Number.NaN, aisleEnds: 2 })).toThrow(
    /^clearWidthMillimetres: /,
  )
  expect(() => aisleWidthNeededMillimetres(us, { seatsServed: 0.5, seatsOnBothSides: true })).toThrow(
    /^seatsServed: /,
  )
  expect(() => chairsJoinedAtLeast(us, -3)).toThrow(/^looseChairs: /)
  expect(() => tableAccessway(us, { lengthMetres: -1, people: 1 })).toThrow(/^lengthMetres: /)
})
