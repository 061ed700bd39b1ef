/** Work that has one time: an event's duty, a service that must not be disturbed. */
import { describe, expect, test } from 'vitest'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../src/scheduler/turn/lower-bound.ts'
import { prepared } from '../../../src/scheduler/turn/prepared-instance.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../src/scheduler/turn/validate.ts'
import { ScheduleGenerator } from '../../../src/scheduler/turn/with-lanes/schedule-generation.ts'
import { aTurn, duty, dutyTurn, hands, lane, mode, resource, task, turn } from './a-turn.ts'

function solved(instance: TurnInstance) {
  const result = solve(instance, { workMost: 60, seed: 1 })
  expect(result.schedule === null ? [] : scheduleFaults(instance, result.schedule)).toEqual([])
  return result
}
const startOf = (instance: TurnInstance, key: string): number | undefined =>
  solved(instance).schedule?.activities[instance.activities.findIndex((one) => one.key === key)]?.startTick
const lanesOf = (instance: TurnInstance, key: string): string[] | undefined =>
  solved(instance).schedule?.activities[instance.activities.findIndex((one) => one.key === key)]?.lanes.map(
    (index) => instance.lanes[index]?.key ?? '?',
  )

describe('a duty', () => {
  test('begins at its tick, and work goes round it, whatever comes first in the list', () => {
    const set = task('set', { modes: [mode(30)] })
    const ushers = duty('ushers', 1, { modes: [mode(10, 2)] })
    for (const activities of [
      [set, ushers],
      [ushers, set],
    ]) {
      const instance = aTurn({ turns: [turn(), dutyTurn(20)], activities })
      expect(startOf(instance, 'ushers')).toBe(20)
      expect(startOf(instance, 'set')).toBe(30)
    }
  })

  test('leaves time to walk to it and from it', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(12)],
      activities: [
        task('before', { modes: [mode(9)] }),
        task('after', { after: [0] }),
        duty('desk', 1, { place: 1 }),
      ],
      lanes: [lane('ada')],
    })
    expect(startOf(instance, 'before')).toBe(0)
    expect(startOf(instance, 'after')).toBe(25)
    const tooLong = { ...instance, activities: [task('before'), ...instance.activities.slice(1)] }
    expect(startOf(tooLong, 'before')).toBe(25)
  })

  test('that holds a room’s quiet leaves noisy work to before and after it', () => {
    const noisy = mode(15, 1, [{ resource: 0, amount: 1 }])
    const instance = aTurn({
      turns: [turn(), dutyTurn(20, 40)],
      activities: [
        ...['a', 'b', 'c'].map((key) => task(key, { modes: [noisy] })),
        duty('service', 1, { modes: [mode(40, 0, [{ resource: 0, amount: 3 }])] }),
        task('wipe', { modes: [mode(12)], after: [0] }),
      ],
      resources: [resource('quiet', 3)],
    })
    expect(startOf(instance, 'c')).toBe(60)
    expect(startOf(instance, 'wipe')).toBe(15)
    const long = task('long', { modes: [{ ...noisy, durationTicks: 21 }] })
    expect(solved({ ...instance, activities: [long, instance.activities[3]!] })).toMatchObject({
      boundTicks: [81, 60],
      proof: 'bound',
    })
  })

  test('is where it is in a plan made backward as well, with the same hands', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(40), dutyTurn(45)],
      activities: [task('set', { modes: [mode(30)] }), duty('ushers', 1), duty('desk', 2)],
    })
    const generator = new ScheduleGenerator(prepared(instance))
    const wishes = instance.activities.map(() => 'earliest-end' as const)
    const ahead = generator.forward([0, 1, 2], wishes)
    const back = generator.backward([2, 1, 0], wishes, [60, 40, 40])
    expect([...(ahead?.starts ?? [])]).toEqual([0, 40, 45])
    expect([...(back?.starts ?? [])]).toEqual([15, 40, 45])
    expect(back?.lanes.slice(1)).toEqual(ahead?.lanes.slice(1))
  })

  test('stays where it is however long a better plan is looked for', () => {
    const activities = [
      ...Array.from({ length: 7 }, (_, at) =>
        task(`set-${at}`, { modes: [mode(7 + at, 1), mode(5 + at, 2)] }),
      ),
      duty('ushers', 1),
      duty('desk', 2),
    ]
    const instance = aTurn({
      turns: [turn({ dueTick: 20 }), dutyTurn(13), dutyTurn(31)],
      activities,
      lanes: [lane('ada'), lane('ben'), lane('cem')],
    })
    const { schedule, workDone } = solved(instance)
    expect(workDone).toBe(60)
    expect(schedule?.activities.slice(7).map(({ startTick }) => startTick)).toEqual([13, 31])
    expect(schedule?.readyTicks.slice(1)).toEqual([23, 41])
  })

  test('alone in an instance is planned at once, proven', () => {
    const instance = aTurn({ turns: [dutyTurn(7)], activities: [duty('desk', 0)] })
    expect(solved(instance)).toMatchObject({ schedule: { readyTicks: [17] }, workDone: 1, proof: 'bound' })
  })
})

