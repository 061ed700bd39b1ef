import { describe, expect, test } from 'vitest'
import { scheduleFaults } from '../../../src/scheduler/turn/index.ts'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { type SolveOptions, solve } from '../../../src/scheduler/turn/solve.ts'
import { aTurn, hands, lane, mode, resource, task, turn } from './a-turn.ts'

/** Solves, and checks what is found. */
function solved(instance: TurnInstance, options: Partial<SolveOptions> = {}) {
  const result = solve(instance, { workMost: 100, seed: 1, ...options })
  expect(result.schedule === null ? [] : scheduleFaults(instance, result.schedule)).toEqual([])
  return result
}

/** For two: the work fits into 11, but one of them has at least 12 of it. */
const sevenAndThreeFives = [7, 5, 5, 5].map((ticks, index) => task(`job ${index}`, { modes: [mode(ticks)] }))

describe('the plan of a turn', () => {
  test('is proven best where one of two must do two things of three', () => {
    // Three tasks of ten for two: the work would fit into 15.
    expect(solved(aTurn({ activities: [task('a'), task('b'), task('c')] }))).toMatchObject({
      schedule: { readyTicks: [20] },
      boundTicks: [20],
      proof: 'bound',
    })
  })

  test('of no work is ready at its release, proven', () => {
    expect(solved(aTurn({ turns: [turn({ releaseTick: 9 })], lanes: [] }))).toEqual({
      schedule: { activities: [], readyTicks: [9] },
      workDone: 0,
      boundTicks: [9],
      proof: 'bound',
      exhausted: false,
    })
  })

  test('stops at the first plan that is proven best', () => {
    const activities = [task('strike'), task('set', { after: [0] })]
    expect(solved(aTurn({ activities }))).toMatchObject({
      schedule: { readyTicks: [20] },
      workDone: 1,
      proof: 'bound',
      exhausted: false,
    })
  })

  test('without proof takes all the effort it may, and says so', () => {
    expect(solved(aTurn({ activities: sevenAndThreeFives }), { workMost: 37 })).toMatchObject({
      schedule: { readyTicks: [12] },
      boundTicks: [11],
      workDone: 37,
      proof: 'none-found',
      exhausted: true,
    })
  })

  test('stops as soon as every turn is ready by what is acceptable', () => {
    const instance = aTurn({
      turns: [turn(), turn()],
      activities: [task('a'), task('b'), task('c', { turn: 1 })],
    })
    expect(solved(instance, { acceptableReadyTicks: [20, 20] })).toMatchObject({
      workDone: 1,
      exhausted: false,
    })
    expect(solved(instance, { acceptableReadyTicks: [20, 9] })).toMatchObject({
      workDone: 100,
      exhausted: true,
    })
  })

  test('is not made without any effort', () => {
    expect(solved(aTurn({ activities: [task('a')] }), { workMost: 0 })).toMatchObject({
      schedule: null,
      workDone: 0,
      proof: 'none-found',
      exhausted: true,
    })
  })

  test('that is late is given all the same, with the proof that none is in time', () => {
    const instance = aTurn({
      turns: [turn({ dueTick: 15 })],
      activities: [task('a'), task('b', { after: [0] })],
    })
    expect(solved(instance)).toMatchObject({
      schedule: { readyTicks: [20] },
      boundTicks: [20],
      proof: 'bound',
    })
  })

  test('that is late is proven so by the bound even where the best is not known', () => {
    const instance = aTurn({ turns: [turn({ dueTick: 10 })], activities: sevenAndThreeFives })
    expect(solved(instance)).toMatchObject({
      schedule: { readyTicks: [12] },
      boundTicks: [11],
      proof: 'bound',
      exhausted: true,
    })
  })

  test('that is late without the bound saying so is not called impossible', () => {
    const instance = aTurn({ turns: [turn({ dueTick: 11 })], activities: sevenAndThreeFives })
    expect(solved(instance)).toMatchObject({
      schedule: { readyTicks: [12] },
      boundTicks: [11],
      proof: 'none-found',
    })
  })

  test('does not exist, proven, where nobody has the skill', () => {
    const focus = { durationTicks: 5, hands: hands(1, 1), uses: [] }
    expect(solved(aTurn({ activities: [task('focus', { modes: [focus] })] }))).toEqual({
      schedule: null,
      workDone: 0,
      boundTicks: [null],
      proof: 'bound',
      exhausted: false,
    })
  })

  test('does not exist, proven, where a task is longer than any shift, or nobody is there', () => {
    const activities = [task('wax', { modes: [mode(40)] })]
    const lanes = [
      lane('ada', {
        available: [
          { from: 0, to: 39 },
          { from: 50, to: 89 },
        ],
      }),
    ]
    expect(solved(aTurn({ activities, lanes }))).toMatchObject({ schedule: null, proof: 'bound' })
    expect(solved(aTurn({ activities, lanes: [] }))).toMatchObject({ schedule: null, proof: 'bound' })
  })

  test('uses fewer person-ticks where that makes nothing later', () => {
    // Three machines, of which two may run at once, need 20; so long one pair of hands is enough for the set.
    const running = [mode(10, 0, [{ resource: 0, amount: 1 }])]
    const activities = [
      task('set', { modes: [mode(12, 2), mode(20, 1)] }),
      ...['a', 'b', 'c'].map((key) => task(key, { modes: running })),
    ]
    const { schedule } = solved(aTurn({ activities, resources: [resource('sockets', 2)] }))
    expect(schedule?.readyTicks).toEqual([20])
    expect(schedule?.activities[0]).toMatchObject({ mode: 1, startTick: 0, endTick: 20 })
  })

  test('is refused, with the problems, for a malformed instance', () => {
    const instance = aTurn({ activities: [task('mop', { after: [0] })] })
    expect(() => solve(instance, { workMost: 1, seed: 1 })).toThrow(
      'activities wait for each other: mop → mop',
    )
  })
})

