import { describe, expect, test } from 'vitest'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { instanceProblems } from '../../../src/scheduler/turn/instance-problems.ts'
import { aTurn, consuming, duty, dutyTurn, hands, lane, mode, resource, task, turn } from './a-turn.ts'

describe('an instance', () => {
  test('without work, lanes, tools and places has no problems', () => {
    expect(
      instanceProblems({
        turns: [],
        activities: [],
        resources: [],
        lanes: [],
        walkTicks: [],
        horizonTick: 0,
      }),
    ).toEqual([])
  })

  test('may be hopeless and still be well formed', () => {
    const instance = aTurn({
      turns: [turn({ releaseTick: 900, dueTick: 100 })],
      activities: [task('lift', { modes: [mode(5000, 9)] })],
      lanes: [],
    })
    expect(instanceProblems(instance)).toEqual([])
  })

  test('may have duties, each a turn of its own, and budgets', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(5), dutyTurn(7, 20)],
      activities: [task('mop'), duty('ushers', 1), duty('desk', 2, { modes: [mode(20, 2)] })],
      lanes: [lane('ada', { budget: 0 }), lane('ben')],
      budgets: [{ key: 'wages', laneTicksMost: 0 }],
    })
    expect(instanceProblems(instance)).toEqual([])
  })

  test('names the tasks that wait for each other in a circle, and only those', () => {
    const activities = [
      task('walkthrough'),
      task('strike', { after: [0, 3] }),
      task('clean', { after: [1] }),
      task('set', { after: [2] }),
      task('sign-off', { after: [3] }),
    ]
    expect(instanceProblems(aTurn({ activities }))).toEqual([
      'activities wait for each other: strike → clean → set → strike',
    ])
  })

  test('says so when a task waits for itself', () => {
    expect(instanceProblems(aTurn({ activities: [task('mop', { after: [0] })] }))).toEqual([
      'activities wait for each other: mop → mop',
    ])
  })

  test.each<[string, Partial<TurnInstance>, string]>([
    ['a horizon below zero', { horizonTick: -1 }, 'horizon: -1 is not a whole number from 0'],
    ['a release before the beginning', { turns: [turn({ releaseTick: -1 })] }, 'turn 0: release -1 is not'],
    ['a due tick that is no number', { turns: [turn({ dueTick: Number.NaN })] }, 'turn 0: due NaN is not'],
    ['a weight of zero', { turns: [turn({ weight: 0 })] }, 'turn 0: weight 0 is not 1 or more'],
    [
      'a turn that does not exist',
      { activities: [task('mop', { turn: 1 })] },
      'activity mop: there is no turn 1',
    ],
    [
      'a place that does not exist',
      { activities: [task('mop', { place: 2 })] },
      'activity mop: there is no place 2',
    ],
    ['a task without a mode', { activities: [task('mop', { modes: [] })] }, 'activity mop: it has no mode'],
    [
      'a predecessor that does not exist',
      { activities: [task('mop', { after: [7] })] },
      'mop: there is no activity 7',
    ],
    [
      'a negative duration',
      { activities: [task('mop', { modes: [mode(-3)] })] },
      'mop, mode 0: duration -3 is not',
    ],
    [
      'half a tick',
      { activities: [task('mop', { modes: [mode(0.5)] })] },
      'mop, mode 0: duration 0.5 is not',
    ],
    [
      'hands held for no time',
      { activities: [task('mop', { modes: [mode(0)] })] },
      'mop, mode 0: without a duration',
    ],
    [
      'a group of no hands',
      {
        activities: [
          task('mop', { modes: [{ durationTicks: 1, hands: [{ count: 0, skillMask: 0 }], uses: [] }] }),
        ],
      },
      'mop, mode 0: 0 hands are not',
    ],
    [
      'a skill mask below zero',
      { activities: [task('mop', { modes: [{ durationTicks: 1, hands: hands(1, -1), uses: [] }] })] },
      'mop, mode 0: skill mask -1 is not',
    ],
    [
      'a tool that does not exist',
      { activities: [task('mop', { modes: [mode(1, 1, [{ resource: 0, amount: 1 }])] })] },
      'mop, mode 0: there is no resource 0',
    ],
    [
      'a negative amount of a tool',
      {
        activities: [task('mop', { modes: [mode(1, 1, [{ resource: 0, amount: -1 }])] })],
        resources: [resource('mops', 1)],
      },
      'mop, mode 0: amount -1 is not',
    ],
    [
      'two tasks of one name',
      { activities: [task('mop'), task('mop')] },
      'activity mop: the key occurs twice',
    ],
    [
      'two tools of one name',
      { resources: [resource('mops', 1), resource('mops', 2)] },
      'resource mops: the key',
    ],
    ['a negative number of tools', { resources: [resource('mops', -2)] }, 'resource mops: amount -2 is not'],
    [
      'capacity steps out of order',
      {
        resources: [
          {
            key: 'mops',
            capacity: [
              { fromTick: 5, amount: 1 },
              { fromTick: 5, amount: 2 },
            ],
          },
        ],
      },
      'resource mops: the step at 5 comes after the one at 5',
    ],
    ['two lanes of one name', { lanes: [lane('ada'), lane('ada')] }, 'lane ada: the key occurs twice'],
    [
      'an empty span of duty',
      { lanes: [lane('ada', { available: [{ from: 3, to: 3 }] })] },
      'ada, on duty: 3 to 3',
    ],
    [
      'overlapping duty',
      {
        lanes: [
          lane('ada', {
            available: [
              { from: 0, to: 5 },
              { from: 4, to: 9 },
            ],
          }),
        ],
      },
      'lane ada, on duty: 4 to 9 begins before 0 to 5 has ended',
    ],
    [
      'a lane held in two places at once',
      {
        lanes: [
          lane('ada', {
            busy: [
              { from: 0, to: 5, place: 0 },
              { from: 4, to: 9, place: 1 },
            ],
          }),
        ],
      },
      'lane ada, busy: 4 to 9 begins before 0 to 5 has ended',
    ],
    [
      'a lane held nowhere',
      { lanes: [lane('ada', { busy: [{ from: 0, to: 5, place: 9 }] })] },
      'ada: there is no place 9',
    ],
    [
      'a walk that takes longer back',
      {
        walkTicks: [
          [0, 1],
          [2, 0],
        ],
      },
      'walking: from 0 to 1 is not the same as back',
    ],
    [
      'two budgets of one name',
      {
        budgets: [
          { key: 'wages', laneTicksMost: 5 },
          { key: 'wages', laneTicksMost: 6 },
        ],
      },
      'budget wages: the key occurs twice',
    ],
    [
      'less than nothing in a budget',
      { budgets: [{ key: 'wages', laneTicksMost: -1 }] },
      'budget wages: -1 lane-ticks are not a whole number from 0',
    ],
    [
      'a hand paid from a budget that does not exist',
      { lanes: [lane('ada', { budget: 1 })], budgets: [{ key: 'wages', laneTicksMost: 5 }] },
      'lane ada: there is no budget 1',
    ],
    [
      'a hand paid where there are no budgets',
      { lanes: [lane('ada', { budget: 0 })] },
      'lane ada: there is no budget 0',
    ],
    [
      'two consumables of one name',
      {
        consumables: [
          { key: 'soap', amountMost: 5 },
          { key: 'soap', amountMost: 6 },
        ],
      },
      'consumable soap: the key occurs twice',
    ],
    [
      'less than nothing of a consumable',
      { consumables: [{ key: 'soap', amountMost: -1 }] },
      'consumable soap: -1 is not a whole number from 0',
    ],
    [
      'a consumable that does not exist',
      {
        activities: [task('mop', { modes: [consuming(10, 1, 2)] })],
        consumables: [{ key: 'soap', amountMost: 5 }],
      },
      'activity mop, mode 0: there is no consumable 1',
    ],
    [
      'half a consumable',
      {
        activities: [task('mop', { modes: [consuming(10, 0, 0.5)] })],
        consumables: [{ key: 'soap', amountMost: 5 }],
      },
      'activity mop, mode 0: amount 0.5 is not a whole number from 0',
    ],
    [
      'a duty with a choice',
      { turns: [dutyTurn(5)], activities: [duty('ushers', 0, { modes: [mode(10, 1), mode(10, 2)] })] },
      'activity ushers: it is pinned, yet has 2 modes',
    ],
    [
      'a duty that waits',
      { turns: [turn(), dutyTurn(5)], activities: [task('mop'), duty('ushers', 1, { after: [0] })] },
      'activity ushers: it is pinned, yet waits for others',
    ],
    [
      'a task that waits for a duty',
      { turns: [turn(), dutyTurn(5)], activities: [task('mop', { after: [1] }), duty('ushers', 1)] },
      'activity mop: it waits for ushers, which is pinned',
    ],
    [
      'a duty that shares its turn',
      { turns: [dutyTurn(5)], activities: [duty('ushers', 0), task('mop')] },
      'activity ushers: it is pinned, yet its turn 0 has other activities',
    ],
    [
      'a duty that is due before or after it ends',
      { turns: [dutyTurn(5, 11)], activities: [duty('ushers', 0)] },
      'activity ushers: it is pinned and takes 10, yet its turn is released at 5 and due at 16',
    ],
    ['a walk from a place to itself', { walkTicks: [[1]] }, 'walking: 1 from 0 to itself'],
    ['a walk that is missing', { walkTicks: [[0, 1], [1]] }, 'walking: row 1 has 1 places, not 2'],
    [
      'a walk into the past',
      {
        walkTicks: [
          [0, -1],
          [-1, 0],
        ],
      },
      'walking: -1 from 0 to 1 is not',
    ],
  ])('says what is wrong: %s', (_, parts, problem) => {
    expect(instanceProblems(aTurn(parts)).join('\n')).toContain(problem)
  })
})
