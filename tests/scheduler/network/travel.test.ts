import { describe, expect, test } from 'vitest'
import { DEFAULT_RATES } from '../../../src/scheduler/network/default-rates.ts'
import {
  distanceToRoomMetres,
  travelPersonSeconds,
  tripsBetween,
} from '../../../src/scheduler/network/travel.ts'
import { chair, hall, northStore, postPair, roundTable, tableCloth } from './a-network-input.ts'

/** Round figures, so that each sum can be checked in the head. */
const rates = {
  ...DEFAULT_RATES,
  walkingMetresPerSecond: 2,
  carryingMetresPerSecond: 1,
  loadedTrolleyMetresPerSecond: 0.5,
  trolleyHandlingSeconds: 60,
  shortCarryMetres: 6,
}

describe('the way to the store', () => {
  test('is gone once for each trolley load, the last one not full', () => {
    expect(tripsBetween(chair, 25, rates)).toBe(1)
    expect(tripsBetween(chair, 26, rates)).toBe(2)
    expect(tripsBetween(chair, 0, rates)).toBe(0)
  })

  test('costs, for each load, the handling of the trolley, the way with it and the way back on foot', () => {
    // 26 m: 20 m beyond the short carry; 60 + 40 + 10 s a load
    expect(travelPersonSeconds(chair, 100, 26, rates)).toBe(4 * 110)
  })

  test('costs twice that where two push a trolley of tables', () => {
    expect(travelPersonSeconds(roundTable, 15, 26, rates)).toBe(2 * 2 * 110)
  })

  test('is walked with one piece at a time by its carriers where there is no trolley', () => {
    // 20 s out and 10 s back, for two people, twice
    expect(travelPersonSeconds(postPair, 2, 26, rates)).toBe(2 * 2 * 30)
  })

  test('is walked with an armful of light pieces', () => {
    expect(travelPersonSeconds(tableCloth, 15, 26, rates)).toBe(2 * 30)
    expect(travelPersonSeconds({ ...chair, trolley: null }, 9, 26, rates)).toBe(5 * 30)
  })

  test('costs nothing within the short carry, except handling a trolley', () => {
    expect(travelPersonSeconds(postPair, 2, 6, rates)).toBe(0)
    expect(travelPersonSeconds(chair, 20, 0, rates)).toBe(60)
  })

  test('costs nothing for no pieces', () => {
    expect(travelPersonSeconds(chair, 0, 500, rates)).toBe(0)
  })

  test('is as long as the store’s route to the room, or a cautious guess where none is on record', () => {
    expect(distanceToRoomMetres(northStore, hall.id, rates)).toBe(25)
    expect(distanceToRoomMetres({ ...northStore, routes: [] }, hall.id, rates)).toBe(rates.routeUnknownMetres)
  })
})
