import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { solve } from '../../src/scheduler/turn/index.ts'
import { canonicalText, solvedBefore } from '../../src/worker/solved-before.ts'
import { aTurn, lane, smallInstance, task } from '../scheduler/turn/a-turn.ts'

const counting = () => {
  const asked: number[] = []
  const solver: typeof solve = (instance, options) => {
    asked.push(options.workMost)
    return solve(instance, options)
  }
  return { asked, solver }
}

describe('what was solved before', () => {
  test('is answered as the solver answers, the first time and again', () => {
    fc.assert(
      fc.property(smallInstance(5), fc.integer({ min: 1, max: 30 }), (instance, workMost) => {
        const kept = solvedBefore()
        const options = { workMost, seed: 3 }
        const fresh = solve(instance, options)
        expect(kept(instance, options)).toEqual(fresh)
        expect(kept(structuredClone(instance), { seed: 3, workMost })).toEqual(fresh)
      }),
      { seed: 20261130, numRuns: 60 },
    )
  })

  const instance = aTurn({ activities: [task('a'), task('b')], lanes: [lane('p')] })

  test('is not solved again, however the question was put together', () => {
    const { asked, solver } = counting()
    const kept = solvedBefore(solver)
    kept(instance, { workMost: 5, seed: 1 })
    const { activities, ...rest } = instance
    kept({ activities, ...rest }, { seed: 1, workMost: 5 })
    expect(asked).toEqual([5])
  })

  test('is another question with other effort, another seed, another goal or anything else in the hall', () => {
    const { asked, solver } = counting()
    const kept = solvedBefore(solver)
    const options = { workMost: 5, seed: 1 }
    kept(instance, options)
    kept(instance, { ...options, workMost: 6 })
    kept(instance, { ...options, seed: 2 })
    kept(instance, { ...options, acceptableReadyTicks: [0] })
    kept({ ...instance, horizonTick: 999 }, options)
    kept({ ...instance, lanes: [lane('p', { skillMask: 1 })] }, options)
    kept({ ...instance, consumables: [{ key: 'tape', amountMost: 3 }] }, options)
    expect(asked).toHaveLength(7)
  })

  test('is forgotten when more is asked than is kept, what was asked for longest ago first', () => {
    const { asked, solver } = counting()
    const kept = solvedBefore(solver, 2)
    for (const workMost of [1, 2, 1, 3, 1, 2]) kept(instance, { workMost, seed: 1 })
    expect(asked).toEqual([1, 2, 3, 2])
  })

  test('is told apart by texts in which the order of fields does not count and that of lists does', () => {
    expect(canonicalText({ b: [1, 2], a: { d: 'x', c: null }, e: undefined })).toBe(
      '{"a":{"c":null,"d":"x"},"b":[1,2]}',
    )
    expect(canonicalText([2, 1])).not.toBe(canonicalText([1, 2]))
  })
})
