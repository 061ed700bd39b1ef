import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { AdviceInput } from '../../../../src/scheduler/standards/advice/advice-input.ts'
import { ADVICE_CAUTION } from '../../../../src/scheduler/standards/advice/advice-item.ts'
import { occupancyAdvice } from '../../../../src/scheduler/standards/advice/occupancy-advice.ts'
import { millimetresFromInches } from '../../../../src/scheduler/standards/occupancy/imperial-units.ts'
import { aLayout, chairsInRows, itemOf, type RowPlan, roundTables, rowLengthMetres } from './a-layout.ts'

const advice = (code: string, changes: Partial<AdviceInput> = {}) =>
  itemOf(occupancyAdvice(aLayout(changes)), code)

test('the caution names who decides', () => {
  expect(ADVICE_CAUTION).toBe(
    'Planning aids only: the posted occupant limit, the local fire and building code and the fire marshal decide.',
  )
})

describe('how many people', () => {
  test('a floor of 2,400 square feet holds 342 in rows, and 300 are fine', () => {
    expect(advice('occupant-load')).toEqual({
      topic: 'occupancy',
      code: 'occupant-load',
      text: '2,400 ft² of floor hold 342 people in rows of chairs at 7 ft² a person; 300 are expected.',
      found: 300,
      required: 342,
      unit: 'people',
      verdict: 'ok',
      source: 'IBC Table 1004.5 (1004.1.2 up to 2015)',
      status: 'second-hand',
    })
  })

  test('the same hall in metric units says square metres', () => {
    expect(advice('occupant-load', { units: 'metric' })?.text).toBe(
      '223 m² of floor hold 342 people in rows of chairs at 0.65 m² a person; 300 are expected.',
    )
  })

  test('at tables it holds 160: more are too many, seats or guests, whichever is more', () => {
    const banquet = (seats: number | null, headcount: number | null) =>
      advice('occupant-load', { layoutKind: 'banquet', tablesCount: 20, seats, headcount })
    expect(banquet(160, null)?.verdict).toBe('ok')
    expect(banquet(161, null)).toMatchObject({ verdict: 'look', found: 161, required: 160 })
    expect(banquet(120, 161)).toMatchObject({ verdict: 'look', found: 161 })
    expect(banquet(null, null)).toMatchObject({ verdict: 'unknown', found: null, required: 160 })
  })

  test('games count the whole floor, and say so', () => {
    expect(advice('occupant-load', { layoutKind: 'games', seats: null, headcount: 40 })?.text).toBe(
      '2,400 ft² of floor hold 48 people on a games floor at 50 ft² a person, a figure for the whole floor with closets and ways; 40 are expected.',
    )
  })

  test('the UK table gives the same floor 445 in an assembly hall and 222 at tables', () => {
    const uk = (layoutKind: AdviceInput['layoutKind']) =>
      advice('occupant-load', { locale: 'uk', units: 'metric', layoutKind })?.required
    expect(uk('worship')).toBe(445)
    expect(uk('banquet')).toBe(222)
  })

  test('a posted limit is compared with the people expected, and asked for where none is entered', () => {
    expect(advice('posted-limit')).toMatchObject({ found: 300, required: 340, verdict: 'ok' })
    expect(advice('posted-limit', { occupantLimitPosted: 299 })).toMatchObject({
      verdict: 'look',
      text: 'The posted limit is 299 people; 300 are expected, which is too many.',
    })
    expect(advice('posted-limit', { occupantLimitPosted: null })?.text).toBe(
      'No occupant limit has been entered: enter the one posted in the room; by its floor this layout holds 342 people.',
    )
  })

  test('a posted limit above what the layout holds by its floor is looked at', () => {
    expect(advice('posted-limit-above-load')).toBeUndefined()
    expect(advice('posted-limit-above-load', { occupantLimitPosted: 400 })).toMatchObject({
      found: 400,
      required: 342,
      verdict: 'look',
    })
  })

  test('in the United Kingdom the risk assessment or the licence sets the limit, not a code of another country', () => {
    const uk = { locale: 'uk', units: 'metric' } as const
    for (const occupantLimitPosted of [null, 340, 9000]) {
      const items = occupancyAdvice(aLayout({ ...uk, occupantLimitPosted }))
      expect(items.filter(({ source, text }) => /IBC|IFC|NFPA/.test(`${source} ${text}`))).toEqual([])
    }
    expect(advice('posted-limit', { ...uk, occupantLimitPosted: null })?.text).toBe(
      'No occupant limit has been entered: enter the one in its fire risk assessment or licence; by its floor this layout holds 445 people.',
    )
    expect(advice('posted-limit', uk)).toMatchObject({
      text: 'The limit of the room is 340 people; 300 are expected.',
      source: 'the limit entered; the fire risk assessment of the room, or its licence, decides',
    })
  })
})