describe('several turns planned together', () => {
  const oneOfEach = [task('hall'), task('chapel', { turn: 1, place: 1 })]

  test('share the hands, walking between the rooms', () => {
    const instance = aTurn({ turns: [turn(), turn()], activities: oneOfEach, lanes: [lane('ada')] })
    expect([...(solved(instance).schedule?.readyTicks ?? [])].sort((a, b) => a - b)).toEqual([10, 23])
  })

  test('give way to the one that would be late, whatever the order of the list', () => {
    const instance = aTurn({
      turns: [turn({ dueTick: 500 }), turn({ dueTick: 10 })],
      activities: oneOfEach,
      lanes: [lane('ada')],
    })
    expect(solved(instance).schedule?.readyTicks).toEqual([23, 10])
  })

  test('give way to the one that weighs more where both cannot be in time', () => {
    const planWith = (weights: readonly [number, number]) =>
      solved(
        aTurn({
          turns: weights.map((weight) => turn({ dueTick: 10, weight })),
          activities: oneOfEach,
          lanes: [lane('ada')],
        }),
      ).schedule?.readyTicks
    expect(planWith([5, 1])).toEqual([10, 23])
    expect(planWith([1, 5])).toEqual([23, 10])
  })

  test('keep each to its own release and share tools that come and go', () => {
    const withTrolley = [mode(10, 1, [{ resource: 0, amount: 1 }])]
    const instance = aTurn({
      turns: [turn({ releaseTick: 30, dueTick: 60 }), turn({ dueTick: 200 })],
      activities: [
        task('hall', { modes: withTrolley }),
        task('chapel', { turn: 1, place: 1, modes: [mode(25, 1, [{ resource: 0, amount: 1 }])] }),
        task('chapel air', { turn: 1, place: 1, modes: [mode(30, 0)], after: [1] }),
      ],
      resources: [
        {
          key: 'trolley',
          capacity: [
            { fromTick: 10, amount: 1 },
            { fromTick: 90, amount: 0 },
          ],
        },
      ],
    })
    expect(solved(instance).schedule?.readyTicks).toEqual([45, 65])
  })

  test('are proven one by one: the bound of each is its own', () => {
    const instance = aTurn({
      turns: [turn({ dueTick: 15 }), turn({ dueTick: 15 })],
      activities: oneOfEach,
      lanes: [lane('ada')],
    })
    expect(solved(instance)).toMatchObject({ boundTicks: [10, 10], proof: 'none-found' })
  })

  test('have no plan when one of them has none', () => {
    const instance = aTurn({
      turns: [turn(), turn()],
      activities: [
        task('hall'),
        task('chapel', { turn: 1, modes: [mode(10, 1, [{ resource: 0, amount: 2 }])] }),
      ],
      resources: [resource('lift', 1)],
    })
    expect(solved(instance)).toMatchObject({ schedule: null, boundTicks: [10, null], proof: 'bound' })
  })
})
