/** A plan carried over to what has become of its instance. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Schedule, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { retimed } from '../../../src/scheduler/turn/retimed.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../src/scheduler/turn/validate.ts'
import {
  aTurn,
  duty,
  dutyTurn,
  hands,
  lane,
  mode,
  resource,
  smallInstance,
  task,
  turn,
  withPinnedAndPaid,
  withShortWalks,
} from './a-turn.ts'

/** Strike for two, then set beside mop. */
const evening = aTurn({
  activities: [
    task('strike', { modes: [mode(20, 1), mode(12, 2)] }),
    task('set', { modes: [mode(10, 1)], after: [0] }),
    task('mop', { after: [0] }),
  ],
})
const plan: Schedule = {
  activities: [
    { activity: 0, mode: 1, startTick: 0, endTick: 12, lanes: [1, 0] },
    { activity: 1, mode: 0, startTick: 12, endTick: 22, lanes: [1] },
    { activity: 2, mode: 0, startTick: 12, endTick: 22, lanes: [0] },
  ],
  readyTicks: [22],
}

function again(instance: TurnInstance, schedule = plan) {
  const result = retimed(instance, schedule)
  expect(result === null ? [] : scheduleFaults(instance, result)).toEqual([])
  return result?.activities.map(({ startTick, lanes }) => [
    startTick,
    ...lanes.map((index) => instance.lanes[index]?.key),
  ])
}

describe('a plan on another day', () => {
  test('is the same where nothing has changed', () => {
    expect(retimed(evening, plan)).toEqual(plan)
  })

  test('moves with its release, and with work that takes longer or shorter', () => {
    expect(again({ ...evening, turns: [turn({ releaseTick: 7 })] })).toEqual([
      [7, 'ben', 'ada'],
      [19, 'ben'],
      [19, 'ada'],
    ])
    const longer = { ...evening.activities[0]!, modes: [mode(20, 1), mode(30, 2)] }
    expect(again({ ...evening, activities: [longer, ...evening.activities.slice(1)] })).toEqual([
      [0, 'ben', 'ada'],
      [30, 'ben'],
      [30, 'ada'],
    ])
  })

  test('waits for its own hands, though others are there', () => {
    const lanes = [lane('ada'), lane('ben', { available: [{ from: 40, to: 500 }] }), lane('cem')]
    expect(again({ ...evening, lanes })?.[0]).toEqual([40, 'ben', 'ada'])
  })

  test('is given to others where its own hands never come, or cannot do it any more', () => {
    const lanes = [lane('ada'), lane('ben', { available: [] }), lane('cem')]
    expect(again({ ...evening, lanes })).toEqual([
      [0, 'ada', 'cem'],
      [12, 'ada'],
      [22, 'ada'],
    ])
    const skilled = { durationTicks: 10, hands: hands(1, 2), uses: [] }
    const activities = [...evening.activities.slice(0, 2), task('mop', { modes: [skilled], after: [0] })]
    expect(
      again({ ...evening, activities, lanes: [lane('ada'), lane('ben', { skillMask: 2 })] })?.[2],
    ).toEqual([22, 'ben'])
    expect(again({ ...evening, lanes: [lane('ada')] })).toBeUndefined()
  })

  test('keeps clear of what others hold, walks there and back, and waits for tools', () => {
    const lanes = [lane('ada', { busy: [{ from: 14, to: 30, place: 1 }] }), lane('ben')]
    expect(again({ ...evening, lanes })).toEqual([
      [33, 'ben', 'ada'],
      [45, 'ben'],
      [45, 'ada'],
    ])
    const withMop = task('mop', { modes: [mode(10, 1, [{ resource: 0, amount: 1 }])], after: [0] })
    const resources = [{ ...resource('mop', 1), capacity: [{ fromTick: 60, amount: 1 }] }]
    const activities = [...evening.activities.slice(0, 2), withMop]
    expect(again({ ...evening, activities, resources })?.[2]).toEqual([60, 'ada'])
  })

  test('leaves duties at their ticks, with their hands where these can', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(20), dutyTurn(20)],
      activities: [task('set'), duty('desk', 1), duty('door', 2)],
      lanes: [lane('ada'), lane('ben'), lane('cem')],
    })
    const duties: Schedule = {
      activities: [
        { activity: 0, mode: 0, startTick: 0, endTick: 10, lanes: [2] },
        { activity: 1, mode: 0, startTick: 20, endTick: 30, lanes: [1] },
        { activity: 2, mode: 0, startTick: 20, endTick: 30, lanes: [2] },
      ],
      readyTicks: [10, 30, 30],
    }
    expect(retimed(instance, duties)).toEqual(duties)
    const moved = { ...instance, turns: [turn({ releaseTick: 15 }), dutyTurn(22), dutyTurn(20)] }
    expect(again(moved, duties)).toEqual([
      [30, 'cem'],
      [22, 'ben'],
      [20, 'cem'],
    ])
    const ill = [lane('ada'), lane('ben', { available: [] }), lane('cem')]
    expect(again({ ...instance, lanes: ill }, duties)).toEqual([
      [0, 'cem'],
      [20, 'ada'],
      [20, 'cem'],
    ])
    expect(again({ ...instance, lanes: ill.slice(1) }, duties)).toBeUndefined()
  })

  test('takes hands that cost nothing where its own can no longer be paid', () => {
    const lanes = [lane('ada', { budget: 0 }), lane('ben', { budget: 0 }), lane('cem')]
    const budgets = (laneTicksMost: number) => [{ key: 'wages', laneTicksMost }]
    expect(again({ ...evening, lanes, budgets: budgets(44) })?.[2]).toEqual([12, 'ada'])
    expect(again({ ...evening, lanes, budgets: budgets(43) })?.[2]).toEqual([12, 'cem'])
  })

  test('is none before the horizon, or none at all if it speaks of other work', () => {
    expect(again({ ...evening, horizonTick: 21 })).toBeUndefined()
    expect(again({ ...evening, activities: evening.activities.slice(0, 2) })).toBeUndefined()
    const oneWay = [task('strike'), ...evening.activities.slice(1)]
    expect(again({ ...evening, activities: oneWay })).toBeUndefined()
  })

  test('keeps to what must come first, even if that has changed', () => {
    const activities = [
      task('strike', { modes: [mode(20, 1), mode(12, 2)], after: [2] }),
      task('set', { after: [0] }),
      task('mop'),
    ]
    expect(again({ ...evening, activities })).toEqual([
      [10, 'ben', 'ada'],
      [22, 'ben'],
      [0, 'ada'],
    ])
  })
})

