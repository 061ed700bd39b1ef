/**
 * Team lifts and the British guideline weights (HSE L23 and INDG143). None of it was read in the original: the team
 * rule and a few weights are quoted by others, the rest is from memory, and the rows say which.
 */
import { describe, expect, test } from 'vitest'
import {
  CARRY_METRES_MOST,
  carryProblem,
  GUIDELINE_WEIGHTS,
  guidelineKilograms,
  type HandZone,
  PUSH_PULL_GUIDELINES,
  repetitionFactor,
  teamLiftKilograms,
} from '../../src/scheduler/standards/lifting/index.ts'

/** L23 as quoted by a rail operator and in a forum; second-hand. */
describe('people who lift together', () => {
  test('C-12: two who lift 20 kg each lift 26.7 kg together (second-hand)', () => {
    expect(teamLiftKilograms([20, 20])).toBeCloseTo(26.67, 2)
  })

  test('lift half of the sum when they are three', () => {
    expect(teamLiftKilograms([20, 20, 20])).toBeCloseTo(30, 9)
  })

  test('have no published figure when they are four or more, and one alone lifts what one lifts', () => {
    expect(teamLiftKilograms([20, 20, 20, 20])).toBeNull()
    expect(teamLiftKilograms([20])).toBe(20)
    expect(teamLiftKilograms([])).toBe(0)
  })

  test('lift 33.3 kg as two men, 21.3 as two women, 27.3 as one of each, at the best height (computed)', () => {
    const best = (person: 'man' | 'woman') =>
      guidelineKilograms({
        person,
        reach: 'close',
        zone: 'knuckle-to-elbow',
        liftsPerMinute: 0,
        minor: false,
      })
    expect(teamLiftKilograms([best('man'), best('man')])).toBeCloseTo(33.3, 1)
    expect(teamLiftKilograms([best('woman'), best('woman')])).toBeCloseTo(21.3, 1)
    expect(teamLiftKilograms([best('man'), best('woman')])).toBeCloseTo(27.3, 1)
  })

  test('are refused by name when one of them lifts less than nothing', () => {
    expect(() => teamLiftKilograms([20, -1])).toThrow(
      new RangeError('aloneKilograms[1] must be a number, 0 or more, not -1'),
    )
  })
})

describe('the guideline weights', () => {
  const fromTheTop: readonly HandZone[] = [
    'shoulder-to-head',
    'elbow-to-shoulder',
    'knuckle-to-elbow',
    'mid-shin-to-knuckle',
    'floor-to-mid-shin',
  ]

  /** From memory, but for 25 kg, 16 kg and the 5 kg at head height, which are quoted by others. */
  test.each([
    ['man', 'close', [10, 20, 25, 20, 10]],
    ['man', 'arms-length', [5, 10, 15, 10, 5]],
    ['woman', 'close', [7, 13, 16, 13, 7]],
    ['woman', 'arms-length', [3, 7, 10, 7, 3]],
  ] as const)('for a %s, load %s, from head to floor (mostly from memory)', (person, reach, kilograms) => {
    const lift = { person, reach, liftsPerMinute: 0, minor: false }
    expect(fromTheTop.map((zone) => guidelineKilograms({ ...lift, zone }))).toEqual(kilograms)
  })

  test('shrink when the lift is repeated: 0.7 at once or twice a minute, 0.5 at 5 to 8, 0.2 above 12 (from memory)', () => {
    expect([0, 0.9, 1, 2, 5, 8, 13].map(repetitionFactor)).toEqual([1, 1, 0.7, 0.7, 0.5, 0.5, 0.2])
  })

  test('take the cautious step where none is stated', () => {
    expect([3, 4.9].map(repetitionFactor)).toEqual([0.5, 0.5])
    expect([9, 12].map(repetitionFactor)).toEqual([0.2, 0.2])
  })

  test('are half for somebody under 18 until assessed (common practice, no source)', () => {
    const lift = { person: 'woman', reach: 'close', zone: 'knuckle-to-elbow', liftsPerMinute: 1 } as const
    expect(guidelineKilograms({ ...lift, minor: true })).toBeCloseTo(16 * 0.7 * 0.5, 9)
  })

  test('are twenty, one for each person, reach and zone', () => {
    const keys = GUIDELINE_WEIGHTS.map(({ person, reach, zone }) => `${person} ${reach} ${zone}`)
    expect(new Set(keys).size).toBe(20)
    expect(keys).toHaveLength(20)
  })
})

describe('carrying and pushing', () => {
  test('about 10 m is as far as a load is carried without a rest (L23 in a guide by a maker; second-hand)', () => {
    expect(carryProblem(CARRY_METRES_MOST)).toBeNull()
    expect(carryProblem(25)).toBe(
      'Carried 25 m without a rest: guidance says about 10 m at most. Use a trolley or put it down on the way.',
    )
    expect(() => carryProblem(Number.NaN)).toThrow(RangeError)
  })

  test('a push takes 20 kgf to start and 10 to keep going for men, 15 and 7 for women (L23; from memory)', () => {
    expect(
      PUSH_PULL_GUIDELINES.map((row) => [
        row.person,
        row.toStartKilogramsForce,
        row.toKeepGoingKilogramsForce,
      ]),
    ).toEqual([
      ['man', 20, 10],
      ['woman', 15, 7],
    ])
  })
})
