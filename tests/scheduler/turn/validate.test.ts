import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Schedule, ScheduledActivity, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../src/scheduler/turn/validate.ts'
import {
  aTurn,
  consuming,
  duty,
  dutyTurn,
  hands,
  lane,
  mode,
  resource,
  smallInstance,
  task,
  turn,
} from './a-turn.ts'

/** Two turns in two places; ada alone can rig, cem comes at 30 and is held at 80; one trolley. */
const instance: TurnInstance = aTurn({
  turns: [turn({ releaseTick: 5 }), turn({ releaseTick: 0 })],
  resources: [resource('trolley', 1)],
  lanes: [
    lane('ada', {
      skillMask: 1,
      available: [
        { from: 0, to: 50 },
        { from: 50, to: 100 },
      ],
    }),
    lane('ben', { available: [{ from: 0, to: 100 }] }),
    lane('cem', { available: [{ from: 30, to: 200 }], busy: [{ from: 80, to: 120, place: 1 }] }),
  ],
  activities: [
    task('strike', {
      modes: [mode(20, 1, [{ resource: 0, amount: 1 }]), mode(12, 2, [{ resource: 0, amount: 1 }])],
    }),
    task('rig', {
      modes: [{ durationTicks: 30, hands: [...hands(1, 1), ...hands(1)], uses: [] }],
      after: [0],
    }),
    task('set', { modes: [mode(20, 1, [{ resource: 0, amount: 1 }])], after: [0] }),
    task('dry', { turn: 1, place: 1, modes: [mode(40, 0)] }),
    task('chairs', { turn: 1, place: 1, modes: [mode(10)] }),
  ],
  horizonTick: 100,
})

const right: Schedule = {
  activities: [
    { activity: 0, mode: 1, startTick: 5, endTick: 17, lanes: [0, 1] },
    { activity: 1, mode: 0, startTick: 40, endTick: 70, lanes: [0, 1] },
    { activity: 2, mode: 0, startTick: 50, endTick: 70, lanes: [2] },
    { activity: 3, mode: 0, startTick: 0, endTick: 40, lanes: [] },
    { activity: 4, mode: 0, startTick: 20, endTick: 30, lanes: [1] },
  ],
  readyTicks: [70, 40],
}

/** The right plan with one activity planned otherwise. */
const mutant = (
  activity: number,
  parts: Partial<ScheduledActivity>,
  readyTicks = right.readyTicks,
): Schedule => ({
  activities: right.activities.map((planned, index) =>
    index === activity ? { ...planned, ...parts } : planned,
  ),
  readyTicks,
})

