import { describe, expect, test } from 'vitest'
import { areaLotCount, evenParts, partsByWeight, pieceLotCount } from '../../../src/scheduler/network/lots.ts'
import { floorPlan, zoneCount } from '../../../src/scheduler/network/zones.ts'
import { aNetworkInput } from './a-network-input.ts'

const usual = { growth: 1 }

describe('the floor', () => {
  test('is worked in strips no larger than the policy says', () => {
    expect(zoneCount(214, 100)).toBe(3)
    expect(zoneCount(200, 100)).toBe(2)
  })

  test('is one strip where it is smaller than that', () => {
    expect(zoneCount(12, 100)).toBe(1)
  })

  test('is at most twelve strips, however large', () => {
    expect(zoneCount(100_000, 10)).toBe(12)
  })

  test('is cut into strips that add up to it', () => {
    const { zones } = floorPlan(aNetworkInput(), 3)
    expect(zones.reduce((sum, zone) => sum + zone.areaSquareMetres, 0)).toBeCloseTo(214)
    expect(zones.map((zone) => zone.number)).toEqual([1, 2, 3])
  })
})

describe('pieces', () => {
  test('are shared over the zones as evenly as can be, the first ones getting one more', () => {
    expect(evenParts(15, 3)).toEqual([5, 5, 5])
    expect(evenParts(20, 3)).toEqual([7, 7, 6])
    expect(evenParts(2, 3)).toEqual([1, 1, 0])
    expect(evenParts(0, 3)).toEqual([0, 0, 0])
  })

  test('are shared in proportion where zones differ, and none is lost', () => {
    expect(partsByWeight(15, [100, 50, 50])).toEqual([7, 4, 4])
    expect(partsByWeight(10, [0, 3, 0])).toEqual([0, 10, 0])
    expect(partsByWeight(7, [0, 0])).toEqual([4, 3])
    expect(partsByWeight(20, [214 / 3, 214 / 3, 214 / 3])).toEqual([7, 7, 6])
  })

  test('are cut into lots of about five minutes of a pair', () => {
    expect(pieceLotCount(9, 200, null, usual)).toBe(3)
    expect(pieceLotCount(3, 200, null, usual)).toBe(1)
  })

  test('are cut into trolley loads where that is less', () => {
    expect(pieceLotCount(60, 5, 25, usual)).toBe(3)
  })

  test('are never cut finer than one by one', () => {
    expect(pieceLotCount(2, 5000, null, usual)).toBe(2)
  })

  test('are cut more coarsely where lots have to grow', () => {
    expect(pieceLotCount(60, 100, 10, usual)).toBe(10)
    expect(pieceLotCount(60, 100, 10, { growth: 2 })).toBe(5)
  })

  test('make no lots where there are none', () => {
    expect(pieceLotCount(0, 100, 10, usual)).toBe(0)
  })
})

describe('cleaning', () => {
  test('is cut like pieces, and is at least one lot', () => {
    expect(areaLotCount(600, usual)).toBe(1)
    expect(areaLotCount(601, usual)).toBe(2)
    expect(areaLotCount(1, usual)).toBe(1)
  })
})
