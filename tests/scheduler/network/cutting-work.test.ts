import { describe, expect, test } from 'vitest'
import {
  areaLotCount,
  evenParts,
  loadLotCount,
  loadLots,
  partsByWeight,
  pieceLotCount,
} from '../../../src/scheduler/network/lots.ts'
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

  test('that stay in the room are cut into lots of about five minutes of a pair', () => {
    expect(pieceLotCount(9, 200, usual)).toBe(3)
    expect(pieceLotCount(3, 200, usual)).toBe(1)
  })

  test('are never cut finer than one by one', () => {
    expect(pieceLotCount(2, 5000, usual)).toBe(2)
  })

  test('are cut more coarsely where lots have to grow', () => {
    expect(pieceLotCount(60, 100, usual)).toBe(10)
    expect(pieceLotCount(60, 100, { growth: 2 })).toBe(5)
  })

  test('make no lots where there are none', () => {
    expect(pieceLotCount(0, 100, usual)).toBe(0)
  })
})

describe('pieces that go between store and room', () => {
  /** Chairs, 15 s each for this crew; a load costs 180 s. */
  const chairs = { piecesPerLoad: 25, byTrolley: true, pieceSeconds: 15, loadSeconds: 180 }
  const lots = (pieces: number, overrides: Partial<typeof chairs> = {}, growth = 1) =>
    loadLots({ ...chairs, ...overrides, pieces }, { growth })
  const loadsOf = (all: ReturnType<typeof lots>) => all.reduce((sum, { loads }) => sum + loads, 0)

  test('go in as few loads as there can be, as full as one another, one trolley to a lot', () => {
    expect(lots(34)).toEqual([
      { pieces: 17, loads: 1, piecesOnALoad: 17 },
      { pieces: 17, loads: 1, piecesOnALoad: 17 },
    ])
    expect(lots(60).map(({ pieces }) => pieces)).toEqual([20, 20, 20])
    expect(lots(26).map(({ pieces }) => pieces)).toEqual([13, 13])
  })

  test('pay for the trips that their lots make, never for half a trip that nobody else makes', () => {
    for (const pieces of [1, 24, 25, 26, 100, 333]) {
      for (const growth of [1, 1.5, 2, 6, 1_000_000]) {
        for (const pieceSeconds of [1, 15, 200]) {
          const all = lots(pieces, { pieceSeconds }, growth)
          expect(all.reduce((sum, lot) => sum + lot.pieces, 0)).toBe(pieces)
          expect(loadsOf(all)).toBeCloseTo(Math.ceil(pieces / 25), 9)
          expect(loadLotCount({ ...chairs, pieceSeconds, pieces }, { growth })).toBe(all.length)
        }
      }
    }
  })

  test('are a whole load even where that takes a pair some minutes more than five', () => {
    // 25 × 15 + 400 = 775 s
    expect(lots(25, { loadSeconds: 400 })).toEqual([{ pieces: 25, loads: 1, piecesOnALoad: 25 }])
  })

  test('share a load that takes much longer, each lot paying its part of the way', () => {
    // 5 tables × 155 + 350 = 1,125 s: two lots of one trolley.
    expect(lots(5, { piecesPerLoad: 9, pieceSeconds: 155, loadSeconds: 350 })).toEqual([
      { pieces: 3, loads: 0.6, piecesOnALoad: 5 },
      { pieces: 2, loads: 0.4, piecesOnALoad: 5 },
    ])
  })

  test('are several armfuls to a lot where they are carried', () => {
    // 2 × 15 + 40 = 70 s an armful: eight in ten minutes.
    expect(lots(30, { byTrolley: false, piecesPerLoad: 2, loadSeconds: 40 })).toEqual([
      { pieces: 16, loads: 8, piecesOnALoad: 2 },
      { pieces: 14, loads: 7, piecesOnALoad: 2 },
    ])
  })

  test('are cut more coarsely where lots have to grow, and make no lots where there are none', () => {
    expect(lots(100, {}, 2).map(({ loads }) => loads)).toEqual([2, 2])
    expect(lots(0)).toEqual([])
    expect(loadLotCount({ ...chairs, pieces: 0 }, usual)).toBe(0)
  })
})

describe('cleaning', () => {
  test('is cut like pieces, and is at least one lot', () => {
    expect(areaLotCount(600, usual)).toBe(1)
    expect(areaLotCount(601, usual)).toBe(2)
    expect(areaLotCount(1, usual)).toBe(1)
  })
})
