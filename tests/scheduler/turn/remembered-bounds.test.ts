/** What is remembered of bounds, or not looked for because a plan is known, changes none of them. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { lowerBoundTicks, solve, type TurnInstance } from '../../../src/scheduler/turn/index.ts'
import { smallInstance, withPinnedAndPaid } from './a-turn.ts'

const SEED = 20261130

/** The same with lists of its own, so that nothing is remembered of it. */
const anew = (instance: TurnInstance): TurnInstance => structuredClone(instance)

/** Hands and resources are there from tick 0 to the horizon, and nothing is held. */
const unhindered = (instance: TurnInstance, horizonTick: number): TurnInstance => ({
  ...instance,
  horizonTick,
  turns: instance.turns.map((one) => ({ ...one, releaseTick: 0 })),
  lanes: instance.lanes.map((one) => ({ ...one, available: [{ from: 0, to: horizonTick }], busy: [] })),
  resources: instance.resources.map((one) => ({
    ...one,
    capacity: [{ fromTick: 0, amount: Math.max(0, ...one.capacity.map(({ amount }) => amount)) }],
  })),
})

describe('the bound of work for which everything is there all the time', () => {
  test('is the same in a gap of any length, whichever was asked about before', () => {
    let asked = 0
    let impossible = 0
    fc.assert(
      fc.property(
        smallInstance(6),
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 2, maxLength: 6 }),
        (instance, horizons) => {
          for (const horizonTick of horizons) {
            for (const turn of instance.turns.keys()) {
              const one = unhindered(instance, horizonTick)
              const bound = lowerBoundTicks(one, turn)
              expect(bound).toEqual(lowerBoundTicks(anew(one), turn))
              asked += 1
              if (bound.readyTick === null) impossible += 1
            }
          }
        },
      ),
      { seed: SEED, numRuns: 300 },
    )
    expect(impossible).toBeGreaterThan(50)
    expect(asked - impossible).toBeGreaterThan(300)
  })

  test('follows how many hands there are, and how much of each resource', () => {
    const fewerOf = fc.integer({ min: 0, max: 2 })
    fc.assert(
      fc.property(smallInstance(6), fewerOf, fewerOf, (instance, fewerHands, lessOfEach) => {
        const whole = unhindered(instance, 40)
        const less = {
          ...whole,
          lanes: whole.lanes.slice(fewerHands),
          resources: whole.resources.map((one) => ({
            ...one,
            capacity: one.capacity.map((step) => ({
              ...step,
              amount: Math.max(0, step.amount - lessOfEach),
            })),
          })),
        }
        for (const one of [whole, less, whole]) {
          expect(lowerBoundTicks(one, 0)).toEqual(lowerBoundTicks(anew(one), 0))
        }
      }),
      { seed: SEED, numRuns: 300 },
    )
  })
})

describe('a bound asked for beside a plan', () => {
  test.each([
    { kind: 'plain', instances: smallInstance(6) },
    { kind: 'with duties and budgets', instances: withPinnedAndPaid(smallInstance(5)) },
  ])('is the one that is found without it: $kind', ({ instances }) => {
    let atBound = 0
    let above = 0
    fc.assert(
      fc.property(instances, (instance) => {
        const { schedule } = solve(instance, { workMost: 20, seed: 1 })
        for (const [turn, reachedTick] of (schedule?.readyTicks ?? []).entries()) {
          const bound = lowerBoundTicks(anew(instance), turn)
          expect(lowerBoundTicks(instance, turn, reachedTick)).toEqual(bound)
          if (bound.readyTick === reachedTick) atBound += 1
          else above += 1
        }
      }),
      { seed: SEED, numRuns: 300 },
    )
    expect(atBound).toBeGreaterThan(50)
    expect(above).toBeGreaterThan(0)
  })
})
