/** Published critical-path examples: activities with nothing that limits them but their order. */
import { describe, expect, test } from 'vitest'
import { criticalChain, lowerBoundTicks, scheduleFaults, solve } from '../../src/scheduler/turn/index.ts'
import type { TurnInstance } from '../../src/scheduler/turn/instance.ts'
import { prepared } from '../../src/scheduler/turn/prepared-instance.ts'
import { listByPriority, priorities } from '../../src/scheduler/turn/with-lanes/priority-rules.ts'
import { ScheduleGenerator } from '../../src/scheduler/turn/with-lanes/schedule-generation.ts'

type Row = readonly [key: string, ticks: number, after: string]

/** One tick a day; each activity has a pair of hands of its own, so that hands never limit it. */
function network(rows: readonly Row[]): TurnInstance {
  const keys = rows.map(([key]) => key)
  return {
    turns: [{ releaseTick: 0, dueTick: 100, weight: 1 }],
    activities: rows.map(([key, durationTicks, after]) => ({
      key,
      turn: 0,
      place: 0,
      modes: [{ durationTicks, hands: [{ count: 1, skillMask: 0 }], uses: [] }],
      after: [...after].map((before) => keys.indexOf(before)),
    })),
    resources: [],
    lanes: keys.map((key) => ({ key, skillMask: 0, available: [{ from: 0, to: 100 }], busy: [] })),
    walkTicks: [[0]],
    horizonTick: 100,
  }
}

function earlyAndLate(instance: TurnInstance, readyTick: number) {
  const problem = prepared(instance)
  const generator = new ScheduleGenerator(problem)
  const list = listByPriority(problem, priorities(problem, 'first-come'))
  const wishes = instance.activities.map(() => 'earliest-end' as const)
  const early = generator.forward(list, wishes)
  const late = generator.backward(list.slice().reverse(), wishes, [readyTick])
  return { early, late }
}

/** Source: scribd.com/document/458251733, CPM example 3, with all early and late times. */
describe('the published project of nine activities', () => {
  //            key days after | ES EF LS LF
  const published: readonly (readonly [...Row, number, number, number, number])[] = [
    ['A', 3, '', 0, 3, 0, 3],
    ['B', 5, 'A', 3, 8, 3, 8],
    ['C', 8, 'A', 3, 11, 7, 15],
    ['D', 10, 'B', 8, 18, 8, 18],
    ['E', 5, 'B', 8, 13, 17, 22],
    ['F', 7, 'C', 11, 18, 15, 22],
    ['G', 12, 'D', 18, 30, 18, 30],
    ['H', 8, 'EF', 18, 26, 22, 30],
    ['I', 3, 'GH', 30, 33, 30, 33],
  ]
  const instance = network(published.map(([key, days, after]) => [key, days, after]))

  test('takes 33 days, and that is proven', () => {
    const result = solve(instance, { workMost: 10, seed: 1 })
    expect(result.schedule?.readyTicks).toEqual([33])
    expect(result.proof).toBe('bound')
    expect(lowerBoundTicks(instance, 0)).toEqual({ readyTick: 33, kind: 'critical-path', impossible: null })
    expect(result.schedule && scheduleFaults(instance, result.schedule)).toEqual([])
  })

  test('has the published early starts and finishes when each activity is placed as early as it can be', () => {
    const { early } = earlyAndLate(instance, 33)
    expect([...(early?.starts ?? [])]).toEqual(published.map((row) => row[3]))
    expect([...(early?.ends ?? [])]).toEqual(published.map((row) => row[4]))
  })

  test('has the published late starts and finishes when each activity is placed as late as it can be', () => {
    const { late } = earlyAndLate(instance, 33)
    expect([...(late?.starts ?? [])]).toEqual(published.map((row) => row[5]))
    expect([...(late?.ends ?? [])]).toEqual(published.map((row) => row[6]))
  })

  test('is held up by the activities without float: A, B, D, G, I', () => {
    const { schedule } = solve(instance, { workMost: 10, seed: 1 })
    const chain = schedule ? criticalChain(instance, schedule, 0) : []
    expect(chain.map(({ activity }) => instance.activities[activity]?.key).join('')).toBe('ABDGI')
  })
})

/** Source of the network: brainmass.com, critical path 114392; results computed. */
describe('the published project with several critical paths at once', () => {
  const instance = network([
    ['A', 7, ''],
    ['B', 5, ''],
    ['C', 3, 'A'],
    ['D', 5, 'B'],
    ['E', 4, 'C'],
    ['F', 4, 'CD'],
    ['G', 3, 'EF'],
    ['H', 1, 'G'],
  ])

  test('takes 18 days', () => {
    const result = solve(instance, { workMost: 10, seed: 1 })
    expect(result.schedule?.readyTicks).toEqual([18])
    expect(result.proof).toBe('bound')
  })

  test('leaves no activity any slack', () => {
    const { early, late } = earlyAndLate(instance, 18)
    expect([...(late?.starts ?? [])]).toEqual([...(early?.starts ?? [-1])])
  })

  test('is explained by one of A-C-E-G-H, A-C-F-G-H and B-D-F-G-H', () => {
    const { schedule } = solve(instance, { workMost: 10, seed: 1 })
    const chain = schedule ? criticalChain(instance, schedule, 0) : []
    const keys = chain.map(({ activity }) => instance.activities[activity]?.key).join('')
    expect(['ACEGH', 'ACFGH', 'BDFGH']).toContain(keys)
  })
})