describe('rows of chairs on the plan', () => {
  const plan = (changes: Partial<RowPlan> = {}): RowPlan => ({
    rows: 10,
    blocks: [10, 10],
    clearMillimetres: 400,
    aisleMillimetres: 1100,
    ...changes,
  })
  const rows = (changes: Partial<RowPlan> = {}, layout: Partial<AdviceInput> = {}) =>
    occupancyAdvice(aLayout({ seats: 200, placements: chairsInRows(plan(changes)), ...layout }))
  const corners = (leftMetres: number, rightMetres: number) => {
    const right = rowLengthMetres(plan()) + rightMetres
    return [
      { xMetres: -leftMetres, yMetres: -3 },
      { xMetres: right, yMetres: -3 },
      { xMetres: right, yMetres: 20 },
      { xMetres: -leftMetres, yMetres: 20 },
    ]
  }
  const way = (changes: Partial<RowPlan> = {}, layout: Partial<AdviceInput> = {}) =>
    itemOf(rows(changes, layout), 'row-clear-width')
  const aisle = (changes: Partial<RowPlan> = {}, layout: Partial<AdviceInput> = {}) =>
    itemOf(rows(changes, layout), 'aisle-width')

  test('with 15.7 inches between rows of ten are fine whatever is at their ends', () => {
    expect(way()).toMatchObject({ verdict: 'ok', found: 15.7, required: 13.8, unit: 'in', topic: 'aisles' })
    expect(way({}, { units: 'metric' })).toMatchObject({
      verdict: 'ok',
      found: 400,
      required: 351,
      unit: 'mm',
    })
  })

  test('closer than 12 inches are too close, and it says how many ways are', () => {
    expect(way({ clearMillimetres: 280 })).toMatchObject({
      verdict: 'look',
      found: 11,
      required: 12,
      text: 'Between rows of 10 seats 11 in are clear, at least 12 in are needed (18 of 18 ways between rows too narrow).',
    })
  })

  test('between 12 and 13.8 inches it cannot be told without the walls', () => {
    expect(way({ clearMillimetres: 320 })).toMatchObject({
      verdict: 'unknown',
      text: 'Between rows of 10 seats 12.6 in are clear: from 12 in to 13.8 in are needed, by the aisles at their ends and the way they face.',
    })
  })

  test('with side aisles to the walls 12 inches are enough, against the walls they are not', () => {
    expect(way({ clearMillimetres: 320 }, { floorCorners: corners(1, 1) })?.verdict).toBe('ok')
    expect(way({ clearMillimetres: 320 }, { floorCorners: corners(0.1, 0.1) })).toMatchObject({
      verdict: 'look',
      required: 13.8,
    })
    expect(way({ clearMillimetres: 320 }, { floorCorners: corners(0.5, 1) })?.verdict).toBe('unknown')
  })

  test('exactly at the figure, to the millimetre, are enough', () => {
    expect(way({ clearMillimetres: 350.52 })?.verdict).toBe('ok')
    expect(way({ clearMillimetres: 349.4 })?.verdict).toBe('unknown')
  })

  test('are found however the whole is turned', () => {
    const straight = rows()
    for (const rotationDegrees of [30, 90, 180, 355]) {
      expect(rows({ rotationDegrees })).toEqual(straight)
    }
  })

  test('of more than 100 seats are too long', () => {
    const long = rows({ rows: 2, blocks: [101] })
    expect(itemOf(long, 'row-too-long')).toMatchObject({ found: 101, required: 100, verdict: 'look' })
    expect(itemOf(rows({ rows: 2, blocks: [100] }), 'row-too-long')).toBeUndefined()
  })

  test('a middle aisle of 43 inches is wide enough, one of 35 is not, 40 depends on who uses it', () => {
    expect(aisle()).toMatchObject({ verdict: 'ok', found: 43.3, required: 42 })
    // With no other aisle all 200 seats use it, with side aisles 100: both are 50 or more.
    expect(aisle({ aisleMillimetres: millimetresFromInches(40) })).toMatchObject({
      verdict: 'look',
      required: 42,
    })
    // Eight rows of ten: 40 seats or 80.
    expect(aisle({ rows: 4, aisleMillimetres: millimetresFromInches(40) })).toMatchObject({
      verdict: 'unknown',
      text: 'An aisle with seats on both sides for 40 to 80 seats is 40 in wide: 42 in are needed unless few use it.',
    })
    expect(aisle({ rows: 4, aisleMillimetres: millimetresFromInches(35) })).toMatchObject({
      verdict: 'look',
      found: 35,
      required: 36,
    })
  })

  test('a side aisle to the wall is measured too', () => {
    expect(aisle({}, { floorCorners: corners(0.8, 1) })).toMatchObject({
      verdict: 'look',
      found: 31.5,
      required: 36,
    })
    expect(aisle({}, { floorCorners: corners(1, 1) })?.verdict).toBe('ok')
  })

  test('a middle aisle serves half of each row where there are side aisles too', () => {
    const layout = { floorCorners: corners(1, 1) }
    expect(aisle({ rows: 4, aisleMillimetres: millimetresFromInches(40) }, layout)?.verdict).toBe('ok')
    expect(aisle({ rows: 5, aisleMillimetres: millimetresFromInches(40) }, layout)).toMatchObject({
      verdict: 'look',
      text: 'An aisle with seats on both sides for 50 seats is 40 in wide, at least 42 in are needed.',
    })
  })

  test('a place left free in one row is not taken for an aisle', () => {
    const placements = chairsInRows(plan()).filter((_, index) => index !== 63)
    expect(itemOf(occupancyAdvice(aLayout({ seats: 199, placements })), 'aisle-width')).toMatchObject({
      verdict: 'ok',
      found: 43.3,
    })
  })

  test('without any aisle it says what to leave', () => {
    expect(aisle({ blocks: [12] })).toMatchObject({ verdict: 'unknown', found: null })
  })

  test('chairs in a circle are no rows: it says so and gives the figures', () => {
    const placements = Array.from({ length: 40 }, (_, index) => ({
      kind: 'stacking-chair' as const,
      xMetres: 5 * Math.cos((index * Math.PI) / 20),
      yMetres: 5 * Math.sin((index * Math.PI) / 20),
      rotationDegrees: (index * 9 + 90) % 360,
      widthMetres: 0.52,
      depthMetres: 0.55,
      seatsPerPiece: 1,
    }))
    const items = occupancyAdvice(aLayout({ seats: 40, placements }))
    expect(itemOf(items, 'row-clear-width')).toMatchObject({
      verdict: 'unknown',
      text: expect.stringMatching(/^No straight rows can be made out on the plan: leave at least 12 in/),
    })
  })

  test('more than 200 loose chairs are to be joined', () => {
    expect(itemOf(rows({ rows: 11 }), 'chairs-joined')).toMatchObject({ required: 3, verdict: 'unknown' })
    expect(itemOf(rows(), 'chairs-joined')).toBeUndefined()
  })

  test('a wider way never makes the verdict on rows worse', () => {
    const rank = { ok: 2, unknown: 1, look: 0 }
    const clear = fc.integer({ min: 100, max: 900 })
    fc.assert(
      fc.property(clear, clear, fc.integer({ min: 3, max: 30 }), (a, b, seats) => {
        const verdict = (clearMillimetres: number) =>
          rank[way({ rows: 4, blocks: [seats, seats], clearMillimetres })?.verdict ?? 'look']
        expect(verdict(Math.max(a, b))).toBeGreaterThanOrEqual(verdict(Math.min(a, b)))
      }),
      { seed: 20261125, numRuns: 60 },
    )
  })
})

