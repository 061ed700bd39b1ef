/** Hands whose time is taken from a budget. */
import { describe, expect, test } from 'vitest'
import type { Lane, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../src/scheduler/turn/lower-bound.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../src/scheduler/turn/validate.ts'
import { aTurn, duty, dutyTurn, hands, lane, mode, task, turn } from './a-turn.ts'

const paid = (key: string, parts: Partial<Lane> = {}): Lane => lane(key, { budget: 0, ...parts })
const wages = (laneTicksMost: number) => [{ key: 'wages', laneTicksMost }]

function planned(instance: TurnInstance) {
  const result = solve(instance, { workMost: 60, seed: 1 })
  expect(result.schedule === null ? [] : scheduleFaults(instance, result.schedule)).toEqual([])
  return result.schedule?.activities.map(({ startTick, lanes }) => [
    startTick,
    ...lanes.map((index) => instance.lanes[index]?.key),
  ])
}

describe('a budget', () => {
  test('lets nobody work who cannot be paid to the end of the task', () => {
    const activities = [task('a'), task('b')]
    const lanes = [lane('ada'), paid('ben')]
    expect(planned(aTurn({ activities, lanes, budgets: wages(10) }))).toEqual([
      [0, 'ada'],
      [0, 'ben'],
    ])
    expect(planned(aTurn({ activities, lanes, budgets: wages(9) }))).toEqual([
      [0, 'ada'],
      [10, 'ada'],
    ])
  })

  test('pays as many of its hands at once as it can for so long', () => {
    const activities = [task('rig', { modes: [mode(10, 3)] })]
    const lanes = [paid('ada'), paid('ben'), paid('cem'), lane('dee', { available: [{ from: 50, to: 90 }] })]
    expect(planned(aTurn({ activities, lanes, budgets: wages(30) }))).toEqual([[0, 'ada', 'ben', 'cem']])
    expect(planned(aTurn({ activities, lanes, budgets: wages(29) }))).toEqual([[50, 'dee', 'ada', 'ben']])
    expect(planned(aTurn({ activities, lanes, budgets: wages(19) }))).toBeUndefined()
  })

  test('is not touched while somebody is there for nothing, even somebody with rare skills', () => {
    const lanes = [paid('ada'), lane('ben', { skillMask: 7 })]
    expect(planned(aTurn({ activities: [task('a')], lanes, budgets: wages(100) }))).toEqual([[0, 'ben']])
  })

  const groups = (...skillMasks: number[]) => [
    { durationTicks: 10, hands: skillMasks.map((skillMask) => ({ count: 1, skillMask })), uses: [] },
  ]

  test('is drawn on for one part of a task where who costs nothing is needed for another', () => {
    // One part after the other, the first would take dee, and leave the second to nobody.
    const lanes = [
      paid('ada', { skillMask: 1 }),
      paid('ben', { skillMask: 5 }),
      lane('cem', { skillMask: 4 }),
      lane('dee', { skillMask: 3 }),
    ]
    const activities = [task('rig', { modes: groups(1, 2, 4) })]
    expect(planned(aTurn({ activities, lanes, budgets: wages(10) }))).toEqual([[0, 'ada', 'dee', 'cem']])
    expect(planned(aTurn({ activities, lanes, budgets: wages(9) }))).toBeUndefined()
  })

  test('is not drawn on where the parts of a task can be shared out among those who cost nothing', () => {
    const lanes = [
      paid('ada', { skillMask: 1 }),
      lane('ben', { skillMask: 3 }),
      lane('cem', { skillMask: 4 }),
      lane('dee', { skillMask: 25 }),
    ]
    const activities = [task('rig', { modes: groups(1, 2, 4) })]
    expect(planned(aTurn({ activities, lanes, budgets: wages(10) }))).toEqual([[0, 'dee', 'ben', 'cem']])
  })

  test('is not spent on a part that somebody else could do where another part has nobody else', () => {
    // There is pay for one of ada and dee, and the third part has only dee: ben and cem must do the other two.
    const lanes = [
      paid('ada', { skillMask: 1 }),
      lane('ben', { skillMask: 3 }),
      lane('cem', { skillMask: 2, budget: 1 }),
      paid('dee', { skillMask: 4 }),
    ]
    const activities = [task('rig', { modes: groups(2, 1, 4) })]
    const grant = { key: 'grant', laneTicksMost: 10 }
    expect(planned(aTurn({ activities, lanes, budgets: [...wages(10), grant] }))).toEqual([
      [0, 'cem', 'ben', 'dee'],
    ])
  })

  test('keeps what later work cannot do without', () => {
    const rigging = { durationTicks: 20, hands: hands(1, 1), uses: [] }
    const instance = aTurn({
      activities: [task('a'), task('b'), task('rig', { modes: [rigging], after: [0, 1] })],
      lanes: [lane('ada'), paid('ben', { skillMask: 1 })],
      budgets: wages(29),
    })
    expect(planned(instance)).toEqual([
      [0, 'ada'],
      [10, 'ada'],
      [20, 'ben'],
    ])
  })

  test('pays duties first', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(100)],
      activities: [task('a'), task('b'), duty('desk', 1)],
      lanes: [lane('ada', { available: [{ from: 0, to: 90 }] }), paid('ben')],
      budgets: wages(19),
    })
    expect(planned(instance)).toEqual([
      [0, 'ada'],
      [10, 'ada'],
      [100, 'ben'],
    ])
  })

  test('is one of several: each pays its own', () => {
    const instance = aTurn({
      activities: [task('a', { modes: [mode(10, 3)] }), task('b', { modes: [mode(10, 2)] })],
      lanes: [paid('ada'), paid('ben'), lane('cem', { budget: 1 })],
      budgets: [...wages(40), { key: 'grant', laneTicksMost: 10 }],
    })
    expect(planned(instance)).toEqual([
      [0, 'ada', 'ben', 'cem'],
      [10, 'ada', 'ben'],
    ])
  })
})

describe('a budget that cannot do', () => {
  test('makes impossible, proven, what nobody can do without it', () => {
    const rigging = (durationTicks: number) => [{ durationTicks, hands: hands(1, 1), uses: [] }]
    const instance = aTurn({
      turns: [turn(), turn()],
      activities: [
        task('left', { modes: rigging(20) }),
        task('right', { modes: rigging(15) }),
        task('set', { turn: 1 }),
      ],
      lanes: [lane('ada'), paid('ben', { skillMask: 1 })],
      budgets: wages(34),
    })
    expect(lowerBoundTicks(instance, 0)).toEqual({
      readyTick: null,
      kind: 'impossible',
      impossible: { kind: 'budget', skillMask: 0, handsNeeded: 1, handsMost: 2, activity: 0 },
    })
    expect(lowerBoundTicks(instance, 1).readyTick).toBe(10)
    expect(solve(instance, { workMost: 60, seed: 1 })).toMatchObject({ schedule: null, proof: 'bound' })
    expect(planned({ ...instance, budgets: wages(35) })).toEqual([
      [0, 'ben'],
      [20, 'ben'],
      [0, 'ada'],
    ])
  })
})