describe('the check of a plan', () => {
  test('passes a plan that can be carried out', () => {
    expect(scheduleFaults(instance, right)).toEqual([])
  })

  test('passes a turn without work that is ready at its release', () => {
    const idle = aTurn({ turns: [turn({ releaseTick: 8 })] })
    expect(scheduleFaults(idle, { activities: [], readyTicks: [8] })).toEqual([])
    expect(scheduleFaults(idle, { activities: [], readyTicks: [0] })).toEqual(['turn 0 is ready at 8, not 0'])
  })

  test.each<[string, Schedule, string]>([
    ['a task left out', { ...right, activities: right.activities.slice(0, 4) }, 'chairs is planned 0 times'],
    [
      'a task planned twice',
      { ...right, activities: [...right.activities, right.activities[2]!] },
      'set is planned 2 times',
    ],
    ['a task that does not exist', mutant(4, { activity: 9 }), 'there is no activity 9'],
    [
      'two tasks in each other’s place',
      { ...right, activities: [1, 0, 2, 3, 4].map((at) => right.activities[at]!) },
      'rig is out of order',
    ],
    ['a mode that does not exist', mutant(0, { mode: 2 }), 'strike has no mode 2'],
    ['a task done in less than its time', mutant(2, { endTick: 69 }), 'set takes 19, not 20'],
    [
      'a task at half a tick',
      mutant(3, { startTick: 0.5, endTick: 40.5 }, [70, 40.5]),
      'dry is not at whole ticks',
    ],
    [
      'a task before its release',
      mutant(0, { startTick: 4, endTick: 16 }),
      'strike starts at 4, before its release 5',
    ],
    [
      'a task after the horizon',
      mutant(3, { startTick: 61, endTick: 101 }, [70, 101]),
      'dry ends at 101, after the horizon',
    ],
    [
      'a task before one it waits for has ended',
      mutant(2, { startTick: 16, endTick: 36 }),
      'set starts at 16, before strike ends at 17',
    ],
    ['a hand missing', mutant(1, { lanes: [0] }), 'rig has 1 hands, not 2'],
    ['a hand too many', mutant(2, { lanes: [2, 1] }), 'set has 2 hands, not 1'],
    ['a hand for what runs by itself', mutant(3, { lanes: [2] }), 'dry has 1 hands, not 0'],
    ['one hand counted as two', mutant(1, { lanes: [0, 0] }), 'rig has the same hand twice'],
    ['a hand that does not exist', mutant(2, { lanes: [3] }), 'set: there is no lane 3'],
    ['a hand without the skill', mutant(1, { lanes: [1, 0] }), 'rig: ben lacks a skill'],
    ['a hand not yet on duty', mutant(2, { startTick: 29, endTick: 49 }), 'set: cem is off duty'],
    [
      'a hand no longer on duty',
      mutant(1, { startTick: 71, endTick: 101 }, [101, 40]),
      'rig: ada is off duty',
    ],
    [
      'a hand at two tasks at once',
      mutant(2, { lanes: [0] }),
      'ada cannot be at set at 50: rig holds it until 70',
    ],
    [
      'no time to walk to the next place',
      mutant(4, { startTick: 19, endTick: 29 }),
      'ben cannot be at chairs at 19: strike',
    ],
    [
      'no time to walk from the place before',
      mutant(4, { startTick: 28, endTick: 38 }),
      'ben cannot be at rig at 40: chairs',
    ],
    [
      'a hand that a standing plan holds',
      mutant(2, { startTick: 60, endTick: 80 }, [80, 40]),
      'cem cannot be at what stands at 80: set',
    ],
    [
      'a hand that must first come from a standing plan',
      mutant(2, { startTick: 122, endTick: 142 }, [142, 40]),
      'cem cannot be at set at 122: what stands',
    ],
    ['a wrong ready tick', { ...right, readyTicks: [70, 39] }, 'turn 1 is ready at 40, not 39'],
    ['a ready tick missing', { ...right, readyTicks: [70] }, 'not one ready tick a turn'],
  ])('finds %s', (_, schedule, fault) => {
    expect(scheduleFaults(instance, schedule).join('\n')).toContain(fault)
  })

  test('finds more of a tool in use than there is, from the tick on at which it is too much', () => {
    const withTrolley = mode(10, 0, [{ resource: 0, amount: 1 }])
    const planAt = (startTick: number, amounts: readonly [number, number][]) =>
      scheduleFaults(
        aTurn({
          activities: [task('a', { modes: [withTrolley] }), task('b', { modes: [withTrolley] })],
          resources: [
            { key: 'trolley', capacity: amounts.map(([fromTick, amount]) => ({ fromTick, amount })) },
          ],
        }),
        {
          activities: [
            { activity: 0, mode: 0, startTick: 0, endTick: 10, lanes: [] },
            { activity: 1, mode: 0, startTick, endTick: startTick + 10, lanes: [] },
          ],
          readyTicks: [Math.max(10, startTick + 10)],
        },
      )
    expect(planAt(10, [[0, 1]])).toEqual([])
    expect(planAt(9, [[0, 1]])).toEqual(['trolley: 2 used at 9, 1 there'])
    expect(planAt(9, [[0, 2]])).toEqual([])
    expect(
      planAt(10, [
        [0, 1],
        [20, 0],
      ]),
    ).toEqual([])
    expect(
      planAt(10, [
        [0, 1],
        [19, 0],
      ]),
    ).toEqual(['trolley: 1 used at 19, 0 there'])
    expect(planAt(10, [[1, 1]])).toEqual(['trolley: 1 used at 0, 0 there'])
    expect(planAt(10, [])).toHaveLength(2)
  })

  test('finds a duty that does not begin when it must', () => {
    const withDuty = aTurn({ turns: [dutyTurn(20)], activities: [duty('ushers', 0)] })
    const planAt = (startTick: number): Schedule => ({
      activities: [{ activity: 0, mode: 0, startTick, endTick: startTick + 10, lanes: [0] }],
      readyTicks: [startTick + 10],
    })
    expect(scheduleFaults(withDuty, planAt(20))).toEqual([])
    expect(scheduleFaults(withDuty, planAt(21))).toEqual(['ushers starts at 21, though it is pinned to 20'])
    expect(scheduleFaults(withDuty, planAt(19))).toContain('ushers starts at 19, though it is pinned to 20')
  })

  test('finds a budget that is overdrawn: all hands that are paid from it, each as long as it is held', () => {
    const withWages = (laneTicksMost: number) =>
      aTurn({
        activities: [task('rig', { modes: [mode(10, 3)] }), task('set', { modes: [mode(7)], after: [0] })],
        lanes: [lane('ada', { budget: 1 }), lane('ben'), lane('cem', { budget: 1 })],
        budgets: [
          { key: 'other', laneTicksMost: 0 },
          { key: 'wages', laneTicksMost },
        ],
      })
    const plan: Schedule = {
      activities: [
        { activity: 0, mode: 0, startTick: 0, endTick: 10, lanes: [0, 1, 2] },
        { activity: 1, mode: 0, startTick: 10, endTick: 17, lanes: [2] },
      ],
      readyTicks: [17],
    }
    expect(scheduleFaults(withWages(27), plan)).toEqual([])
    expect(scheduleFaults(withWages(26), plan)).toEqual(['wages: 27 lane-ticks used, 26 there'])
  })

  test('finds a consumable of which the modes take more than there is, whenever they are done', () => {
    const withSoap = (amountMost: number) =>
      aTurn({
        activities: [
          task('mop', { modes: [consuming(10, 0, 1), consuming(5, 1, 4)] }),
          task('rinse', {
            modes: [{ ...consuming(3, 1, 2), consumes: [2, 1].map((amount) => ({ consumable: 1, amount })) }],
            after: [0],
          }),
        ],
        consumables: [
          { key: 'salt', amountMost: 0 },
          { key: 'soap', amountMost },
        ],
      })
    const plan: Schedule = {
      activities: [
        { activity: 0, mode: 1, startTick: 0, endTick: 5, lanes: [] },
        { activity: 1, mode: 0, startTick: 90, endTick: 93, lanes: [] },
      ],
      readyTicks: [93],
    }
    expect(scheduleFaults(withSoap(7), plan)).toEqual([])
    expect(scheduleFaults(withSoap(6), plan)).toEqual(['soap: 7 used up, 6 there'])
  })

  test('finds every change to the lanes, the length or the number of tasks of a plan made by the solver', () => {
    fc.assert(
      fc.property(smallInstance(6), fc.nat(), (small, pick) => {
        const { schedule } = solve(small, { workMost: 20, seed: 1 })
        if (!schedule) return
        expect(scheduleFaults(small, schedule)).toEqual([])
        const at = pick % schedule.activities.length
        const changed = (parts: Partial<ScheduledActivity>): Schedule => ({
          ...schedule,
          activities: schedule.activities.map((planned, index) =>
            index === at ? { ...planned, ...parts } : planned,
          ),
        })
        const planned = schedule.activities[at]!
        expect(scheduleFaults(small, changed({ endTick: planned.endTick + 1 }))).not.toEqual([])
        expect(
          scheduleFaults(small, changed({ startTick: -1, endTick: planned.endTick - planned.startTick - 1 })),
        ).not.toEqual([])
        expect(scheduleFaults(small, changed({ lanes: [...planned.lanes, 0] }))).not.toEqual([])
        const without = schedule.activities.filter((_, index) => index !== at)
        expect(scheduleFaults(small, { ...schedule, activities: without })).not.toEqual([])
        const doubled =
          planned.lanes.length > 1 ? planned.lanes.map(() => planned.lanes[0]!) : [small.lanes.length]
        expect(scheduleFaults(small, changed({ lanes: doubled }))).not.toEqual([])
      }),
      { seed: 20261125, numRuns: 150 },
    )
  })
})
