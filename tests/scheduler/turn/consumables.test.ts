/** What modes use up. */
import { describe, expect, test } from 'vitest'
import type { Mode, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../src/scheduler/turn/lower-bound.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../src/scheduler/turn/validate.ts'
import { aTurn, consuming, hands, lane, task, turn } from './a-turn.ts'

const soap = (amountMost: number) => [{ key: 'soap', amountMost }]

function planned(instance: TurnInstance) {
  const result = solve(instance, { workMost: 200, seed: 1 })
  expect(result.schedule === null ? [] : scheduleFaults(instance, result.schedule)).toEqual([])
  return result.schedule?.activities.map(({ startTick, mode }) => [startTick, mode])
}

const byHand = (of: Mode): Mode => ({ ...of, hands: hands(1) })

describe.each([
  { what: 'that runs by itself, nobody there', of: (mode: Mode) => mode, lanes: [] },
  { what: 'that runs by itself, somebody there', of: (mode: Mode) => mode, lanes: [lane('ada')] },
  { what: 'that hands do', of: byHand, lanes: [lane('ada'), lane('ben')] },
])('for work $what, a consumable', ({ of, lanes }) => {
  /** Quickly with soap, slowly without. */
  const washing = (quick = 2, slow = 10) => [of(consuming(slow, 0, 0)), of(consuming(quick, 0, 3))]

  test('makes work quick as long as there is enough of it', () => {
    const activities = [task('floor', { modes: washing() })]
    expect(planned(aTurn({ activities, lanes, consumables: soap(3) }))).toEqual([[0, 1]])
    expect(planned(aTurn({ activities, lanes, consumables: soap(2) }))).toEqual([[0, 0]])
  })

  test('goes where it saves most', () => {
    const activities = [
      task('floor', { modes: washing(9, 10) }),
      task('stage', { modes: washing(2, 30), after: [0] }),
    ]
    expect(planned(aTurn({ activities, lanes, consumables: soap(5) }))).toEqual([
      [0, 0],
      [10, 1],
    ])
  })

  test('is not given back: what is used up early is not there late', () => {
    const activities = [
      task('floor', { modes: [of(consuming(2, 0, 3))] }),
      task('stage', { modes: washing(), after: [0] }),
    ]
    expect(planned(aTurn({ activities, lanes, consumables: soap(5) }))).toEqual([
      [0, 0],
      [2, 0],
    ])
    expect(planned(aTurn({ activities, lanes, consumables: soap(6) }))).toEqual([
      [0, 0],
      [2, 1],
    ])
  })

  test('is kept for what cannot be done without it', () => {
    const activities = [
      task('floor', { modes: washing() }),
      task('stage', { modes: [of(consuming(4, 0, 5))], after: [0] }),
    ]
    expect(planned(aTurn({ activities, lanes, consumables: soap(7) }))).toEqual([
      [0, 0],
      [10, 0],
    ])
  })

  test('that does not suffice for the least of all makes it impossible, proven', () => {
    const instance = aTurn({
      activities: [
        task('floor', { modes: [of(consuming(2, 0, 3)), of(consuming(9, 0, 2))] }),
        task('stage', { modes: [of(consuming(1, 0, 0))] }),
      ],
      lanes,
      consumables: soap(1),
    })
    expect(lowerBoundTicks(instance, 0).readyTick).toBeNull()
    expect(solve(instance, { workMost: 60, seed: 1 })).toMatchObject({ schedule: null, proof: 'bound' })
  })

  test('lets the bound count no mode that it does not suffice for', () => {
    const activities = [task('floor', { modes: washing() })]
    expect(lowerBoundTicks(aTurn({ activities, lanes, consumables: soap(3) }), 0).readyTick).toBe(2)
    expect(lowerBoundTicks(aTurn({ activities, lanes, consumables: soap(2) }), 0).readyTick).toBe(10)
  })
})

test('each of several consumables is counted by itself, over all turns', () => {
  const both = (amount: number): Mode => ({
    ...consuming(2, 0, amount),
    consumes: [
      { consumable: 0, amount },
      { consumable: 1, amount },
    ],
  })
  const instance = aTurn({
    turns: [turn(), turn()],
    activities: [
      task('floor', { modes: [both(2), consuming(8, 1, 1)] }),
      task('stage', { turn: 1, modes: [both(2), consuming(9, 1, 1)] }),
    ],
    consumables: [...soap(4), { key: 'salt', amountMost: 3 }],
  })
  // There is soap for both, and salt for the quick way of one: of that which would take longer otherwise.
  expect(planned(instance)).toEqual([
    [0, 1],
    [0, 0],
  ])
})