describe('who has a duty', () => {
  test('is whoever has the fewest skills it does not need', () => {
    const lanes = [lane('ada', { skillMask: 3 }), lane('ben', { skillMask: 1 }), lane('cem')]
    const activities = [duty('ushers', 0, { modes: [mode(10, 2)] })]
    expect(lanesOf(aTurn({ turns: [dutyTurn(5)], activities, lanes }), 'ushers')).toEqual(['cem', 'ben'])
  })

  test('is, of equals, who has least other time to give', () => {
    const lanes = [lane('ada'), lane('ben', { available: [{ from: 0, to: 40 }] })]
    const activities = [duty('desk', 0)]
    expect(lanesOf(aTurn({ turns: [dutyTurn(5)], activities, lanes }), 'desk')).toEqual(['ben'])
  })

  test('is found first for the duty that has the fewest to choose from', () => {
    const lanes = [
      lane('ada', { skillMask: 1 }),
      lane('ben', { skillMask: 1, available: [{ from: 12, to: 1000 }] }),
    ]
    const skilled = { durationTicks: 10, hands: hands(1, 1), uses: [] }
    const instance = aTurn({
      turns: [dutyTurn(12), dutyTurn(5)],
      activities: [duty('desk', 0, { modes: [skilled] }), duty('sound', 1, { modes: [skilled] })],
      lanes,
    })
    expect(lanesOf(instance, 'sound')).toEqual(['ada'])
    expect(lanesOf(instance, 'desk')).toEqual(['ben'])
  })

  test('is looked for again where those who came first took who was needed', () => {
    // Light has ada, sound the one with fewer skills of ben and cem: that is ben, the only other one who can do the desk.
    const lanes = [
      lane('ada', { skillMask: 1 }),
      lane('ben', { skillMask: 3 }),
      lane('cem', { skillMask: 14 }),
    ]
    const of = (skillMask: number) => [{ durationTicks: 10, hands: hands(1, skillMask), uses: [] }]
    const instance = aTurn({
      turns: [dutyTurn(0), dutyTurn(0), dutyTurn(5)],
      activities: [
        duty('light', 0, { modes: of(1) }),
        duty('sound', 1, { modes: of(2) }),
        duty('desk', 2, { modes: of(1) }),
      ],
      lanes,
    })
    expect(['light', 'sound', 'desk'].map((key) => lanesOf(instance, key))).toEqual([
      ['ben'],
      ['cem'],
      ['ada'],
    ])
  })
})