describe('any plan', () => {
  const instances = withPinnedAndPaid(smallInstance(6, 24))

  test('on the instance it was made for is never later in any turn, and keeps its hands', () => {
    let plans = 0
    fc.assert(
      fc.property(withShortWalks(instances), fc.integer({ min: 1, max: 5 }), (instance, workMost) => {
        const { schedule } = solve(instance, { workMost, seed: 1 })
        if (!schedule) return
        plans += 1
        const result = retimed(instance, schedule)
        expect(result && scheduleFaults(instance, result)).toEqual([])
        expect(result?.activities.map(({ lanes }) => lanes)).toEqual(
          schedule.activities.map(({ lanes }) => lanes),
        )
        for (const [index, tick] of schedule.readyTicks.entries()) {
          expect(result?.readyTicks[index]).toBeLessThanOrEqual(tick)
        }
      }),
      { seed: 20261125, numRuns: 300 },
    )
    expect(plans).toBeGreaterThan(100)
  })

  test('on another instance with the same work can be carried out, or there is none', () => {
    let plans = 0
    fc.assert(
      fc.property(instances, fc.infiniteStream(fc.nat(3)), (instance, numbers) => {
        const { schedule } = solve(instance, { workMost: 3, seed: 1 })
        if (!schedule) return
        const next = (): number => Number(numbers.next().value)
        const changed: TurnInstance = {
          ...instance,
          horizonTick: 40,
          turns: instance.turns.map((of) => {
            const later = next()
            return { ...of, releaseTick: of.releaseTick + later, dueTick: of.dueTick + later }
          }),
          activities: instance.activities.map((activity) => ({
            ...activity,
            modes: activity.pinned
              ? activity.modes
              : activity.modes.map((of) => ({
                  ...of,
                  durationTicks: Math.max(1, of.durationTicks + next() - 1),
                })),
          })),
          lanes: instance.lanes.map((of) => ({
            ...of,
            skillMask: next() === 0 ? 0 : of.skillMask,
            available: [{ from: next(), to: 40 - next() }],
          })),
        }
        const result = retimed(changed, schedule)
        if (!result) return
        plans += 1
        expect(scheduleFaults(changed, result)).toEqual([])
        expect(result.activities.map((planned) => planned.mode)).toEqual(
          schedule.activities.map((planned) => planned.mode),
        )
      }),
      { seed: 20261125, numRuns: 300 },
    )
    expect(plans).toBeGreaterThan(50)
  })
})
