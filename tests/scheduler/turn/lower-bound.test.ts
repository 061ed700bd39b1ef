import { describe, expect, test } from 'vitest'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../src/scheduler/turn/lower-bound.ts'
import { aTurn, hands, lane, mode, resource, task, turn } from './a-turn.ts'

const criticalPath = (readyTick: number) => ({ readyTick, kind: 'critical-path', impossible: null })
const energy = (readyTick: number) => ({ readyTick, kind: 'energy', impossible: null })

describe('the earliest that a turn can be ready', () => {
  test('is its release when there is nothing to do, lanes or not', () => {
    expect(lowerBoundTicks(aTurn({ turns: [turn({ releaseTick: 7 })], lanes: [] }), 0)).toEqual(
      criticalPath(7),
    )
  })

  test('is the longest chain of tasks in their shortest modes', () => {
    const activities = [
      task('strike', { modes: [mode(20, 1), mode(12, 2)] }),
      task('dry', { modes: [mode(30, 0)], after: [0] }),
      task('set', { after: [1] }),
    ]
    expect(lowerBoundTicks(aTurn({ activities }), 0)).toEqual(criticalPath(52))
  })

  test('waits until enough hands are on duty together for the whole task', () => {
    const lanes = [
      lane('ada', { available: [{ from: 0, to: 50 }] }),
      lane('ben', {
        available: [
          { from: 45, to: 60 },
          { from: 80, to: 200 },
        ],
      }),
      lane('cem', { available: [{ from: 90, to: 200 }] }),
    ]
    const activities = [task('lift', { modes: [mode(10, 2)] })]
    expect(lowerBoundTicks(aTurn({ activities, lanes }), 0)).toEqual(criticalPath(100))
  })

  test('leaves out what standing plans hold, and the walk from there', () => {
    const lanes = [lane('ada', { busy: [{ from: 5, to: 40, place: 1 }] })]
    expect(lowerBoundTicks(aTurn({ activities: [task('set')], lanes }), 0)).toEqual(criticalPath(53))
  })

  test('counts a roundabout walk where the table of walks makes that the shorter one', () => {
    const lanes = [lane('ada', { busy: [{ from: 0, to: 10, place: 1 }] })]
    const walkTicks = [
      [0, 50, 2],
      [50, 0, 2],
      [2, 2, 0],
    ]
    expect(lowerBoundTicks(aTurn({ activities: [task('set')], lanes, walkTicks }), 0)).toEqual(
      criticalPath(24),
    )
  })

  test('is later when all work together needs more hand-ticks than there are', () => {
    const activities = ['a', 'b', 'c', 'd', 'e'].map((key) => task(key))
    expect(lowerBoundTicks(aTurn({ activities }), 0)).toEqual(energy(25))
  })

  test('counts for that the hand-ticks that are left over by duty and standing plans', () => {
    const activities = ['a', 'b', 'c', 'd', 'e'].map((key) => task(key))
    const lanes = [
      lane('ada', { busy: [{ from: 10, to: 20, place: 0 }] }),
      lane('ben', { available: [{ from: 5, to: 400 }] }),
    ]
    // 5 of ada alone, 10 of both, 10 of ben alone, then both: 5 + 10 + 10 of 50 at tick 20, 25 more take 13.
    expect(lowerBoundTicks(aTurn({ activities, lanes }), 0)).toEqual(energy(33))
  })

  test('counts only hands with the skill for work that asks for it', () => {
    const lanes = [lane('ada', { skillMask: 1 }), lane('ben'), lane('cem')]
    const rigging = { durationTicks: 10, hands: hands(1, 1), uses: [] }
    const activities = [task('left', { modes: [rigging] }), task('right', { modes: [rigging] })]
    expect(lowerBoundTicks(aTurn({ activities, lanes }), 0)).toEqual(energy(20))
  })

  test('counts tools that several tasks want', () => {
    const withTrolley = mode(10, 1, [{ resource: 0, amount: 1 }])
    const activities = [task('left', { modes: [withTrolley] }), task('right', { modes: [withTrolley] })]
    expect(lowerBoundTicks(aTurn({ activities, resources: [resource('trolley', 1)] }), 0)).toEqual(energy(20))
  })

  test('adds what comes before and after the work that all share', () => {
    const middle = ['a', 'b', 'c', 'd'].map((key) => task(key, { after: [0] }))
    const activities = [
      task('briefing', { modes: [mode(6, 2)] }),
      ...middle,
      task('sign-off', { modes: [mode(4, 1)], after: [1, 2, 3, 4] }),
    ]
    expect(lowerBoundTicks(aTurn({ activities }), 0)).toEqual(energy(30))
  })

  test('waits for a tool that comes later', () => {
    const lift = { key: 'lift', capacity: [{ fromTick: 100, amount: 1 }] }
    const activities = [task('decks', { modes: [mode(10, 1, [{ resource: 0, amount: 1 }])] })]
    expect(lowerBoundTicks(aTurn({ activities, resources: [lift] }), 0)).toEqual(criticalPath(110))
  })

  test('is that of the turn asked for; work of another turn counts only if it must be waited for', () => {
    const instance = aTurn({
      turns: [turn(), turn({ releaseTick: 5 })],
      activities: [
        task('first'),
        task('second', { turn: 1, after: [0] }),
        task('third', { turn: 0, modes: [mode(90)] }),
      ],
    })
    expect(lowerBoundTicks(instance, 0)).toEqual(criticalPath(90))
    expect(lowerBoundTicks(instance, 1)).toEqual(criticalPath(20))
  })
})

