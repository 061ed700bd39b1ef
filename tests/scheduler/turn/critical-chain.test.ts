import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { criticalChain } from '../../../src/scheduler/turn/critical-chain.ts'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { aTurn, lane, mode, resource, smallInstance, task, turn } from './a-turn.ts'

function chainOf(instance: TurnInstance, turnIndex = 0): string[] {
  const { schedule } = solve(instance, { workMost: 20, seed: 1 })
  return schedule
    ? criticalChain(instance, schedule, turnIndex).map(
        (activity) => instance.activities[activity]?.key ?? '?',
      )
    : ['no plan']
}

describe('what explains when a turn is ready', () => {
  test('is nothing when there is nothing to do', () => {
    expect(chainOf(aTurn())).toEqual([])
  })

  test('is the chain of tasks that wait for each other', () => {
    const activities = [
      task('strike', { modes: [mode(20)] }),
      task('bins'),
      task('dry', { modes: [mode(30, 0)], after: [0] }),
      task('set', { after: [1, 2] }),
    ]
    expect(chainOf(aTurn({ activities }))).toEqual(['strike', 'dry', 'set'])
  })

  test('goes through a hand that was elsewhere before, and had to walk', () => {
    const activities = [task('here', { modes: [mode(20)] }), task('there', { place: 1 })]
    expect(chainOf(aTurn({ activities, lanes: [lane('ada')] }))).toEqual(['here', 'there'])
  })

  test('goes through a tool that was in use', () => {
    const withTrolley = (ticks: number) => [mode(ticks, 0, [{ resource: 0, amount: 1 }])]
    const activities = [
      task('tables', { modes: withTrolley(20) }),
      task('chairs', { modes: withTrolley(30) }),
    ]
    expect(chainOf(aTurn({ activities, resources: [resource('trolley', 1)] }))).toEqual(['tables', 'chairs'])
  })

  test('begins where hands come on duty', () => {
    const lanes = [
      lane('ada', {
        available: [
          { from: 0, to: 15 },
          { from: 200, to: 300 },
        ],
      }),
    ]
    const activities = [task('strike'), task('set', { after: [0] })]
    expect(chainOf(aTurn({ activities, lanes }))).toEqual(['set'])
  })

  test('is told of each turn by itself', () => {
    const instance = aTurn({
      turns: [turn(), turn({ releaseTick: 40 })],
      activities: [task('first'), task('second', { turn: 1 })],
    })
    expect(chainOf(instance, 0)).toEqual(['first'])
    expect(chainOf(instance, 1)).toEqual(['second'])
  })

  test('always ends with the task that ends last, in order of time and without gaps but for walks', () => {
    fc.assert(
      fc.property(smallInstance(6), (instance) => {
        const { schedule } = solve(instance, { workMost: 20, seed: 1 })
        for (const [turnIndex, readyTick] of schedule?.readyTicks.entries() ?? []) {
          const chain = criticalChain(instance, schedule!, turnIndex).map((at) => schedule!.activities[at]!)
          const hasWork = instance.activities.some((activity) => activity.turn === turnIndex)
          expect(chain.at(-1)?.endTick).toBe(hasWork ? readyTick : undefined)
          for (const [position, planned] of chain.entries()) {
            const before = chain[position - 1]
            if (!before) continue
            const wait = planned.startTick - before.endTick
            expect(wait).toBeGreaterThanOrEqual(0)
            expect(wait).toBeLessThanOrEqual(Math.max(...instance.walkTicks.flat()))
          }
        }
      }),
      { seed: 20261125, numRuns: 150 },
    )
  })
})
