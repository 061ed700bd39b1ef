/** Floors that more than one row of the load table fits. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { AdviceInput } from '../../../../src/scheduler/standards/advice/advice-input.ts'
import { occupancyAdvice } from '../../../../src/scheduler/standards/advice/occupancy-advice.ts'
import { squareMetresFromSquareFeet } from '../../../../src/scheduler/standards/occupancy/imperial-units.ts'
import { aLayout, itemOf } from './a-layout.ts'

const advice = (code: string, changes: Partial<AdviceInput> = {}) =>
  itemOf(occupancyAdvice(aLayout(changes)), code)

describe('a floor that more than one row of the load table fits', () => {
  const holds = (changes: Partial<AdviceInput>) => {
    const items = occupancyAdvice(aLayout({ seats: null, occupantLimitPosted: null, ...changes }))
    return [itemOf(items, 'occupant-load')?.required, itemOf(items, 'exits-people')?.required]
  }

  test('a meeting with chairs only promises as at tables, but its exits must serve people in rows', () => {
    const circle = {
      layoutKind: 'meeting',
      netAreaSquareMetres: squareMetresFromSquareFeet(900),
      chairSeats: 30,
      seats: 30,
      occupantLimitPosted: null,
    } as const
    expect(advice('occupant-load', circle)).toMatchObject({
      text: '900 ft² of floor hold 60 people, counted as people at tables, at 15 ft² a person; for exits the load is 129 (people in rows of chairs at 7 ft² a person); 30 are expected.',
      required: 60,
      verdict: 'ok',
    })
    expect(advice('exits-people', circle)?.required).toBe(129)
    expect(advice('exits-number', circle)?.required).toBe(2)
  })

  test('tables make it a floor of tables, both ways', () => {
    for (const layoutKind of ['meeting', 'other', 'banquet'] as const) {
      expect(holds({ layoutKind, tablesCount: 10, chairSeats: 80 })).toEqual([160, 160])
    }
  })

  test('a banquet of which only chairs are entered has the exits of chairs', () => {
    expect(holds({ layoutKind: 'banquet', chairSeats: 80 })).toEqual([160, 343])
    expect(holds({ layoutKind: 'banquet' })).toEqual([160, 160])
  })

  test('onlookers on chairs at games come on top for the exits; at tables the tables count', () => {
    expect(holds({ layoutKind: 'games' })).toEqual([48, 48])
    expect(holds({ layoutKind: 'games', chairSeats: 40 })).toEqual([48, 88])
    expect(holds({ layoutKind: 'games', chairSeats: 40, tablesCount: 10 })).toEqual([48, 160])
    expect(advice('occupant-load', { layoutKind: 'games', chairSeats: 40, seats: null })?.text).toContain(
      'for exits the load is 88 (48 people on a games floor at 50 ft² a person and 40 people on chairs).',
    )
  })

  test('worship stays in rows whatever table stands in front', () => {
    expect(holds({ tablesCount: 1, chairSeats: 200 })).toEqual([342, 343])
  })

  test('chairs beyond what the floor holds are still people who must get out', () => {
    expect(holds({ tablesCount: 1, layoutKind: 'other', chairSeats: 250 })).toEqual([160, 250])
  })

  test('a platform of 384 square feet counts as a stage, with tables or chairs on the rest', () => {
    const stageAreaSquareMetres = squareMetresFromSquareFeet(384)
    // 134.4 at tables and 25.6 on the platform, each rounded down to promise and up for the exits.
    expect(holds({ layoutKind: 'banquet', tablesCount: 10, stageAreaSquareMetres })).toEqual([159, 161])
    expect(holds({ stageAreaSquareMetres })).toEqual([288 + 25, 288 + 26])
    expect(
      advice('occupant-load', { layoutKind: 'banquet', tablesCount: 10, seats: 150, stageAreaSquareMetres })
        ?.text,
    ).toBe(
      '2,400 ft² of floor hold 159 people: 134 people at tables at 15 ft² a person and 25 people on a stage or platform at 15 ft² a person; 150 are expected.',
    )
  })

  test('a stage of unknown size is counted as floor, and it says so; one larger than the floor is the floor', () => {
    expect(holds({ stageAreaSquareMetres: null })).toEqual([342, 343])
    expect(advice('occupant-load', { stageAreaSquareMetres: null })?.text).toContain(
      '; the stage, whose size is not known, is counted as floor; 300 are expected.',
    )
    expect(holds({ stageAreaSquareMetres: squareMetresFromSquareFeet(4000) })).toEqual([160, 160])
  })

  test('where the tables have no row for a stage it is no place for guests, but floor for the exits', () => {
    const uk = { locale: 'uk', layoutKind: 'banquet', tablesCount: 10, netAreaSquareMetres: 200 } as const
    expect(holds({ ...uk, stageAreaSquareMetres: 40 })).toEqual([160, 200])
  })

  test('the exits never serve fewer than are promised, expected, posted or seated', () => {
    const people = fc.integer({ min: 0, max: 2000 })
    const shape = fc.record({
      locale: fc.constantFrom('us' as const, 'uk' as const),
      layoutKind: fc.constantFrom('worship', 'banquet', 'games', 'overflow', 'meeting', 'other'),
      seats: fc.option(people),
      headcount: fc.option(people),
      occupantLimitPosted: fc.option(people),
      chairSeats: people,
      tablesCount: fc.integer({ min: 0, max: 30 }),
      netAreaSquareMetres: fc.double({ min: 0, max: 2000, noNaN: true }),
      stageAreaSquareMetres: fc.option(fc.double({ min: 0, max: 300, noNaN: true })),
    })
    fc.assert(
      fc.property(shape, (changes) => {
        const items = occupancyAdvice(aLayout(changes))
        const judged = itemOf(items, 'exits-people')?.required ?? 0
        const { seats, headcount, occupantLimitPosted, chairSeats } = changes
        for (const one of [seats, headcount, occupantLimitPosted, chairSeats]) {
          expect(judged).toBeGreaterThanOrEqual(one ?? 0)
        }
        expect(judged).toBeGreaterThanOrEqual(itemOf(items, 'occupant-load')?.required ?? 0)
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })
})