describe('rows and tables without a plan', () => {
  test('rows get the figures to leave', () => {
    const text = advice('row-clear-width')?.text
    expect(text).toBe(
      'Leave at least 12 in clear from the back of one row to the next for up to 14 seats with an aisle at both ends or 7 with one, and 0.3 in or 0.6 in more for each seat beyond, up to 22 in.',
    )
    expect(advice('row-clear-width')).toMatchObject({ found: null, required: 12, verdict: 'unknown' })
    expect(advice('aisle-width')?.text).toBe(
      'Leave aisles of at least 42 in with seats on both sides (36 in for up to 49 seats) and 36 in with seats on one side.',
    )
    expect(advice('chairs-joined')).toMatchObject({ required: 3 })
    expect(advice('row-clear-width', { units: 'metric' })).toMatchObject({ required: 305, unit: 'mm' })
    expect(advice('row-clear-width', { placements: roundTables(1, 0, false) })).toMatchObject({
      required: 12,
    })
    expect(advice('row-clear-width', { placements: [] })).toMatchObject({ required: 12, verdict: 'unknown' })
  })

  test('tables get 50 inches from edge to edge', () => {
    const changes = { layoutKind: 'banquet', tablesCount: 15, seats: 120 } as const
    expect(advice('table-spacing', changes)).toMatchObject({ required: 50, unit: 'in', verdict: 'unknown' })
    expect(advice('row-clear-width', changes)).toBeUndefined()
  })

  test('games ask for neither', () => {
    const items = occupancyAdvice(aLayout({ layoutKind: 'games', seats: 20, tablesCount: 0 }))
    expect(items.filter(({ topic }) => topic === 'aisles')).toEqual([])
  })

  test('where the code held has no figure it says so', () => {
    expect(advice('row-clear-width', { locale: 'uk' })).toMatchObject({ required: null, verdict: 'unknown' })
    expect(advice('table-spacing', { locale: 'uk', layoutKind: 'banquet', tablesCount: 5 })).toMatchObject({
      required: null,
      verdict: 'unknown',
    })
  })
})

