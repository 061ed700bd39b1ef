import { describe, expect, test } from 'vitest'
import { effectiveHands } from '../../../src/scheduler/network/effective-hands.ts'
import { handsOnPieces, modesOfWork, workPersonSeconds } from '../../../src/scheduler/network/work-content.ts'
import { aPolicy } from './a-network-input.ts'

const table = aPolicy().effectiveHands

describe('hands on one task', () => {
  test('are worth what the table says at its entries', () => {
    expect([1, 2, 4, 6, 8, 12].map((hands) => effectiveHands(table, hands))).toEqual([1, 2, 3.7, 5.2, 6.4, 8])
  })

  test('are worth what lies on the straight line between two entries', () => {
    expect(effectiveHands(table, 3)).toBeCloseTo(2.85)
    expect(effectiveHands(table, 10)).toBeCloseTo(7.2)
  })

  test('are worth no more beyond the last entry', () => {
    expect(effectiveHands(table, 13)).toBe(8)
    expect(effectiveHands(table, 100)).toBe(8)
  })

  test('start from one for one, also where the table begins later', () => {
    expect(effectiveHands([{ hands: 5, effective: 3 }], 1)).toBe(1)
    expect(effectiveHands([{ hands: 5, effective: 3 }], 3)).toBe(2)
  })

  test('are read from a table in any order, and never worth less than one', () => {
    expect(effectiveHands([...table].reverse(), 3)).toBeCloseTo(2.85)
    expect(effectiveHands([{ hands: 2, effective: 0.1 }], 2)).toBe(1)
  })
})

describe('the work of a crew', () => {
  test('is a practised crew’s work times pace, times one and the allowance, rounded up', () => {
    expect(workPersonSeconds(100, aPolicy({ paceFactor: 1.5, allowanceShare: 0.15 }))).toBe(173)
    expect(workPersonSeconds(100, aPolicy({ paceFactor: 1, allowanceShare: 0 }))).toBe(100)
    expect(workPersonSeconds(0, aPolicy())).toBe(0)
  })

  test('is shared in whole teams, at most four hands and no more teams than pieces', () => {
    expect(handsOnPieces(1, 30)).toEqual([1, 2, 3, 4])
    expect(handsOnPieces(1, 2)).toEqual([1, 2])
    expect(handsOnPieces(2, 30)).toEqual([2, 4])
    expect(handsOnPieces(2, 1)).toEqual([2])
    expect(handsOnPieces(6, 30)).toEqual([6])
  })

  test('takes less time with more hands, by their worth', () => {
    expect(modesOfWork(600, [1, 2, 4], aPolicy())).toEqual([
      { hands: 1, seconds: 600 },
      { hands: 2, seconds: 300 },
      { hands: 4, seconds: 163 },
    ])
  })

  test('is not offered with more hands where they would be no faster', () => {
    const policy = aPolicy({ effectiveHands: [{ hands: 2, effective: 1.5 }] })
    expect(modesOfWork(600, [1, 2, 3, 4], policy).map((mode) => mode.hands)).toEqual([1, 2])
  })
})
