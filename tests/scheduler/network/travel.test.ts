import { describe, expect, test } from 'vitest'
import type { Furnishing } from '../../../src/domain/furnishing.ts'
import { Passage } from '../../../src/domain/passage.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/default-rates.ts'
import { loadWork, storeWay } from '../../../src/scheduler/network/travel.ts'
import { aNetworkInput, chair, northStore, postPair, roundTable, tableCloth } from './a-network-input.ts'

/** Round figures, so that each sum can be checked in the head. */
const rates = {
  ...DEFAULT_RATES,
  walkingMetresPerSecond: 2,
  carryingMetresPerSecond: 1,
  loadedTrolleyMetresPerSecond: 0.5,
  trolleyHandlingSeconds: 60,
  shortCarryMetres: 6,
}

const aPassage = (id: string, overrides: Partial<Passage>): Passage =>
  Passage.parse({ id: `passage_${id}`, siteId: northStore.siteId, name: id, kind: 'doorway', ...overrides })
const lift = aPassage('lift', { kind: 'lift', rideSeconds: 40, loadLimitKilograms: 150 })
const stairs = aPassage('stairs', { kind: 'stairs' })

function way(furnishing: Furnishing, distanceMetres: number, passages: readonly Passage[] = []) {
  const routes = northStore.routes.map((route) => ({
    ...route,
    distanceMetres,
    passageIds: passages.map(({ id }) => id),
  }))
  return storeWay(furnishing, { ...northStore, routes }, aNetworkInput({ rates, passages }))
}

/** Of all trips, lifts apart. */
const travel = (furnishing: Furnishing, pieces: number, metres: number) => {
  const its = way(furnishing, metres)
  return Math.ceil(pieces / its.piecesPerLoad) * loadWork(furnishing, its, rates).practisedPersonSeconds
}

describe('the way to the store', () => {
  test('costs, for each load, the handling of the trolley, the way with it and the way back on foot', () => {
    // 26 m: 20 m beyond the short carry; 60 + 40 + 10 s a load
    expect(travel(chair, 100, 26)).toBe(4 * 110)
  })

  test('costs twice that where two push a trolley of tables', () => {
    expect(travel(roundTable, 15, 26)).toBe(2 * 2 * 110)
  })

  test('is walked with one piece at a time by its carriers where there is no trolley', () => {
    // 20 s out and 10 s back, for two people, twice
    expect(travel(postPair, 2, 26)).toBe(2 * 2 * 30)
  })

  test('is walked with an armful of light pieces', () => {
    expect(travel(tableCloth, 15, 26)).toBe(2 * 30)
    expect(travel({ ...chair, method: 'carry', trolley: null }, 9, 26)).toBe(5 * 30)
  })

  test('is walked by hand where that is the method, even where a trolley is entered', () => {
    expect(way({ ...chair, method: 'carry' }, 26)).toMatchObject({ byTrolley: false, piecesPerLoad: 2 })
    expect(travel({ ...chair, method: 'carry' }, 9, 26)).toBe(5 * 30)
    expect(way({ ...chair, method: 'roll' }, 26)).toMatchObject({ byTrolley: false, piecesPerLoad: 1 })
    expect(way({ ...chair, trolley: null }, 26)).toMatchObject({ byTrolley: false, piecesPerLoad: 2 })
  })

  test('is gone with one piece at a time where pieces are rolled or slid, and slowly where they are slid', () => {
    expect(travel({ ...chair, trolley: null, method: 'roll' }, 9, 26)).toBe(9 * 30)
    expect(travel({ ...chair, trolley: null, method: 'slide' }, 9, 26)).toBe(9 * 50)
  })

  test('costs nothing within the short carry, except handling a trolley', () => {
    expect(travel(postPair, 2, 6)).toBe(0)
    expect(travel(chair, 20, 0)).toBe(60)
  })

  test('is as long as the store’s route to the room, or a cautious guess where none is on record', () => {
    expect(way(chair, 25)).toMatchObject({ distanceMetres: 25, distanceIsKnown: true })
    expect(storeWay(chair, { ...northStore, routes: [] }, aNetworkInput())).toMatchObject({
      distanceMetres: rates.routeUnknownMetres,
      distanceIsKnown: false,
    })
  })
})

describe('a way through a lift', () => {
  test('costs the ride both ways for each who goes with the load, whatever the pace of the crew', () => {
    const throughLift = way(roundTable, 26, [lift])
    expect(loadWork(roundTable, throughLift, rates)).toEqual({
      practisedPersonSeconds: 2 * 110,
      ridePersonSeconds: 2 * 2 * 40,
    })
  })

  test('has no more on a trolley than the lift may carry, and always one piece', () => {
    expect(way(roundTable, 26, [lift]).piecesPerLoad).toBe(Math.floor(150 / 28))
    expect(way({ ...roundTable, massKilograms: 400 }, 26, [lift]).piecesPerLoad).toBe(1)
    expect(way(chair, 26, [lift]).piecesPerLoad).toBe(25)
  })
})

describe('a way with stairs', () => {
  test('is carried, as no trolley goes there', () => {
    expect(way(chair, 26, [stairs])).toMatchObject({ byTrolley: false, piecesPerLoad: 2, people: 1 })
  })

  test('that names a passage nobody knows is a mistake that names it', () => {
    const routes = northStore.routes.map((route) => ({ ...route, passageIds: [stairs.id] }))
    expect(() => storeWay(chair, { ...northStore, routes }, aNetworkInput())).toThrow(/passage_stairs/)
  })
})
