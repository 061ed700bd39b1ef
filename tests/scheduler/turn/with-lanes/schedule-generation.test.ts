import { describe, expect, test } from 'vitest'
import type { TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { type Draft, emptyDraft } from '../../../../src/scheduler/turn/with-lanes/draft.ts'
import {
  type ModeRule,
  type ModeWishes,
  wishNumber,
} from '../../../../src/scheduler/turn/with-lanes/mode-choice.ts'
import { listByPriority, priorities } from '../../../../src/scheduler/turn/with-lanes/priority-rules.ts'
import { ScheduleGenerator } from '../../../../src/scheduler/turn/with-lanes/schedule-generation.ts'
import { aTurn, hands, lane, mode, resource, task, turn } from '../a-turn.ts'

interface Planned {
  readonly startTick: number
  readonly endTick: number
  readonly mode: number
  readonly lanes: readonly string[]
}

function plannedByKey(instance: TurnInstance, draft: Draft | null): Record<string, Planned> | null {
  if (draft === null) return null
  const { modeFirst, modeHands, slotFirst } = prepared(instance)
  return Object.fromEntries(
    instance.activities.map(({ key }, activity) => {
      const ofAll = draft.modes[activity] ?? 0
      const slot = slotFirst[activity] ?? 0
      const lanes = [...draft.lanes.slice(slot, slot + (modeHands[ofAll] ?? 0))]
      return [
        key,
        {
          startTick: draft.starts[activity] ?? -1,
          endTick: draft.ends[activity] ?? -1,
          mode: ofAll - (modeFirst[activity] ?? 0),
          lanes: lanes.map((index) => instance.lanes[index]?.key ?? '?'),
        },
      ]
    }),
  )
}

const listOf = (instance: TurnInstance): Int32Array => {
  const problem = prepared(instance)
  return listByPriority(problem, priorities(problem, 'first-come'))
}
function forward(instance: TurnInstance, rule: ModeRule = 'earliest-end', list = listOf(instance)) {
  const wishes = instance.activities.map(() => rule)
  return plannedByKey(instance, new ScheduleGenerator(prepared(instance)).forward(list, wishes))
}
function backward(instance: TurnInstance, latestEnds: readonly number[]) {
  const wishes = instance.activities.map(() => 'earliest-end' as const)
  const list = listOf(instance).reverse()
  return plannedByKey(instance, new ScheduleGenerator(prepared(instance)).backward(list, wishes, latestEnds))
}

describe('a plan made forward', () => {
  test('starts each task as soon as what it waits for has ended and a hand is free', () => {
    const activities = [task('a'), task('b'), task('c'), task('d', { after: [0] })]
    expect(forward(aTurn({ activities, lanes: [lane('ada'), lane('ben')] }))).toEqual({
      a: { startTick: 0, endTick: 10, mode: 0, lanes: ['ada'] },
      b: { startTick: 0, endTick: 10, mode: 0, lanes: ['ben'] },
      c: { startTick: 10, endTick: 20, mode: 0, lanes: ['ada'] },
      d: { startTick: 10, endTick: 20, mode: 0, lanes: ['ben'] },
    })
  })

  test('starts nothing before its turn is released', () => {
    const plan = forward(
      aTurn({
        turns: [turn({ releaseTick: 42 })],
        activities: [task('a'), task('idle', { modes: [mode(1, 0)] })],
      }),
    )
    expect(plan).toMatchObject({ a: { startTick: 42 }, idle: { startTick: 42 } })
  })

  test('lets what needs no hands run by itself, beside everything else', () => {
    const activities = [
      task('mop'),
      task('dry', { modes: [mode(60, 0)], after: [0] }),
      task('set'),
      task('clear', { modes: [mode(0, 0)] }),
    ]
    const plan = forward(aTurn({ activities, lanes: [lane('ada')] }))
    expect(plan).toMatchObject({
      dry: { startTick: 10, endTick: 70, lanes: [] },
      set: { startTick: 10, lanes: ['ada'] },
      clear: { startTick: 0, endTick: 0 },
    })
  })

  test('uses the gaps between standing plans when there is time to walk there and on', () => {
    const busy = (from: number, to: number) => ({ from, to, place: 1 })
    const planWith = (gapTo: number) =>
      forward(
        aTurn({ activities: [task('a')], lanes: [lane('ada', { busy: [busy(0, 20), busy(gapTo, 200)] })] }),
      )
    expect(planWith(36)).toMatchObject({ a: { startTick: 23, endTick: 33 } })
    expect(planWith(35)).toMatchObject({ a: { startTick: 203, endTick: 213 } })
  })

  test('reckons with the walk of a lane across a break as well', () => {
    const lanes = [
      lane('ada', {
        available: [
          { from: 0, to: 10 },
          { from: 11, to: 90 },
        ],
        busy: [{ from: 0, to: 10, place: 1 }],
      }),
    ]
    expect(forward(aTurn({ activities: [task('a')], lanes }))).toMatchObject({ a: { startTick: 13 } })
  })

  test('lets a lane work through where one stretch of duty follows the other', () => {
    const lanes = [
      lane('ada', {
        available: [
          { from: 0, to: 6 },
          { from: 6, to: 90 },
        ],
      }),
    ]
    expect(forward(aTurn({ activities: [task('a')], lanes }))).toMatchObject({ a: { startTick: 0 } })
  })

  test('lets a lane walk between tasks of different places', () => {
    const activities = [task('here'), task('there', { place: 1 }), task('here again')]
    expect(forward(aTurn({ activities, lanes: [lane('ada')] }))).toMatchObject({
      here: { startTick: 0 },
      there: { startTick: 13 },
      'here again': { startTick: 26 },
    })
  })

  test('puts a task of the list between two that are placed already', () => {
    const activities = [
      task('long', { modes: [mode(50)] }),
      task('later', { after: [0], modes: [mode(10, 2)] }),
      task('filler'),
    ]
    expect(forward(aTurn({ activities }))).toMatchObject({
      later: { startTick: 50 },
      filler: { startTick: 0, lanes: ['ben'] },
    })
  })

  test('never has more of a tool in use than there is at that moment', () => {
    const withTool = mode(10, 0, [{ resource: 0, amount: 1 }])
    const mops = {
      key: 'mops',
      capacity: [
        { fromTick: 3, amount: 1 },
        { fromTick: 18, amount: 0 },
        { fromTick: 30, amount: 2 },
      ],
    }
    const activities = ['a', 'b', 'c'].map((key) => task(key, { modes: [withTool] }))
    expect(forward(aTurn({ activities, resources: [mops] }))).toMatchObject({
      a: { startTick: 3 },
      b: { startTick: 30 },
      c: { startTick: 30 },
    })
  })

  test('waits for a tick at which all the tools of a task agree', () => {
    const tool = (key: string, from: number, to: number, from2: number) => ({
      key,
      capacity: [
        { fromTick: from, amount: 1 },
        { fromTick: to, amount: 0 },
        { fromTick: from2, amount: 1 },
      ],
    })
    const both = mode(10, 0, [
      { resource: 0, amount: 1 },
      { resource: 1, amount: 1 },
    ])
    const resources = [tool('left', 0, 12, 20), tool('right', 5, 28, 40)]
    expect(forward(aTurn({ activities: [task('a', { modes: [both] })], resources }))).toMatchObject({
      a: { startTick: 40 },
    })
  })

  test('adds up a tool that a mode names twice', () => {
    const twice = mode(10, 0, [
      { resource: 0, amount: 1 },
      { resource: 0, amount: 1 },
    ])
    expect(
      forward(aTurn({ activities: [task('a', { modes: [twice] })], resources: [resource('mops', 1)] })),
    ).toBeNull()
  })

  test('is not made when a task finds no place before the horizon', () => {
    expect(forward(aTurn({ activities: [task('a')], horizonTick: 9 }))).toBeNull()
    expect(forward(aTurn({ activities: [task('a')], lanes: [] }))).toBeNull()
    expect(forward(aTurn({ activities: [task('a', { modes: [mode(10, 3)] })] }))).toBeNull()
  })

  test('of no tasks is empty', () => {
    expect(forward(aTurn({ lanes: [] }))).toEqual({})
  })
})

describe('who does a task', () => {
  const focus = { durationTicks: 10, hands: hands(1, 1), uses: [] }

  test('is somebody with the skill', () => {
    const lanes = [lane('ada'), lane('ben', { skillMask: 2 }), lane('cem', { skillMask: 5 })]
    expect(forward(aTurn({ activities: [task('a', { modes: [focus] })], lanes }))).toMatchObject({
      a: { lanes: ['cem'] },
    })
  })

  test('is whoever has the fewest skills the task does not need', () => {
    const lanes = [lane('ada', { skillMask: 7 }), lane('ben', { skillMask: 3 }), lane('cem')]
    expect(forward(aTurn({ activities: [task('a'), task('b'), task('c')], lanes }))).toMatchObject({
      a: { lanes: ['cem'] },
      b: { lanes: ['ben'] },
      c: { lanes: ['ada'] },
    })
  })

  test('is, of equals, who worked in that place last', () => {
    const walkTicks = [
      [0, 0],
      [0, 0],
    ]
    const activities = [
      task('here'),
      task('there', { place: 1 }),
      task('there again', { place: 1, after: [0, 1] }),
    ]
    expect(forward(aTurn({ activities, walkTicks }))).toMatchObject({ 'there again': { lanes: ['ben'] } })
  })

  test('is shared out so that every group of a task gets its hands', () => {
    const groups = [
      { count: 1, skillMask: 1 },
      { count: 1, skillMask: 2 },
      { count: 1, skillMask: 4 },
    ]
    // One after the other, the first group would take ben, and leave the third to nobody.
    const lanes = [
      lane('ada', { skillMask: 3 }),
      lane('ben', { skillMask: 5 }),
      lane('cem', { skillMask: 2 }),
    ]
    const activities = [task('rig', { modes: [{ durationTicks: 5, hands: groups, uses: [] }] })]
    expect(forward(aTurn({ activities, lanes: [lanes[1]!, lanes[0]!, lanes[2]!] }))).toMatchObject({
      rig: { startTick: 0, lanes: ['ada', 'cem', 'ben'] },
    })
  })

  test('waits when each group could be served but not all of them at once', () => {
    const groups = [
      { count: 1, skillMask: 1 },
      { count: 1, skillMask: 2 },
    ]
    const lanes = [
      lane('ada', { skillMask: 3 }),
      lane('ben'),
      lane('cem', { skillMask: 2, available: [{ from: 70, to: 90 }] }),
    ]
    const activities = [task('rig', { modes: [{ durationTicks: 5, hands: groups, uses: [] }] })]
    expect(forward(aTurn({ activities, lanes }))).toMatchObject({
      rig: { startTick: 70, lanes: ['ada', 'cem'] },
    })
  })
})

describe('how many hands a task gets', () => {
  const activities = [task('set', { modes: [mode(20, 1), mode(12, 2), mode(11, 3)] })]
  const lanes = [lane('ada'), lane('ben'), lane('cem')]

  test('is what ends soonest, by that rule', () => {
    expect(forward(aTurn({ activities, lanes }), 'earliest-end')).toMatchObject({
      set: { mode: 2, endTick: 11 },
    })
  })

  test('is what costs least work, by that rule', () => {
    expect(forward(aTurn({ activities, lanes }), 'fewest-person-ticks')).toMatchObject({
      set: { mode: 0, endTick: 20 },
    })
  })

  test('is no more than pays, by the rule between', () => {
    expect(forward(aTurn({ activities, lanes }), 'balanced')).toMatchObject({ set: { mode: 1, endTick: 12 } })
  })

  test('is more than the rule between gives where the hurry is worth it', () => {
    const three = [task('set', { modes: [mode(210, 1), mode(120, 2), mode(102, 3)] })]
    expect(forward(aTurn({ activities: three, lanes }), 'balanced')).toMatchObject({ set: { mode: 1 } })
    expect(forward(aTurn({ activities: three, lanes }), 'hurried')).toMatchObject({ set: { mode: 2 } })
  })

  test('is, of what ends at the same time, what takes less work', () => {
    const equal = [task('set', { modes: [mode(10, 3), mode(10, 2), mode(11, 1)] })]
    expect(forward(aTurn({ activities: equal, lanes }))).toMatchObject({ set: { mode: 1 } })
  })

  test('is what was wished for if there is a place for it, else what ends soonest', () => {
    const instance = aTurn({ activities, lanes: [lane('ada'), lane('ben')] })
    const planWith = (wishes: ModeWishes) =>
      plannedByKey(instance, new ScheduleGenerator(prepared(instance)).forward([0], wishes))
    expect(planWith([0])).toMatchObject({ set: { mode: 0 } })
    expect(planWith([2])).toMatchObject({ set: { mode: 1 } })
  })
})

describe('a plan made of what can begin soonest', () => {
  function soonestFirst(instance: TurnInstance, values: readonly number[]) {
    const problem = prepared(instance)
    const draft = emptyDraft(problem)
    const wishes = new Int32Array(problem.activityCount).fill(wishNumber('earliest-end'))
    const isMade = new ScheduleGenerator(problem).writeSoonestFirst(values, wishes, draft)
    return isMade ? plannedByKey(instance, draft) : null
  }

  test('keeps no hands waiting for what is more important but comes later', () => {
    const activities = [
      task('mop', { modes: [mode(10)] }),
      task('set', { modes: [mode(30, 2)], after: [0] }),
      task('bins', { modes: [mode(15)] }),
    ]
    const instance = aTurn({ activities, lanes: [lane('ada'), lane('ben')] })
    expect(soonestFirst(instance, [0, 1, 2])).toMatchObject({
      bins: { startTick: 0 },
      set: { startTick: 15 },
    })
    expect(forward(instance)).toMatchObject({ bins: { startTick: 40 }, set: { startTick: 10 } })
  })

  test('takes, of what can begin at the same tick, the lowest value first, then the first in the list', () => {
    const activities = [task('a'), task('b'), task('c')]
    const instance = aTurn({ activities, lanes: [lane('ada')] })
    expect(soonestFirst(instance, [3, 2, 3])).toMatchObject({
      b: { startTick: 0 },
      a: { startTick: 10 },
      c: { startTick: 20 },
    })
  })

  test('leaves what is pinned where it is', () => {
    const turns = [turn(), { releaseTick: 5, dueTick: 15, weight: 1 }]
    const activities = [task('a'), task('duty', { turn: 1, pinned: true })]
    const instance = aTurn({ turns, activities, lanes: [lane('ada')] })
    expect(soonestFirst(instance, [0, 0])).toMatchObject({ duty: { startTick: 5 }, a: { startTick: 15 } })
  })

  test('is not made when something finds no place before the horizon', () => {
    expect(soonestFirst(aTurn({ activities: [task('a')], horizonTick: 9 }), [0])).toBeNull()
  })
})

describe('a plan made backward', () => {
  test('ends each task as late as what waits for it and the ready tick allow', () => {
    const activities = [task('a'), task('b', { after: [0], modes: [mode(30)] }), task('c')]
    expect(backward(aTurn({ activities }), [100])).toMatchObject({
      a: { startTick: 60, endTick: 70 },
      b: { startTick: 70, endTick: 100 },
      c: { startTick: 90, endTick: 100 },
    })
  })

  test('keeps to duty, walks, tools and standing plans', () => {
    const mops = {
      key: 'mops',
      capacity: [
        { fromTick: 0, amount: 1 },
        { fromTick: 50, amount: 0 },
      ],
    }
    const lanes = [lane('ada', { available: [{ from: 0, to: 90 }], busy: [{ from: 60, to: 70, place: 1 }] })]
    const activities = [
      task('here'),
      task('with mop', { modes: [mode(10, 1, [{ resource: 0, amount: 1 }])] }),
    ]
    expect(backward(aTurn({ activities, lanes, resources: [mops] }), [100])).toMatchObject({
      here: { startTick: 80, endTick: 90 },
      'with mop': { startTick: 40, endTick: 50 },
    })
    expect(backward(aTurn({ activities, lanes, resources: [mops] }), [82])).toMatchObject({
      here: { startTick: 30, endTick: 40 },
      'with mop': { startTick: 40, endTick: 50 },
    })
  })

  test('is not made when something would have to start before its release', () => {
    const instance = aTurn({ turns: [turn({ releaseTick: 20 })], activities: [task('a')] })
    expect(backward(instance, [30])).toMatchObject({ a: { startTick: 20 } })
    expect(backward(instance, [29])).toBeNull()
  })

  test('has a ready tick of its own for each turn', () => {
    const instance = aTurn({ turns: [turn(), turn()], activities: [task('a'), task('b', { turn: 1 })] })
    expect(backward(instance, [50, 80])).toMatchObject({ a: { endTick: 50 }, b: { endTick: 80 } })
  })
})
