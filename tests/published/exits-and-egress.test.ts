/**
 * Exits against IBC 1005 to 1010 (2021 numbering) and Approved Document B vol 2. Read in pages that quote the codes
 * (second-hand) or from memory, as each check says.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  exitWidthNeededMillimetres,
  peopleExitsServe,
  widthOfEachExitMillimetres,
} from '../../src/scheduler/standards/occupancy/exit-width.ts'
import {
  exitsApart,
  exitsNeeded,
  outwardSwingNeeded,
  panicHardwareNeeded,
  peopleByNumberOfExits,
} from '../../src/scheduler/standards/occupancy/exits.ts'
import {
  inchesFromMillimetres,
  metresFromFeet,
  millimetresFromInches,
} from '../../src/scheduler/standards/occupancy/imperial-units.ts'
import { codeTables } from '../../src/scheduler/standards/occupancy/tables-of-locale.ts'
import { travelDistance } from '../../src/scheduler/standards/occupancy/travel-distance.ts'
import { NEW_YORK_TABLES } from '../../src/scheduler/standards/occupancy/us-tables.ts'

const us = codeTables('us')
const uk = codeTables('uk')
const sure = { seed: 20261125, numRuns: 300 }
const people = fc.integer({ min: 0, max: 5000 })

describe('the number of exits', () => {
  test.each([
    // IBC Tables 1006.2.1 (second-hand) and 1006.3.3 (500 from memory, 1,000 second-hand)
    [0, 0],
    [1, 1],
    [48, 1], // an exam question on IBC 1006.2.1: one exit …
    [49, 1],
    [50, 2],
    [52, 2], // … and two for 52 seats in the same room
    [343, 2],
    [500, 2],
    [501, 3],
    [1000, 3],
    [1001, 4],
    [20_000, 4],
  ])('for %d people in the United States is %d', (load, exits) => {
    expect(exitsNeeded(us, load)).toBe(exits)
  })

  test.each([
    // "fewer than 60" second-hand; 600 from memory
    [0, 0],
    [59, 1],
    [60, 2],
    [600, 2],
    [601, 3],
  ])('for %d people in the United Kingdom is %d', (load, exits) => {
    expect(exitsNeeded(uk, load)).toBe(exits)
  })

  test('never falls as people grow, and so many exits serve as many as that', () => {
    fc.assert(
      fc.property(fc.constantFrom(us, uk), people, people, (tables, a, b) => {
        expect(exitsNeeded(tables, Math.max(a, b))).toBeGreaterThanOrEqual(
          exitsNeeded(tables, Math.min(a, b)),
        )
        expect(peopleByNumberOfExits(tables, exitsNeeded(tables, a)) ?? a).toBeGreaterThanOrEqual(a)
      }),
      sure,
    )
  })
})

describe('343 people in the hall of 60 by 40 feet', () => {
  const inches = (
    component: 'level' | 'stairs',
    sprinklersAndVoiceAlarm: boolean,
    tables: typeof us = us,
  ): number =>
    inchesFromMillimetres(
      exitWidthNeededMillimetres(tables, { people: 343, component, sprinklersAndVoiceAlarm }),
    )

  test('need 68.6 in of doors, 51.45 in with sprinklers and voice alarm (IBC 1005.3.2, second-hand)', () => {
    expect(inches('level', false)).toBeCloseTo(68.6, 9)
    expect(inches('level', true)).toBeCloseTo(51.45, 9)
  })

  test('need 102.9 in of stairs, 68.6 in with sprinklers and voice alarm (IBC 1005.3.1, second-hand)', () => {
    expect(inches('stairs', false)).toBeCloseTo(102.9, 9)
    expect(inches('stairs', true)).toBeCloseTo(68.6, 9)
  })

  test('get no smaller width for sprinklers in New York (New York City Building Code 1005.3, read)', () => {
    expect(inches('level', true, NEW_YORK_TABLES)).toBeCloseTo(68.6, 9)
    expect(inches('stairs', true, NEW_YORK_TABLES)).toBeCloseTo(102.9, 9)
  })

  test('need 34.3 in at each of two exits, so that half remains when one is lost (IBC 1005.5, from memory)', () => {
    const each = (exits: number) =>
      inchesFromMillimetres(
        widthOfEachExitMillimetres(us, {
          people: 343,
          exits,
          component: 'level',
          sprinklersAndVoiceAlarm: false,
        }),
      )
    expect(each(2)).toBeCloseTo(34.3, 9)
    expect(each(3)).toBeCloseTo(32, 9) // 22.9 by capacity: the least width of a door decides
  })

  test('are a few too many for two single leaves of about 33.5 in clear, and no problem with a third', () => {
    const leaf = { clearWidthMillimetres: millimetresFromInches(33.5) }
    const serve = (exits: number) =>
      peopleExitsServe(us, {
        exits: Array.from({ length: exits }, () => leaf),
        sprinklersAndVoiceAlarm: false,
      })
    expect(serve(2)).toMatchObject({
      people: 335,
      byWidth: 335,
      withWidestLost: 335,
      byNumberOfExits: 500,
      decidedBy: 'width-together',
    })
    expect(serve(3)).toMatchObject({ people: 502, byWidth: 502, withWidestLost: 670, byNumberOfExits: 1000 })
    expect(serve(1)).toMatchObject({ people: 49, withWidestLost: null, decidedBy: 'number-of-exits' })
  })
})

describe('exits as they are', () => {
  const serve = (tables: typeof us, widthsMillimetres: number[], sprinklersAndVoiceAlarm = false) =>
    peopleExitsServe(tables, {
      exits: widthsMillimetres.map((clearWidthMillimetres) => ({ clearWidthMillimetres })),
      sprinklersAndVoiceAlarm,
    })

  test('serve nobody where there are none, or none that is wide enough to count', () => {
    expect(serve(us, [])).toEqual({
      people: 0,
      decidedBy: 'width-together',
      exitsThatCount: 0,
      byNumberOfExits: 0,
      byWidth: 0,
      withWidestLost: null,
    })
    expect(serve(us, [millimetresFromInches(31.9)]).exitsThatCount).toBe(0) // IBC 1010.1.1: 32 in, second-hand
    expect(serve(us, [millimetresFromInches(32)]).people).toBe(49)
    expect(serve(uk, [749])).toMatchObject({ people: 0, exitsThatCount: 0 })
  })

  test('of very different width are worth little once the widest is lost', () => {
    // 2 × 32 in of the smaller at 0.2 in a person: 320, although 144 + 32 in would pass 880.
    expect(serve(us, [millimetresFromInches(144), millimetresFromInches(32)])).toMatchObject({
      people: 320,
      decidedBy: 'widest-lost',
      byWidth: 880,
      withWidestLost: 320,
    })
  })

  test('in the United Kingdom serve by steps (Table 2.3), the widest left out (both from memory)', () => {
    expect(serve(uk, [750, 750]).people).toBe(60)
    expect(serve(uk, [850, 850]).people).toBe(110)
    expect(serve(uk, [1050, 1050]).people).toBe(220)
    expect(serve(uk, [1104, 1104]).people).toBe(220)
    expect(serve(uk, [1105, 1105]).people).toBe(221)
    expect(serve(uk, [1500, 850, 1050])).toMatchObject({
      people: 330,
      byWidth: 630,
      withWidestLost: 330,
      decidedBy: 'widest-lost',
    })
    expect(serve(uk, [2000]).people).toBe(59) // one exit: fewer than 60
  })

  test('on a stair under 44 in serve fewer than 50 (IBC 1011.2, 36 in from memory)', () => {
    const stair = (inches: number) =>
      peopleExitsServe(us, {
        exits: [
          { clearWidthMillimetres: millimetresFromInches(inches), component: 'stairs' },
          { clearWidthMillimetres: millimetresFromInches(inches), component: 'stairs' },
        ],
        sprinklersAndVoiceAlarm: false,
      }).people
    expect(stair(35.9)).toBe(0)
    expect(stair(36)).toBe(98)
    expect(stair(44)).toBe(293)
  })

  test('never serve fewer when one is added or made wider', () => {
    const width = fc.integer({ min: 0, max: 4000 })
    fc.assert(
      fc.property(
        fc.constantFrom(us, uk),
        fc.array(width, { maxLength: 6 }),
        width,
        fc.nat({ max: 5 }),
        fc.boolean(),
        (tables, widths, extra, place, sprinklers) => {
          const before = serve(tables, widths, sprinklers).people
          expect(serve(tables, [...widths, extra], sprinklers).people).toBeGreaterThanOrEqual(before)
          const wider = widths.map((value, index) => (index === place ? value + extra : value))
          expect(serve(tables, wider, sprinklers).people).toBeGreaterThanOrEqual(before)
        },
      ),
      sure,
    )
  })

  test('made as wide as is asked for serve the people they were asked for', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(us, uk),
        fc.integer({ min: 1, max: 3000 }),
        fc.nat({ max: 4 }),
        fc.boolean(),
        (tables, load, more, sprinklersAndVoiceAlarm) => {
          const exits = exitsNeeded(tables, load) + more
          const width = widthOfEachExitMillimetres(tables, {
            people: load,
            exits,
            component: 'level',
            sprinklersAndVoiceAlarm,
          })
          const served = serve(
            tables,
            Array.from({ length: exits }, () => width),
            sprinklersAndVoiceAlarm,
          )
          expect(served.people).toBeGreaterThanOrEqual(load)
        },
      ),
      sure,
    )
  })

  test('nobody needs no width', () => {
    for (const tables of [us, uk]) {
      const none = { people: 0, component: 'level', sprinklersAndVoiceAlarm: false } as const
      expect(exitWidthNeededMillimetres(tables, none)).toBe(0)
      expect(widthOfEachExitMillimetres(tables, { ...none, exits: 2 })).toBe(0)
    }
  })
})

describe('the width of one UK escape route (Table 2.3, from memory)', () => {
  test.each([
    [1, 750],
    [60, 750],
    [61, 850],
    [110, 850],
    [111, 1050],
    [220, 1050],
    [221, 1105],
    [300, 1500],
  ])('for %d people is %d mm', (load, millimetres) => {
    const input = { people: load, component: 'level', sprinklersAndVoiceAlarm: true } as const
    expect(exitWidthNeededMillimetres(uk, input)).toBe(millimetres)
  })
})

describe('two exits', () => {
  const corners = [
    { xMetres: 0, yMetres: 0 },
    { xMetres: 3, yMetres: 4 },
  ]
  const apart = (roomDiagonalMetres: number, sprinklered: boolean, exits = corners) =>
    exitsApart(us, { exits, roomDiagonalMetres, sprinklered })

  test('must be half the longest diagonal apart, a third with sprinklers (IBC 1007.1.1, second-hand)', () => {
    expect(apart(10, false)).toEqual({ farthestMetres: 5, neededMetres: 5, areFarEnough: true })
    expect(apart(10.01, false)?.areFarEnough).toBe(false)
    expect(apart(15, true)?.areFarEnough).toBe(true)
    expect(apart(15.01, true)?.areFarEnough).toBe(false)
  })

  test('are measured between the two that are farthest apart', () => {
    const three = [...corners, { xMetres: 6, yMetres: 8 }]
    expect(apart(20, false, three)?.farthestMetres).toBe(10)
  })

  test('cannot be judged when only one is known, or where the tables have no figure', () => {
    expect(apart(10, false, corners.slice(0, 1))).toBeNull()
    expect(exitsApart(uk, { exits: corners, roomDiagonalMetres: 10, sprinklered: false })).toBeNull()
  })
})

describe('how sure the figures for exits are', () => {
  test('the UK table of widths and leaving out the widest exit are from memory, and name no other source', () => {
    expect(uk.exitWidth.level).toMatchObject({
      status: 'from memory',
      source: 'Approved Document B vol 2, Table 2.3',
    })
    expect(uk.lostExit).toMatchObject({
      status: 'from memory',
      source: 'Approved Document B vol 2, discounting of exits',
    })
  })

  test('a rule of several figures is as sure as the least sure of them', () => {
    // 44 in second-hand, 36 in from memory
    expect(us.exitWidth.stairs?.status).toBe('from memory')
    // one end second-hand, both ends from memory
    expect(us.rows?.status).toBe('from memory')
    expect(us.exitWidth.level.status).toBe('second-hand')
  })
})

test('from 50 people on doors open outward (from memory) and have panic hardware (second-hand), IBC 1010', () => {
  expect([49, 50].map((load) => outwardSwingNeeded(us, load))).toEqual([false, true])
  expect([49, 50].map((load) => panicHardwareNeeded(us, load))).toEqual([false, true])
  expect([60, 61].map((load) => outwardSwingNeeded(uk, load))).toEqual([false, true]) // from memory
  expect(panicHardwareNeeded(uk, 61)).toBeNull()
})

test('people have a choice of ways within 30 ft, or 75 ft if fewer than 50 (IBC 1030.8, second-hand)', () => {
  const oneWay = (load: number) => travelDistance(us, { people: load, seatedInRows: true }).oneWayMetres
  expect(oneWay(49)).toBeCloseTo(metresFromFeet(75), 9)
  expect(oneWay(50)).toBeCloseTo(9.144, 9)
  // Approved Document B vol 2, Table 2.1: 18/45 m second-hand, 15/32 m for seats in rows from memory
  expect(travelDistance(uk, { people: 100, seatedInRows: false })).toMatchObject({
    oneWayMetres: 18,
    withChoiceMetres: 45,
  })
  expect(travelDistance(uk, { people: 100, seatedInRows: true })).toMatchObject({
    oneWayMetres: 15,
    withChoiceMetres: 32,
  })
})

test('what cannot be is refused with the name of the field', () => {
  expect(() => exitsNeeded(us, -1)).toThrow('people: expected a whole number of 0 or more, got -1')
  expect(() => exitsNeeded(us, 1.5)).toThrow(RangeError)
  expect(() =>
    widthOfEachExitMillimetres(us, {
      people: 10,
      exits: 0,
      component: 'level',
      sprinklersAndVoiceAlarm: false,
    }),
  ).toThrow('exits: expected 1 or more, got 0')
  expect(() =>
    peopleExitsServe(us, { exits: [{ clearWidthMillimetres: Number.NaN }], sprinklersAndVoiceAlarm: false }),
  ).toThrow(/^exits\[0\]\.clearWidthMillimetres/)
  expect(() =>
    exitWidthNeededMillimetres(uk, { people: 10, component: 'stairs', sprinklersAndVoiceAlarm: false }),
  ).toThrow('component: the uk table has no figure for stairs')
  expect(() => exitsApart(us, { exits: [], roomDiagonalMetres: 0, sprinklered: false })).toThrow(
    'roomDiagonalMetres: expected a number above 0, got 0',
  )
})