describe('a turn that can never be ready', () => {
  const impossible = (instance: TurnInstance) => {
    const bound = lowerBoundTicks(instance, 0)
    expect(bound.readyTick).toBeNull()
    expect(bound.kind).toBe('impossible')
    return bound.impossible
  }
  const skilled = { durationTicks: 10, hands: hands(1, 2), uses: [] }

  test('lacks a skill nobody has', () => {
    const activities = [
      task('strike'),
      task('focus', { modes: [skilled], after: [0] }),
      task('set', { after: [1] }),
    ]
    expect(impossible(aTurn({ activities }))).toEqual({
      kind: 'skill',
      skillMask: 2,
      handsNeeded: 1,
      handsMost: 0,
      activity: 1,
    })
  })

  test('lacks a skill for long enough when who has it is never free for so long', () => {
    const lanes = [
      lane('ada', {
        skillMask: 2,
        available: [
          { from: 0, to: 9 },
          { from: 20, to: 29 },
        ],
      }),
      lane('ben'),
    ]
    expect(impossible(aTurn({ activities: [task('focus', { modes: [skilled] })], lanes }))).toMatchObject({
      kind: 'skill',
      skillMask: 2,
      handsMost: 0,
    })
  })

  test('names the one skill that is missing where a task asks for two', () => {
    const lanes = [lane('ada', { skillMask: 1 }), lane('ben', { skillMask: 1 })]
    const both = { durationTicks: 10, hands: [...hands(1, 1), ...hands(1, 4)], uses: [] }
    expect(impossible(aTurn({ activities: [task('lift', { modes: [both] })], lanes }))).toMatchObject({
      kind: 'skill',
      skillMask: 4,
    })
  })

  test('lacks hands: three at once are needed, never more than two are there', () => {
    const lanes = [
      lane('ada'),
      lane('ben', { available: [{ from: 0, to: 50 }] }),
      lane('cem', { available: [{ from: 50, to: 99 }] }),
    ]
    const activities = [task('lift', { modes: [mode(10, 4), mode(20, 3)] })]
    expect(impossible(aTurn({ activities, lanes }))).toEqual({
      kind: 'hands',
      skillMask: 0,
      handsNeeded: 3,
      handsMost: 2,
      activity: 0,
    })
  })

  test('lacks hands when there are none at all', () => {
    expect(impossible(aTurn({ activities: [task('set')], lanes: [] }))).toMatchObject({
      kind: 'hands',
      handsNeeded: 1,
      handsMost: 0,
    })
  })

  test('has a task that is longer than any stretch of duty', () => {
    const lanes = [
      lane('ada', {
        available: [
          { from: 0, to: 30 },
          { from: 31, to: 60 },
        ],
      }),
    ]
    expect(impossible(aTurn({ activities: [task('wax', { modes: [mode(31)] })], lanes }))).toMatchObject({
      kind: 'hands',
      handsNeeded: 1,
      handsMost: 0,
    })
  })

  test('lacks a tool', () => {
    const activities = [task('decks', { modes: [mode(10, 1, [{ resource: 0, amount: 2 }])] })]
    expect(impossible(aTurn({ activities, resources: [resource('trolley', 1)] }))).toMatchObject({
      kind: 'resource',
      activity: 0,
    })
  })

  test('has too long a chain of tasks: then there are hands enough, only not the time', () => {
    const activities = [
      task('strike', { modes: [mode(600)] }),
      task('set', { modes: [mode(600)], after: [0] }),
    ]
    expect(impossible(aTurn({ activities }))).toMatchObject({ kind: 'hands', handsNeeded: 1, activity: 1 })
  })

  test('has more work than there are hand-ticks, though each task could be done', () => {
    const activities = ['a', 'b', 'c'].map((key, index) => task(key, { modes: [mode(700 + index)] }))
    expect(impossible(aTurn({ activities }))).toEqual({
      kind: 'hands',
      skillMask: 0,
      handsNeeded: 3,
      handsMost: 2,
      activity: 2,
    })
  })
})
