/** Work of one network that must be ready at several times: what is due earlier is a turn of its own. */
import { describe, expect, test } from 'vitest'
import { criticalChain, scheduleFaults } from '../../../src/scheduler/turn/index.ts'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../src/scheduler/turn/lower-bound.ts'
import { prepared } from '../../../src/scheduler/turn/prepared-instance.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { ScheduleGenerator } from '../../../src/scheduler/turn/with-lanes/schedule-generation.ts'
import { aTurn, lane, mode, task, turn } from './a-turn.ts'

/** The tables are due early; chairs and a check come after them, a far corner is nothing to them. */
const evening = (tablesDueTick: number): TurnInstance =>
  aTurn({
    turns: [turn({ dueTick: 200 }), turn({ dueTick: tablesDueTick })],
    activities: [
      task('corner', { modes: [mode(40)] }),
      task('strike', { turn: 0, modes: [mode(10)] }),
      task('tables', { turn: 1, modes: [mode(20)], after: [1] }),
      task('chairs', { modes: [mode(15)], after: [2] }),
      task('check', { modes: [mode(5)], after: [0, 3] }),
    ],
    lanes: [lane('ada')],
  })

function solved(instance: TurnInstance) {
  const result = solve(instance, { workMost: 60, seed: 1 })
  expect(result.schedule === null ? [] : scheduleFaults(instance, result.schedule)).toEqual([])
  return result
}

describe('a milestone', () => {
  test('brings forward what must be done before it, though that belongs to the rest', () => {
    expect(solved(evening(30)).schedule).toMatchObject({ readyTicks: [90, 30] })
    expect(solved(evening(30)).schedule?.activities[1]).toMatchObject({ startTick: 0 })
  })

  test('that is missed counts by its weight, even if all else is in time', () => {
    const instance = evening(30)
    const late = { ...instance, turns: [turn({ dueTick: 200 }), turn({ dueTick: 29, weight: 3 })] }
    expect(solved(late)).toMatchObject({
      schedule: { readyTicks: [90, 30] },
      boundTicks: [90, 30],
      proof: 'bound',
    })
  })

  test('of no work is ready at its release and holds nothing up', () => {
    const instance = evening(30)
    const withEmpty = { ...instance, turns: [...instance.turns, turn({ releaseTick: 12, dueTick: 40 })] }
    expect(solved(withEmpty)).toMatchObject({
      schedule: { readyTicks: [90, 30, 12] },
      boundTicks: [90, 30, 12],
      proof: 'bound',
    })
  })

  test('has a release of its own, and what waits for it waits', () => {
    const instance = evening(90)
    const released = { ...instance, turns: [turn(), turn({ releaseTick: 60 })] }
    expect(solved(released).schedule?.activities.map(({ startTick }) => startTick)).toEqual([
      0, 40, 60, 80, 95,
    ])
  })

  test('is on the chain of work that explains when the rest is ready', () => {
    const instance = { ...evening(30), lanes: [lane('ada'), lane('ben')] }
    const { schedule } = solved(instance)
    expect(schedule?.readyTicks).toEqual([50, 30])
    const chainOf = (turnIndex: number) =>
      schedule && criticalChain(instance, schedule, turnIndex).map(({ activity }) => activity)
    expect(chainOf(0)).toEqual([1, 2, 3, 4])
    expect(chainOf(1)).toEqual([1, 2])
  })

  test('is kept to when the plan is pushed late', () => {
    const instance = evening(30)
    const generator = new ScheduleGenerator(prepared(instance))
    const wishes = instance.activities.map(() => 'earliest-end' as const)
    expect([...(generator.backward([4, 3, 0, 2, 1], wishes, [200, 50])?.starts ?? [])]).toEqual([
      140, 20, 30, 180, 195,
    ])
    expect(generator.backward([4, 3, 0, 2, 1], wishes, [200, 29])).toBeNull()
  })
})

describe('the bound of a turn', () => {
  test('counts the work of other turns that it has to wait for, as far as hands go round', () => {
    const instance = aTurn({
      turns: [turn(), turn({ dueTick: 30 })],
      activities: [
        ...['a', 'b', 'c', 'd', 'e'].map((key) => task(key, { turn: 1 })),
        task('check', { after: [0, 1, 2, 3, 4] }),
        task('later', { turn: 1, modes: [mode(10, 2)], after: [5] }),
      ],
    })
    // Five tens for two take 25, and the check comes after them; what comes after the check is nothing to it.
    expect(lowerBoundTicks(instance, 0)).toEqual({ readyTick: 35, kind: 'energy', impossible: null })
    expect(lowerBoundTicks(instance, 1)).toEqual({ readyTick: 45, kind: 'energy', impossible: null })
  })

  test('is none where something in another turn that it waits for can never be done', () => {
    const instance = aTurn({
      turns: [turn(), turn(), turn()],
      activities: [
        task('lift', { turn: 1, modes: [mode(10, 3)] }),
        task('check', { after: [0] }),
        task('set', { turn: 2 }),
      ],
    })
    expect(lowerBoundTicks(instance, 0).impossible).toMatchObject({ kind: 'hands', activity: 0 })
    expect(lowerBoundTicks(instance, 1).impossible).toMatchObject({ kind: 'hands', activity: 0 })
    expect(lowerBoundTicks(instance, 2).readyTick).toBe(10)
  })
})
