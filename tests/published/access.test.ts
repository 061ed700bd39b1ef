/**
 * Access for people in wheelchairs and for people who hear badly, against the 2010 ADA Standards: Table 221.2.1.1
 * (second-hand, a memorandum that quotes it), Table 219.3 (read), 226, 802, 902 (second-hand), others from memory.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  ACCESS_DIMENSIONS,
  routeIsWideEnough,
  spacesWidthMillimetres,
} from '../../src/scheduler/standards/access/access-dimensions.ts'
import { accessibleDiningPlaces } from '../../src/scheduler/standards/access/dining-surfaces.ts'
import {
  listeningReceivers,
  listeningReceiversOfRooms,
} from '../../src/scheduler/standards/access/listening-receivers.ts'
import { companionSeats, wheelchairSpaces } from '../../src/scheduler/standards/access/wheelchair-spaces.ts'
import {
  inchesFromMillimetres,
  millimetresFromInches,
} from '../../src/scheduler/standards/occupancy/imperial-units.ts'

const sure = { seed: 20261125, numRuns: 300 }
const seats = fc.integer({ min: 0, max: 20_000 })

describe('seats, wheelchair spaces, receivers and those for hearing aids', () => {
  test.each([
    [24, 1, 2, 2],
    [26, 2, 2, 2],
    [50, 2, 2, 2],
    [51, 4, 3, 2],
    [150, 4, 6, 2],
    [151, 5, 7, 2],
    [200, 5, 8, 2],
    [300, 5, 12, 3],
    [301, 6, 13, 4],
    [342, 6, 14, 4],
    [500, 6, 20, 5],
    [501, 7, 21, 6],
    [600, 7, 24, 6],
    [700, 8, 27, 7],
    [5000, 36, 85, 22],
    [5001, 37, 86, 22],
  ])(
    '%d seats: %d spaces, %d receivers, %d of them for hearing aids',
    (count, spaces, receivers, compatible) => {
      expect(wheelchairSpaces(count)).toBe(spaces)
      expect(listeningReceivers(count)).toEqual({ receivers, hearingAidCompatible: compatible })
    },
  )
})

describe('wheelchair spaces', () => {
  test.each([
    [0, 0],
    [3, 0],
    [4, 1],
    [25, 1],
    [650, 7],
    [651, 8],
    [4850, 35],
    [4851, 36],
    [5200, 37],
    [5201, 38],
  ])('for %d seats are %d', (count, spaces) => {
    expect(wheelchairSpaces(count)).toBe(spaces)
  })

  test('never fall with more seats, and each has a companion seat (221.3, from memory)', () => {
    fc.assert(
      fc.property(seats, seats, (a, b) => {
        expect(wheelchairSpaces(Math.max(a, b))).toBeGreaterThanOrEqual(wheelchairSpaces(Math.min(a, b)))
        expect(companionSeats(a)).toBe(wheelchairSpaces(a))
      }),
      sure,
    )
  })

  test('are 36 in wide alone and 33 in each side by side (802.1.2, second-hand)', () => {
    const inches = [0, 1, 2, 3].map((spaces) => inchesFromMillimetres(spacesWidthMillimetres(spaces)))
    for (const [index, expected] of [0, 36, 66, 99].entries()) expect(inches[index]).toBeCloseTo(expected, 9)
  })
})

describe('receivers', () => {
  test.each([
    // Table 219.3 at its edges (read)
    [0, 0, 0],
    [1, 2, 2],
    [75, 3, 2],
    [76, 4, 2],
    [201, 9, 3],
    [533, 21, 6],
    [534, 22, 6],
    [1000, 36, 9],
    [1001, 36, 9],
    [1050, 36, 9],
    [1051, 37, 10],
    [2000, 55, 14],
    [2001, 56, 14],
    [2101, 57, 15],
  ])('for %d seats are %d, %d of them for hearing aids', (count, receivers, compatible) => {
    expect(listeningReceivers(count)).toEqual({ receivers, hearingAidCompatible: compatible })
  })

  test('never fall with more seats, and those for hearing aids neither', () => {
    fc.assert(
      fc.property(seats, seats, (a, b) => {
        const [few, many] = [listeningReceivers(Math.min(a, b)), listeningReceivers(Math.max(a, b))]
        expect(many.receivers).toBeGreaterThanOrEqual(few.receivers)
        expect(many.hearingAidCompatible).toBeGreaterThanOrEqual(few.hearingAidCompatible)
        expect(few.hearingAidCompatible).toBeLessThanOrEqual(few.receivers)
      }),
      sure,
    )
  })

  test('need not suit hearing aids where a loop covers every seat (219.3 exception 2, read)', () => {
    expect(listeningReceivers(342, true)).toEqual({ receivers: 14, hearingAidCompatible: 0 })
  })

  test('of several rooms are counted together where all work in all of them (219.3 exception 1, read)', () => {
    const rooms = (receiversWorkInAllRooms: boolean) =>
      listeningReceiversOfRooms({ seatsByRoom: [100, 100, 100], receiversWorkInAllRooms })
    expect(rooms(true)).toEqual(listeningReceivers(300))
    expect(rooms(false)).toEqual({ receivers: 12, hearingAidCompatible: 6 })
    expect(listeningReceiversOfRooms({ seatsByRoom: [], receiversWorkInAllRooms: true })).toEqual({
      receivers: 0,
      hearingAidCompatible: 0,
    })
  })
})

describe('places at tables', () => {
  test.each([
    [0, 0],
    [1, 1],
    [20, 1],
    [21, 2],
    [160, 8],
    [161, 9],
    [200, 10],
  ])('%d: %d can be rolled up to (226.1, second-hand)', (places, accessible) => {
    expect(accessibleDiningPlaces(places)).toBe(accessible)
  })
})

describe('clear floor and ways', () => {
  test.each<[keyof typeof ACCESS_DIMENSIONS, number, string]>([
    ['spaceDepthFromFrontOrRear', 48, 'from memory'],
    ['spaceDepthFromSide', 60, 'from memory'],
    ['diningFloorWidth', 30, 'second-hand'],
    ['diningFloorDepth', 48, 'second-hand'],
    ['diningHeightLeast', 28, 'second-hand'],
    ['diningHeightMost', 34, 'second-hand'],
    ['toeRoomLeast', 17, 'second-hand'],
    ['toeRoomMost', 25, 'second-hand'],
    ['tableEdgeToWay', 31, 'second-hand'],
    ['routeWidth', 36, 'second-hand'],
    ['passingWidth', 60, 'from memory'],
    ['passingEvery', 2400, 'from memory'],
    ['turningCircle', 60, 'from memory'],
  ])('%s is %d in (%s)', (name, inches, status) => {
    const figure = ACCESS_DIMENSIONS[name]
    expect(inchesFromMillimetres(figure.value)).toBeCloseTo(inches, 9)
    expect(figure.status).toBe(status)
  })

  test('the way behind a table is the clear floor less the toe room', () => {
    const { diningFloorDepth, toeRoomLeast, tableEdgeToWay } = ACCESS_DIMENSIONS
    expect(tableEdgeToWay.value).toBeCloseTo(diningFloorDepth.value - toeRoomLeast.value, 9)
  })

  test('a route is 36 in wide, or 32 in for at most 24 in (403.5.1, 32 from memory)', () => {
    const wide = (inches: number, narrowForInches: number) =>
      routeIsWideEnough(millimetresFromInches(inches), millimetresFromInches(narrowForInches))
    expect(wide(36, 100)).toBe(true)
    expect(wide(35.9, 100)).toBe(false)
    expect(wide(32, 24)).toBe(true)
    expect(wide(32, 24.1)).toBe(false)
    expect(wide(31.9, 1)).toBe(false)
  })
})

test('what cannot be is refused with the name of the field', () => {
  expect(() => wheelchairSpaces(-1)).toThrow('seats: expected a whole number of 0 or more, got -1')
  expect(() => listeningReceivers(2.5)).toThrow('seats: expected a whole number of 0 or more, got 2.5')
  expect(() => listeningReceiversOfRooms({ seatsByRoom: [1, -1], receiversWorkInAllRooms: true })).toThrow(
    /^seatsByRoom\[1\]: /,
  )
  expect(() => accessibleDiningPlaces(Number.NaN)).toThrow(/^places: /)
  expect(() => spacesWidthMillimetres(-1)).toThrow(/^spaces: /)
  expect(() => routeIsWideEnough(-1, 0)).toThrow(/^clearWidthMillimetres: /)
})