describe('a duty that cannot be done', () => {
  const bounds = (instance: TurnInstance) =>
    instance.turns.map((_, index) => lowerBoundTicks(instance, index))

  test('makes its own turn impossible, and no other', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(5), dutyTurn(50)],
      activities: [task('set'), duty('ushers', 1, { modes: [mode(10, 3)] }), duty('desk', 2)],
    })
    expect(bounds(instance)).toMatchObject([
      { readyTick: 10 },
      { readyTick: null, impossible: { kind: 'hands', handsNeeded: 3, handsMost: 2, activity: 1 } },
      { readyTick: 60 },
    ])
    expect(solved(instance)).toMatchObject({ schedule: null, workDone: 0, proof: 'bound' })
  })

  test('is told by the hands that are there at its tick, not at another', () => {
    const lanes = [lane('ada', { available: [{ from: 6, to: 500 }] }), lane('ben')]
    const instance = aTurn({
      turns: [dutyTurn(5)],
      activities: [duty('ushers', 0, { modes: [mode(10, 2)] })],
      lanes,
    })
    expect(bounds(instance)[0]?.impossible).toMatchObject({ kind: 'hands', handsNeeded: 2, handsMost: 1 })
    expect(bounds({ ...instance, turns: [dutyTurn(6)] })[0]?.readyTick).toBe(16)
  })

  test('lacks a skill, or a tool', () => {
    const skilled = { durationTicks: 10, hands: hands(1, 4), uses: [] }
    const instance = aTurn({
      turns: [dutyTurn(5), dutyTurn(5)],
      activities: [
        duty('sound', 0, { modes: [skilled] }),
        duty('service', 1, { modes: [mode(10, 0, [{ resource: 0, amount: 2 }])] }),
      ],
      resources: [resource('quiet', 1)],
    })
    expect(bounds(instance)).toMatchObject([
      { impossible: { kind: 'skill', skillMask: 4, activity: 0 } },
      { impossible: { kind: 'resource', activity: 1 } },
    ])
  })

  test('makes each turn impossible of those that compete for too few hands at one time', () => {
    const skilled = { durationTicks: 10, hands: hands(1, 1), uses: [] }
    const instance = aTurn({
      turns: [dutyTurn(0), dutyTurn(5), dutyTurn(5), dutyTurn(15)],
      activities: [
        duty('light', 0, { modes: [skilled] }),
        duty('sound', 1, { modes: [skilled] }),
        duty('desk', 2),
        duty('late sound', 3, { modes: [skilled] }),
      ],
      lanes: [lane('ada', { skillMask: 1 }), lane('ben'), lane('cem')],
    })
    const short = { kind: 'skill', skillMask: 1, handsNeeded: 2, handsMost: 1 }
    expect(bounds(instance)).toMatchObject([
      { readyTick: null, impossible: { ...short, activity: 0 } },
      { readyTick: null, impossible: { ...short, activity: 1 } },
      { readyTick: 15 },
      { readyTick: 25 },
    ])
  })

  test('makes each turn impossible of those that use more of a tool than there is', () => {
    const quiet = (amount: number) => [mode(10, 0, [{ resource: 0, amount }])]
    const instance = aTurn({
      turns: [dutyTurn(0), dutyTurn(9), dutyTurn(19)],
      activities: [
        duty('service', 0, { modes: quiet(2) }),
        duty('rehearsal', 1, { modes: quiet(1) }),
        duty('second service', 2, { modes: quiet(2) }),
      ],
      resources: [resource('quiet', 2)],
    })
    expect(bounds(instance)).toMatchObject([
      { impossible: { kind: 'resource', activity: 0 } },
      { impossible: { kind: 'resource', activity: 1 } },
      { readyTick: 29 },
    ])
  })

  test('leaves no plan where what one tick tells is not enough for a proof, and no effort is spent on one', () => {
    // At each tick there is somebody, but nobody gets from one desk to the other.
    const instance = aTurn({
      turns: [turn(), dutyTurn(0), dutyTurn(11)],
      activities: [task('set'), duty('desk', 1), duty('far desk', 2, { place: 1 })],
      lanes: [lane('ada')],
    })
    expect(solved(instance)).toEqual({
      schedule: null,
      workDone: 0,
      // The one tick between the duties is too short for setting: it is done from 21 on.
      boundTicks: [31, 10, 21],
      proof: 'none-found',
      exhausted: false,
    })
  })
})

describe('the bound of a turn beside duties', () => {
  test('counts only the hands that duties leave', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(0, 30)],
      activities: [...['a', 'b', 'c', 'd'].map((key) => task(key)), duty('desk', 1, { modes: [mode(30)] })],
    })
    // One of two until 30, both from then on: 30 of 40 hand-ticks, and 5 ticks for the rest.
    expect(lowerBoundTicks(instance, 0)).toEqual({ readyTick: 35, kind: 'energy', impossible: null })
  })
})