describe('tables on the plan', () => {
  const spacing = (placements: AdviceInput['placements']) =>
    itemOf(
      occupancyAdvice(aLayout({ layoutKind: 'banquet', tablesCount: 4, seats: 32, placements })),
      'table-spacing',
    )

  test('round tables with chairs need 50 inches between their edges, 59 if the way is 30 feet long', () => {
    expect(spacing(roundTables(4, millimetresFromInches(49)))).toMatchObject({
      verdict: 'look',
      found: 49,
      required: 50,
      text: 'Two tables are 49 in apart; to pass between them people need 50 in from edge to edge (3 of 3 gaps too narrow).',
    })
    expect(spacing(roundTables(4, millimetresFromInches(50)))).toMatchObject({ verdict: 'unknown' })
    expect(spacing(roundTables(4, millimetresFromInches(59)))).toMatchObject({ verdict: 'ok', required: 59 })
  })

  test('chairs around tables are not taken for rows', () => {
    const items = occupancyAdvice(
      aLayout({ layoutKind: 'banquet', tablesCount: 4, seats: 32, placements: roundTables(4, 1500) }),
    )
    expect(itemOf(items, 'row-clear-width')).toBeUndefined()
  })

  test('long tables end to end are one table; apart, it depends on where their chairs are', () => {
    const long = (xMetres: number, yMetres: number, rotationDegrees = 0) => ({
      kind: 'long-table' as const,
      xMetres,
      yMetres,
      rotationDegrees,
      widthMetres: 2.4,
      depthMetres: 0.75,
      seatsPerPiece: 8,
    })
    expect(spacing([long(0, 0), long(2.4, 0)])).toBeUndefined()
    expect(spacing([long(0, 0), long(0, 1.75)])).toMatchObject({ verdict: 'unknown', found: 39.4 })
    expect(spacing([long(0, 0), long(0, 1)])).toMatchObject({ verdict: 'look', found: 9.8, required: 12 })
    expect(spacing([long(0, 0), long(0, 2.325, 180)])).toMatchObject({ verdict: 'ok', found: 62 })
    // Turned by a right angle: 1.2 m to the end of the other, from its middle.
    expect(spacing([long(0, 0), long(0, 2.575, 90)])).toMatchObject({ verdict: 'unknown', found: 39.4 })
    // Crossing one another: nobody can pass, and somebody should look at the plan.
    expect(spacing([long(0, 0), long(0, 0, 90)])).toMatchObject({ verdict: 'look', found: 0 })
  })

  test('round tables cannot be put together: however near, there is no way between them', () => {
    const round = (xMetres: number) => ({
      kind: 'round-table' as const,
      xMetres,
      yMetres: 0,
      rotationDegrees: 0,
      widthMetres: 1.52,
      depthMetres: 1.52,
      seatsPerPiece: 8,
    })
    expect(spacing([round(0), round(1.6), round(6)])).toMatchObject({ verdict: 'look', found: 3.1 })
    expect(spacing([round(0), round(1.5)])).toMatchObject({ verdict: 'look', found: 0 })
    expect(spacing([round(0), round(0)])).toMatchObject({ verdict: 'look', found: 0 })
  })
})

