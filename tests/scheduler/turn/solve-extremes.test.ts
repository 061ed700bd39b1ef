/** What the solver says at the edges of what can be asked. */
import { describe, expect, test } from 'vitest'
import { randomTurn } from '../../../bench/turns/random-turn.ts'
import { scheduleFaults, solve } from '../../../src/scheduler/turn/index.ts'
import type { Activity, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { aTurn, hands, lane, mode, resource, task, turn } from './a-turn.ts'

const options = { workMost: 60, seed: 1 }

describe('where there is', () => {
  test('nothing to do, and nobody: each turn is ready at its release, proven, without any effort', () => {
    const instance = aTurn({ turns: [turn({ releaseTick: 7 }), turn()], lanes: [] })
    expect(solve(instance, { ...options, workMost: 1 })).toMatchObject({
      schedule: { activities: [], readyTicks: [7, 0] },
      boundTicks: [7, 0],
      proof: 'bound',
    })
  })

  test('no turn at all: there is nothing to plan, and that is a plan', () => {
    expect(solve(aTurn({ turns: [] }), options)).toMatchObject({
      schedule: { activities: [], readyTicks: [] },
      boundTicks: [],
      proof: 'bound',
    })
  })

  test.each<[string, Partial<TurnInstance>]>([
    ['a task longer than the window', { activities: [task('dry', { modes: [mode(1001, 0)] })] }],
    ['a chain of tasks longer than the window', { activities: chain(11, 100) }],
    [
      'a skill that nobody has',
      { activities: [task('rig', { modes: [{ durationTicks: 5, hands: hands(1, 4), uses: [] }] })] },
    ],
    ['a task for more hands than there are', { activities: [task('lift', { modes: [mode(5, 3)] })] }],
    ['work and nobody to do it', { activities: [task('sweep')], lanes: [] }],
    [
      'more of a tool asked for than there ever is',
      {
        activities: [task('mop', { modes: [mode(5, 1, [{ resource: 0, amount: 3 }])] })],
        resources: [resource('mops', 2)],
      },
    ],
    [
      'less of a consumable than the least of all work takes',
      {
        activities: [task('mop', { modes: [{ ...mode(5), consumes: [{ consumable: 0, amount: 2 }] }] })],
        consumables: [{ key: 'soap', amountMost: 1 }],
      },
    ],
  ])('%s: no plan, and that is proven before anything is tried', (_, parts) => {
    expect(solve(aTurn(parts), options)).toEqual({
      schedule: null,
      workDone: 0,
      boundTicks: [null],
      proof: 'bound',
      exhausted: false,
    })
  })

  test('nobody for hours: the work is done before and after, and no bound says that it could be sooner', () => {
    const duty = {
      available: [
        { from: 0, to: 15 },
        { from: 800, to: 900 },
      ],
    }
    const instance = aTurn({
      activities: [task('strike'), task('sweep', { after: [0] })],
      lanes: [lane('ada', duty), lane('ben', duty)],
    })
    const { schedule, boundTicks, proof } = solve(instance, options)
    expect(schedule?.activities.map(({ startTick }) => startTick)).toEqual([0, 800])
    expect({ boundTicks, proof }).toEqual({ boundTicks: [810], proof: 'bound' })
  })

  test('a circle of tasks that wait for each other: it is refused, and they are named', () => {
    const activities = [
      task('brief'),
      task('lay', { after: [0, 3] }),
      task('clean', { after: [1] }),
      task('dry', { after: [2] }),
    ]
    expect(() => solve(aTurn({ activities }), options)).toThrow(
      new Error('malformed instance: activities wait for each other: lay → clean → dry → lay'),
    )
  })
})

function chain(count: number, durationTicks: number): Activity[] {
  return Array.from({ length: count }, (_, index) =>
    task(`step-${index + 1}`, { modes: [mode(durationTicks)], after: index === 0 ? [] : [index - 1] }),
  )
}

describe('with 2,000 tasks', () => {
  /** A turn over and over, ten times one after the other, for the same hands throughout. */
  const instance = ((): TurnInstance => {
    const base = randomTurn(5)
    const count = base.activities.length
    const horizonTick = 200_000
    const copies = Array.from({ length: Math.ceil(2_000 / count) }, (_, copy) =>
      base.activities.map((activity) => {
        const before = activity.after.map((index) => index + copy * count)
        const isFollowing = activity.after.length === 0 && copy % 10 !== 0
        return {
          ...activity,
          key: `${activity.key}/${copy}`,
          after: isFollowing ? [copy * count - 1] : before,
        }
      }),
    )
    return {
      ...base,
      activities: copies.flat().slice(0, 2_000),
      lanes: base.lanes.map((one) => ({ ...one, available: [{ from: 0, to: horizonTick }] })),
      horizonTick,
    }
  })()

  test.each([1, 25])('the answer comes with %i schedules, holds, and has its bound', (workMost) => {
    expect(instance.activities).toHaveLength(2_000)
    const { schedule, workDone, boundTicks } = solve(instance, { workMost, seed: 1 })
    expect(workDone).toBe(workMost)
    expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
    expect(boundTicks[0]).toBeGreaterThan(0)
    expect(schedule?.readyTicks[0]).toBeGreaterThanOrEqual(boundTicks[0] ?? Number.POSITIVE_INFINITY)
  })

  test('the search ends between two schedules when whoever asks says so', () => {
    let asked = 0
    const goOn = () => {
      asked += 1
      return asked <= 10
    }
    const { schedule, workDone } = solve(instance, { workMost: 1_000, seed: 1, goOn })
    expect(workDone).toBeGreaterThan(0)
    expect(workDone).toBeLessThan(50)
    expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
  })
})
