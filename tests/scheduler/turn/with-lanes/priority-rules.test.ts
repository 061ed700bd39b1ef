import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { seededRandom } from '../../../../src/scheduler/turn/seeded-random.ts'
import {
  listByChance,
  listByPriority,
  type PriorityRule,
  priorities,
  priorityRules,
} from '../../../../src/scheduler/turn/with-lanes/priority-rules.ts'
import { aTurn, mode, smallInstance, task, turn } from '../a-turn.ts'

function keysBy(instance: TurnInstance, rule: PriorityRule): string {
  const problem = prepared(instance)
  const list = listByPriority(problem, priorities(problem, rule))
  return Array.from(list, (activity) => instance.activities[activity]?.key).join(' ')
}

const keepsPrecedence = (instance: TurnInstance, list: Int32Array): boolean =>
  list.length === instance.activities.length &&
  instance.activities.every(({ after }, activity) =>
    after.every((before) => list.indexOf(before) >= 0 && list.indexOf(before) < list.indexOf(activity)),
  )

describe('the order in which tasks are planned', () => {
  const instance = aTurn({
    activities: [
      task('a', { modes: [mode(1)] }),
      task('b', { modes: [mode(30, 1), mode(18, 2)] }),
      task('c', { modes: [mode(5, 4)] }),
      task('d', { modes: [mode(20)], after: [2] }),
      task('e', { modes: [mode(40)], after: [3] }),
      task('f', { modes: [mode(2)], after: [0] }),
      task('g', { modes: [mode(2)], after: [0] }),
      task('h', { modes: [mode(2)], after: [0] }),
    ],
  })

  test.each<[PriorityRule, string]>([
    ['first-come', 'a b c d e f g h'],
    // Latest starts: a 997, b 982, c 935, d 940, e 960, f, g, h 998.
    ['latest-start', 'c d e b a f g h'],
    // Latest finishes: c 940, d 960, a 998, the rest 1,000.
    ['latest-finish', 'c d a b e f g h'],
    ['most-successors', 'a c d b e f g h'],
    // With direct successors: d 60, e 40, c 25, b 18, a 7.
    ['greatest-rank-positional-weight', 'c d e b a f g h'],
    // Person-ticks: e 40, b 30, c and d 20, f, g, h 2, a 1.
    ['longest-work', 'b c d e a f g h'],
    // Hands: c 4, b 2.
    ['most-hands', 'c b a d e f g h'],
    ['last-come', 'c d e b a h g f'],
  ])('by %s is %s', (rule, keys) => {
    expect(keysBy(instance, rule)).toBe(keys)
  })

  test('takes the turn that is due first as a whole, whatever its tasks look like', () => {
    const activities = [
      task('late, long', { turn: 0, modes: [mode(90)] }),
      task('soon', { turn: 1, modes: [mode(1)] }),
      task('soon, behind', { turn: 1, modes: [mode(1)], after: [1] }),
    ]
    const turns = [turn({ dueTick: 100 }), turn({ dueTick: 90 })]
    expect(keysBy(aTurn({ activities, turns }), 'earliest-due-turn')).toBe('soon soon, behind late, long')
    expect(keysBy(aTurn({ activities, turns }), 'latest-start')).toBe('late, long soon soon, behind')
  })

  test('takes what the turn that is due first waits for with it, whatever turn that belongs to', () => {
    const activities = [
      task('late', { modes: [mode(90)] }),
      task('late, but waited for', { modes: [mode(1)] }),
      task('soon', { turn: 1, modes: [mode(1)], after: [1] }),
    ]
    const turns = [turn({ dueTick: 100 }), turn({ dueTick: 90 })]
    expect(keysBy(aTurn({ activities, turns }), 'earliest-due-turn')).toBe('late, but waited for soon late')
  })

  test('by any rule, or by chance, has every task once and never before what it waits for', () => {
    fc.assert(
      fc.property(smallInstance(6), fc.integer(), (small, seed) => {
        const problem = prepared(small)
        for (const rule of priorityRules) {
          const values = priorities(problem, rule)
          expect(keepsPrecedence(small, listByPriority(problem, values))).toBe(true)
          expect(keepsPrecedence(small, listByChance(problem, values, seededRandom(seed)))).toBe(true)
        }
      }),
      { seed: 20261125, numRuns: 100 },
    )
  })
})

describe('an order drawn by chance', () => {
  const problem = prepared(aTurn({ activities: ['a', 'b', 'c', 'd'].map((key) => task(key)) }))
  const firsts = (values: readonly number[]): number[] => {
    const random = seededRandom(5)
    const counts = [0, 0, 0, 0]
    for (let draw = 0; draw < 400; draw++) counts[listByChance(problem, values, random)[0] ?? -1]! += 1
    return counts
  }

  test('gives every task a chance to come first, and the one with the best priority the best', () => {
    const counts = firsts([3, 0, 3, 3])
    expect(Math.min(...counts)).toBeGreaterThan(0)
    expect(counts.indexOf(Math.max(...counts))).toBe(1)
  })

  test('treats equals alike', () => {
    for (const count of firsts([7, 7, 7, 7])) expect(Math.abs(count - 100)).toBeLessThan(40)
  })
})

describe('random numbers from a seed', () => {
  const numbers = (seed: number): number[] => {
    const random = seededRandom(seed)
    return Array.from({ length: 1000 }, random)
  }

  test('are the same for the same seed and others for another', () => {
    expect(numbers(20261125)).toEqual(numbers(20261125))
    expect(numbers(20261125)).not.toEqual(numbers(20261126))
  })

  test('lie from 0 to below 1 and are spread evenly', () => {
    const drawn = numbers(1)
    expect(drawn.every((number) => number >= 0 && number < 1)).toBe(true)
    for (let tenth = 0; tenth < 10; tenth++) {
      const count = drawn.filter((number) => Math.floor(number * 10) === tenth).length
      expect(Math.abs(count - 100)).toBeLessThan(40)
    }
  })
})