describe('every piece of advice', () => {
  const kinds = ['worship', 'banquet', 'games', 'overflow', 'meeting', 'other'] as const
  const input = fc.record({
    locale: fc.constantFrom('us' as const, 'uk' as const),
    units: fc.constantFrom('us' as const, 'metric' as const),
    layoutKind: fc.constantFrom(...kinds),
    seats: fc.option(fc.integer({ min: 0, max: 3000 })),
    headcount: fc.option(fc.integer({ min: 0, max: 3000 })),
    netAreaSquareMetres: fc.double({ min: 0, max: 5000, noNaN: true }),
    occupantLimitPosted: fc.option(fc.integer({ min: 1, max: 3000 })),
    tablesCount: fc.integer({ min: 0, max: 100 }),
    chairSeats: fc.integer({ min: 0, max: 400 }),
    stageAreaSquareMetres: fc.option(fc.double({ min: 0, max: 100, noNaN: true })),
    sprinklersAndVoiceAlarm: fc.boolean(),
    roomDiagonalMetres: fc.option(fc.double({ min: 1, max: 200, noNaN: true })),
    exits: fc.array(
      fc.record({
        name: fc.constantFrom('east', 'west', 'north'),
        clearWidthMillimetres: fc.integer({ min: 300, max: 4000 }),
        opensOutward: fc.option(fc.boolean()),
      }),
      { maxLength: 5 },
    ),
    placements: fc.option(
      fc.array(
        fc.record({
          kind: fc.constantFrom('stacking-chair' as const, 'round-table' as const, 'long-table' as const),
          xMetres: fc.double({ min: 0, max: 12, noNaN: true }),
          yMetres: fc.double({ min: 0, max: 12, noNaN: true }),
          rotationDegrees: fc.constantFrom(0, 45, 90, 359),
          widthMetres: fc.double({ min: 0.4, max: 2, noNaN: true }),
          depthMetres: fc.double({ min: 0.4, max: 2, noNaN: true }),
          seatsPerPiece: fc.option(fc.integer({ min: 0, max: 10 })),
        }),
        { maxLength: 40 },
      ),
    ),
  })

  test('is one finished sentence with a source, and its verdict never contradicts its numbers', () => {
    const mostIsBest = new Set(['occupant-load', 'posted-limit', 'posted-limit-above-load', 'row-too-long'])
    fc.assert(
      fc.property(input, (changes) => {
        const items = occupancyAdvice(aLayout(changes))
        expect(new Set(items.map(({ code }) => code)).size).toBe(items.length)
        for (const item of items) {
          expect(item.text).toMatch(/^[A-Z0-9].*\.$/)
          expect(item.text).not.toMatch(/NaN|undefined|Infinity|null/)
          expect(item.source.length).toBeGreaterThan(5)
          if (item.verdict === 'unknown' || item.found === null || item.required === null) continue
          const isEnough = mostIsBest.has(item.code)
            ? item.found <= item.required
            : item.found >= item.required
          if (item.code !== 'exits-apart')
            expect([item.code, isEnough]).toEqual([item.code, item.verdict === 'ok'])
        }
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })

  test('is the same whatever order pieces and exits are listed in', () => {
    fc.assert(
      fc.property(input, (changes) => {
        const layout = aLayout(changes)
        const turned = { ...layout, placements: layout.placements && [...layout.placements].reverse() }
        const numbers = (of: AdviceInput) =>
          occupancyAdvice(of).map(({ code, found, required, verdict }) => ({
            code,
            found,
            required,
            verdict,
          }))
        expect(numbers(turned)).toEqual(numbers(layout))
      }),
      { seed: 20261125, numRuns: 150 },
    )
  })
})

test('what cannot be is refused with the name of the field', () => {
  const refused = (changes: Partial<AdviceInput>) => () => occupancyAdvice(aLayout(changes))
  expect(refused({ netAreaSquareMetres: -1 })).toThrow(
    'netAreaSquareMetres: expected a number of 0 or more, got -1',
  )
  expect(refused({ seats: 1.5 })).toThrow('seats: expected a whole number of 0 or more, got 1.5')
  expect(refused({ headcount: -1 })).toThrow(/^headcount: /)
  expect(refused({ occupantLimitPosted: Number.NaN })).toThrow(/^occupantLimitPosted: /)
  expect(refused({ roomDiagonalMetres: 0 })).toThrow('roomDiagonalMetres: expected a number above 0, got 0')
  expect(refused({ tablesCount: -1 })).toThrow(/^tablesCount: /)
  expect(refused({ chairSeats: 0.5 })).toThrow(/^chairSeats: /)
  expect(refused({ stageAreaSquareMetres: -1 })).toThrow(/^stageAreaSquareMetres: /)
  expect(refused({ exits: [{ name: 'east', clearWidthMillimetres: -1, opensOutward: null }] })).toThrow(
    /^exits\[0\]\.clearWidthMillimetres: /,
  )
  const [chair] = chairsInRows({ rows: 1, blocks: [1], clearMillimetres: 0, aisleMillimetres: 0 })
  expect(refused({ placements: [{ ...chair!, widthMetres: 0 }] })).toThrow(/^placements\[0\]\.widthMetres: /)
  expect(refused({ placements: [{ ...chair!, xMetres: Number.NaN }] })).toThrow(/^placements\[0\]\.xMetres: /)
})
