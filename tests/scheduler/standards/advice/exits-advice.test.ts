/** The ways out, and for how many people. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { AdviceInput } from '../../../../src/scheduler/standards/advice/advice-input.ts'
import { occupancyAdvice } from '../../../../src/scheduler/standards/advice/occupancy-advice.ts'
import {
  metresFromFeet,
  millimetresFromInches,
} from '../../../../src/scheduler/standards/occupancy/imperial-units.ts'
import { NEW_YORK_TABLES } from '../../../../src/scheduler/standards/occupancy/us-tables.ts'
import { aLayout, itemOf } from './a-layout.ts'

const advice = (code: string, changes: Partial<AdviceInput> = {}) =>
  itemOf(occupancyAdvice(aLayout(changes)), code)

describe('the ways out', () => {
  const leaf = (name: string, inches: number, xFeet?: number) => ({
    name,
    clearWidthMillimetres: millimetresFromInches(inches),
    opensOutward: true,
    panicHardware: true,
    ...(xFeet === undefined ? {} : { xMetres: metresFromFeet(xFeet), yMetres: 0 }),
  })

  test('two pairs of doors are enough in every way', () => {
    const items = occupancyAdvice(aLayout()).filter(({ topic }) => topic === 'exits')
    expect(items.map(({ code, verdict }) => `${code} ${verdict}`)).toEqual([
      'exits-people ok',
      'exits-number ok',
      'exit-width ok',
      'exit-lost ok',
      'people-exits-serve ok',
      'exits-apart ok',
      'exit-doors-swing ok',
      'panic-hardware ok',
      'one-way-travel unknown',
    ])
  })

  test('two single leaves of 33.5 inches are just short for 343 people', () => {
    const changes = { occupantLimitPosted: null, exits: [leaf('east', 33.5, 0), leaf('west', 33.5, 60)] }
    expect(advice('exit-width', changes)).toMatchObject({
      found: 67,
      required: 68.6,
      unit: 'in',
      verdict: 'look',
      text: '343 people need 68.6 in of clear exit width in all; there are 67 in.',
    })
    expect(advice('exit-lost', changes)).toMatchObject({ found: 33.5, required: 34.3, verdict: 'look' })
    expect(advice('people-exits-serve', changes)).toMatchObject({
      found: 335,
      required: 343,
      verdict: 'look',
    })
  })

  test('sprinklers with a voice alarm make them enough, but not in New York', () => {
    const changes = {
      occupantLimitPosted: null,
      sprinklersAndVoiceAlarm: true,
      exits: [leaf('east', 33.5, 0), leaf('west', 33.5, 60)],
    }
    expect(advice('exit-width', changes)).toMatchObject({ verdict: 'ok', required: 51.5 })
    expect(advice('people-exits-serve', changes)?.verdict).toBe('ok')
    expect(advice('exit-width', { ...changes, tables: NEW_YORK_TABLES })?.verdict).toBe('look')
  })

  test('one exit is not enough for 50, and a narrow door is named and does not count', () => {
    expect(advice('exits-number', { exits: [leaf('east', 72)] })).toMatchObject({
      found: 1,
      required: 2,
      verdict: 'look',
      text: '343 people need 2 exits; 1 is wide enough to count.',
    })
    const changes = { exits: [leaf('east', 72), leaf('the vestry door', 28)] }
    expect(advice('exits-number', changes)?.found).toBe(1)
    expect(advice('exit-too-narrow', changes)?.text).toBe(
      'An exit under 32 in clear does not count: the vestry door (the narrowest 28 in).',
    )
  })

  test('a door of 32 inches entered to the millimetre, 813, counts', () => {
    const door = { ...leaf('east', 0), clearWidthMillimetres: 813 }
    expect(advice('exit-too-narrow', { exits: [door] })).toBeUndefined()
    expect(advice('exit-too-narrow', { exits: [{ ...door, clearWidthMillimetres: 812 }] })).toBeDefined()
  })

  test('where no exits are entered it says what is needed', () => {
    expect(advice('exits-number', { exits: [] })).toMatchObject({
      found: null,
      required: 2,
      verdict: 'unknown',
    })
    expect(advice('exit-width', { exits: [], occupantLimitPosted: null })).toMatchObject({
      text: 'For 343 people, 2 exits must be at least 34.3 in clear each.',
      required: 34.3,
      verdict: 'unknown',
    })
  })

  test('two doors side by side are too near one another; sprinklers allow a third of the diagonal', () => {
    const exits = [leaf('east', 72, 0), leaf('west', 72, 30)]
    expect(advice('exits-apart', { exits })).toMatchObject({
      found: 30,
      required: 36.1,
      unit: 'ft',
      verdict: 'look',
    })
    expect(advice('exits-apart', { exits, sprinklersAndVoiceAlarm: true })?.verdict).toBe('ok')
  })

  test('how far apart they are cannot be told without their places or the size of the room', () => {
    const apart = (changes: Partial<AdviceInput>) => advice('exits-apart', changes)?.verdict
    expect(apart({ exits: [leaf('east', 72), leaf('west', 72)] })).toBe('unknown')
    expect(apart({ roomDiagonalMetres: null })).toBe('unknown')
    expect(apart({ exits: [leaf('east', 72, 0), leaf('west', 72, 30), leaf('north', 72)] })).toBe('unknown')
    expect(apart({ exits: [leaf('east', 72, 0), leaf('west', 72, 60), leaf('north', 72)] })).toBe('ok')
  })

  test('doors that open inward are named; what is not known is asked', () => {
    const [street, yard] = aLayout().exits
    const swing = (opensOutward: boolean | null) =>
      advice('exit-doors-swing', { exits: [street!, { ...yard!, opensOutward }] })
    expect(swing(false)).toMatchObject({
      verdict: 'look',
      found: 1,
      required: 2,
      text: 'From 50 people on, exit doors must open outward; not so: the yard doors.',
    })
    expect(swing(null)).toMatchObject({ verdict: 'unknown', found: null })
    expect(swing(true)?.verdict).toBe('ok')
  })

  test('a room for fewer than 50 is asked for neither panic hardware nor a second exit', () => {
    const small = { seats: 40, occupantLimitPosted: 45, netAreaSquareMetres: 30, exits: [leaf('east', 36)] }
    expect(advice('exits-number', small)).toMatchObject({ verdict: 'ok', required: 1 })
    for (const code of ['panic-hardware', 'exit-doors-swing', 'exits-apart']) {
      expect(advice(code, small)).toBeUndefined()
    }
  })

  test('the United Kingdom counts exits without the widest', () => {
    const changes = {
      locale: 'uk',
      units: 'metric',
      exits: [leaf('east', 72), leaf('west', 42)],
    } as const
    expect(advice('people-exits-serve', changes)).toMatchObject({
      found: 220,
      required: 446,
      verdict: 'look',
      text: 'Without the widest, which is left out, these exits serve 220 people; they must serve 446.',
      status: 'from memory',
    })
    expect(advice('exit-width', changes)).toBeUndefined()
  })

  describe('the people they serve are told with the rule that decides', () => {
    const millimetres = (...widths: number[]) =>
      widths.map((clearWidthMillimetres, index) => ({
        ...leaf(`door ${index + 1}`, 0),
        clearWidthMillimetres,
      }))
    const serve = (exits: AdviceInput['exits'], changes: Partial<AdviceInput> = {}) =>
      advice('people-exits-serve', { exits, layoutKind: 'banquet', tablesCount: 10, ...changes })

    test('by all of the width, where more than half of it remains without the widest', () => {
      // 4,300 mm at 5.08 mm a person are 846; without the widest 2,600 mm remain, enough for the half of 1,023.
      expect(serve(millimetres(1700, 1700, 900))).toMatchObject({
        found: 846,
        text: 'By their width together these exits serve 846 people; they must serve 340.',
      })
    })

    test('by what must remain without the widest, where one is much wider than the others', () => {
      expect(serve([leaf('east', 144), leaf('west', 32)])).toMatchObject({
        found: 320,
        verdict: 'look',
        text: 'If the widest is lost, half of the width needed must remain: so these exits serve 320 people; they must serve 340.',
      })
    })

    test('by their number, however wide they are', () => {
      expect(serve(millimetres(2000, 2000, 2000))).toMatchObject({
        found: 1000,
        text: '3 exits serve at most 1,000 people, however wide; they must serve 340.',
        source: expect.stringContaining('IBC 1006.2.1.1'),
      })
      expect(serve(millimetres(2000))?.text).toBe(
        'One exit serves at most 49 people, however wide; they must serve 340.',
      )
    })

    test('is the very number that its sentence speaks of, whatever the doors', () => {
      const throughUk = (width: number) =>
        width >= 1105 ? Math.floor(width / 5) : width >= 1050 ? 220 : width >= 850 ? 110 : 60
      const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0)
      fc.assert(
        fc.property(
          fc.constantFrom('us' as const, 'uk' as const),
          fc.array(fc.integer({ min: 813, max: 4000 }), { minLength: 1, maxLength: 5 }),
          (locale, widths) => {
            const item = serve(millimetres(...widths), { locale })!
            const others = [...widths].sort((a, b) => a - b).slice(0, -1)
            const numbers = [
              [
                /^By (its|their) width/,
                locale === 'us' ? Math.floor(sum(widths) / 5.08) : sum(widths.map(throughUk)),
              ],
              [/^If the widest is lost, half/, Math.floor(sum(others) / 5.08 / 0.5)],
              [/^Without the widest/, sum(others.map(throughUk))],
              [
                /^(One exit serves|\d exits serve) at most/,
                (locale === 'us' ? [49, 500, 1000] : [59, 600])[widths.length - 1],
              ],
            ] as const
            const told = numbers.filter(([words]) => words.test(item.text))
            expect(told.map(([, people]) => people)).toEqual([item.found])
          },
        ),
        { seed: 20261125, numRuns: 300 },
      )
    })
  })
})

describe('exits for the greatest number that may be there', () => {
  const games = {
    layoutKind: 'games',
    seats: null,
    netAreaSquareMetres: 214,
    occupantLimitPosted: 220,
    units: 'metric',
    exits: ['east', 'west', 'north'].map((name) => ({
      name,
      clearWidthMillimetres: 1000,
      opensOutward: false,
      panicHardware: false,
    })),
  } as const

  test('a games floor with a posted limit of 220 has the exits of 220, and the load is told beside it', () => {
    expect(advice('exits-people', games)?.text).toBe(
      'Exits are judged for 220 people, the posted limit; the load of this layout is 47 (people on a games floor at 4.65 m² a person).',
    )
    expect(advice('exits-number', games)).toMatchObject({ required: 2, found: 3 })
    expect(advice('exit-doors-swing', games)?.verdict).toBe('look')
    expect(advice('panic-hardware', games)?.verdict).toBe('look')
    expect(advice('exits-apart', { ...games, roomDiagonalMetres: 20 })).toMatchObject({ required: 10 })
    expect(advice('one-way-travel', games)?.text).toBe(
      'From every place people should have a choice of two ways out within 9.1 m.',
    )
  })

  test('guests expected beyond load and limit are judged for too', () => {
    expect(advice('exits-people', { ...games, headcount: 260 })?.text).toMatch(
      /^Exits are judged for 260 people, as many as are expected; the load of this layout is 47 \(.*\); the posted limit is 220\.$/,
    )
    expect(advice('exits-people')?.text).toBe(
      'Exits are judged for 343 people, the load of this layout (people in rows of chairs at 7 ft² a person); 300 are expected; the posted limit is 340.',
    )
  })

  test('one exit is only spoken of where one is entered', () => {
    const few = { ...games, occupantLimitPosted: 40 }
    expect(advice('one-way-travel', few)?.text).toBe(
      'From every place people should have a choice of two ways out within 22.9 m.',
    )
    expect(advice('one-way-travel', { ...few, exits: few.exits.slice(0, 1) })?.text).toBe(
      'With one exit, no place should be farther than 22.9 m from it.',
    )
  })

  test('an item is as sure as the least sure figure in it, the load too', () => {
    // Rows in the United Kingdom: 0.5 m² a person from memory, one exit for fewer than 60 second-hand.
    const small = { locale: 'uk', netAreaSquareMetres: 20, seats: null, occupantLimitPosted: null } as const
    expect(advice('exits-number', small)).toMatchObject({ required: 1, status: 'from memory' })
    expect(advice('exits-number', { ...small, layoutKind: 'banquet', tablesCount: 5 })?.status).toBe(
      'second-hand',
    )
    expect(advice('row-clear-width')?.status).toBe('from memory')
  })
})
