import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { taskNetwork } from '../../../../src/scheduler/network/index.ts'
import { carriedPlan, readyTicksMostFor } from '../../../../src/scheduler/turn/carried/carried-plan.ts'
import type { Activity, Lane, Schedule, TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { TICK_SECONDS } from '../../../../src/scheduler/turn/instance.ts'
import { solve } from '../../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../../src/scheduler/turn/validate.ts'
import { banquetToWorship } from '../../network/golden-turns/banquet-to-worship.ts'
import { gamesToBanquet } from '../../network/golden-turns/games-to-banquet.ts'
import {
  aTurn,
  duty,
  dutyTurn,
  hands,
  lane,
  mode,
  smallInstance,
  task,
  turn,
  withPinnedAndPaid,
} from '../a-turn.ts'
import { instanceOfNetwork } from '../instance-of-network.ts'

/** Who does what from when: by activity `[start, lanes]`; lengths follow from the first modes. */
function aSchedule(instance: TurnInstance, work: readonly [number, readonly number[]][]): Schedule {
  const activities = work.map(([startTick, lanes], activity) => {
    const ticks = instance.activities[activity]!.modes[0]!.durationTicks
    return { activity, mode: 0, startTick, endTick: startTick + ticks, lanes }
  })
  const schedule = { activities, readyTicks: [Math.max(...activities.map(({ endTick }) => endTick))] }
  expect(scheduleFaults(instance, schedule)).toEqual([])
  return schedule
}

/** Counted anew from what the words mean: lane by lane, step by step. */
function countedByHand(instance: TurnInstance, { activities, readyTicks }: Schedule) {
  let stintsOver = 0
  let stintsMost = 0
  let changes = 0
  let zoneChanges = 0
  let partings = 0
  for (const laneIndex of instance.lanes.keys()) {
    const own = activities
      .filter(({ lanes }) => lanes.includes(laneIndex))
      .sort((a, b) => a.startTick - b.startTick || a.activity - b.activity)
    let stints = Math.min(own.length, 1)
    for (const [at, next] of own.slice(1).entries()) {
      const before = own[at]!
      const [was, is] = [instance.activities[before.activity]!, instance.activities[next.activity]!]
      if (was.group === undefined || was.group !== is.group) stints += 1
      else if (was.zone !== is.zone) zoneChanges += 1
      const company = before.lanes.filter((other) => other !== laneIndex)
      if (company.length > 0 && !company.some((other) => next.lanes.includes(other))) partings += 1
    }
    // The sixth counts once, the seventh twice, and so on.
    for (let count = 6; count <= stints; count++) stintsOver += count - 5
    stintsMost = Math.max(stintsMost, stints)
    changes += Math.max(0, stints - 1)
  }
  const weightedReady = instance.turns.reduce((sum, one, index) => sum + one.weight * readyTicks[index]!, 0)
  const personTicks = activities.reduce(
    (sum, one) => sum + one.lanes.length * (one.endTick - one.startTick),
    0,
  )
  const smoothness = { changes, zoneChanges, stintsMost, partings }
  return { smoothness, worth: [stintsOver, changes, zoneChanges, partings, weightedReady, personTicks] }
}

function isWorse(worth: readonly number[], than: readonly number[]): boolean {
  const at = worth.findIndex((value, index) => value !== than[index])
  return at >= 0 && worth[at]! > than[at]!
}

const kept = (schedule: Schedule) => ({ rounds: 0, seed: 1, readyTicksMost: schedule.readyTicks })

const smoothnessOf = (instance: TurnInstance, { schedule }: { readonly schedule: Schedule }) =>
  countedByHand(instance, schedule).smoothness

/** Who does each of the activities. */
const whoOf = ({ activities }: Schedule) => activities.map(({ lanes }) => [...lanes].sort())

describe('a plan for people may be ready later', () => {
  test('by two minutes, or by three in a hundred of the time it takes where that is more', () => {
    expect(TICK_SECONDS).toBe(30)
    expect(readyTicksMostFor(100, 100)).toBe(104)
    expect(readyTicksMostFor(266, 100)).toBe(270)
    expect(readyTicksMostFor(267, 100)).toBe(272)
    expect(readyTicksMostFor(400, 100)).toBe(409)
  })
})

describe('with all times kept, the plan people carry', () => {
  test('lets each go on with what they did', () => {
    const activities = [1, 2, 1, 2].map((group, index) => task(`lot ${index}`, { group }))
    const instance = aTurn({ activities })
    const schedule = aSchedule(instance, [
      [0, [0]],
      [0, [1]],
      [10, [1]],
      [10, [0]],
    ])
    const carried = carriedPlan(instance, schedule, kept(schedule))
    expect(whoOf(carried.schedule)).toEqual([[0], [1], [0], [1]])
    expect(smoothnessOf(instance, carried)).toEqual({
      changes: 0,
      zoneChanges: 0,
      stintsMost: 1,
      partings: 0,
    })
    expect(carried.workDone).toBe(0)
  })

  test('changes the zone within a task rather than the task, and seldom changes either', () => {
    const activities = [1, 2, 1, 2].map((zone, index) => task(`chairs ${index}`, { group: 1, zone }))
    const instance = aTurn({ activities })
    const crossed = aSchedule(instance, [
      [0, [0]],
      [0, [1]],
      [10, [1]],
      [10, [0]],
    ])
    expect(countedByHand(instance, crossed).smoothness).toMatchObject({ changes: 0, zoneChanges: 2 })
    expect(smoothnessOf(instance, carriedPlan(instance, crossed, kept(crossed))).zoneChanges).toBe(0)
    // Ada and Ben each with one kind in two zones, or each with two kinds in one zone.
    const kinds = [1, 2, 1, 2].map((group, index) => task(`lot ${index}`, { group, zone: index < 2 ? 1 : 2 }))
    const byZone = aTurn({ activities: kinds })
    const inZones = aSchedule(byZone, [
      [0, [0]],
      [10, [0]],
      [0, [1]],
      [10, [1]],
    ])
    expect(countedByHand(byZone, inZones).smoothness).toMatchObject({ changes: 2, zoneChanges: 0 })
    const carried = carriedPlan(byZone, inZones, { rounds: 1, seed: 1, readyTicksMost: [20] })
    expect(smoothnessOf(byZone, carried)).toMatchObject({ changes: 0, zoneChanges: 2, stintsMost: 1 })
  })

  test('leaves those together who worked together', () => {
    const activities = [1, 2, 3, 4].map((group, index) =>
      task(`lot ${index}`, { group, modes: [mode(10, 2)] }),
    )
    const lanes = ['ada', 'ben', 'cy', 'dee'].map((key) => lane(key))
    const instance = aTurn({ activities, lanes })
    const schedule = aSchedule(instance, [
      [0, [0, 1]],
      [0, [2, 3]],
      [10, [0, 2]],
      [10, [1, 3]],
    ])
    const carried = carriedPlan(instance, schedule, kept(schedule))
    expect(smoothnessOf(instance, carried)).toEqual({
      changes: 4,
      zoneChanges: 0,
      stintsMost: 2,
      partings: 0,
    })
    const [first, second, third, fourth] = whoOf(carried.schedule)
    expect([third, fourth].map(String).sort()).toEqual([first, second].map(String).sort())
  })

  test('counts no parting where four go on as two pairs, and two where a pair parts and both work on', () => {
    const activities = [
      task('decks', { modes: [mode(10, 4)] }),
      ...['a', 'b', 'c', 'd'].map((key) => task(key)),
    ]
    const pairs = [
      activities[0]!,
      task('left', { modes: [mode(10, 2)] }),
      task('right', { modes: [mode(10, 2)] }),
    ]
    const lanes = ['ada', 'ben', 'cy', 'dee'].map((key) => lane(key))
    const asPairs = aTurn({ activities: pairs, lanes })
    const inPairs = aSchedule(asPairs, [
      [0, [0, 1, 2, 3]],
      [10, [0, 1]],
      [10, [2, 3]],
    ])
    expect(smoothnessOf(asPairs, carriedPlan(asPairs, inPairs, kept(inPairs))).partings).toBe(0)
    const parting = aTurn({ activities: [task('decks', { modes: [mode(10, 2)] }), task('a'), task('b')] })
    const parted = aSchedule(parting, [
      [0, [0, 1]],
      [10, [0]],
      [10, [1]],
    ])
    expect(smoothnessOf(parting, carriedPlan(parting, parted, kept(parted))).partings).toBe(2)
  })

  test('gives nobody more than five tasks, where somebody else is free', () => {
    const activities = [1, 2, 3, 4, 5, 6, 7].map((group) => task(`lot ${group}`, { group }))
    const instance = aTurn({ activities })
    const schedule = aSchedule(
      instance,
      activities.map((_, index) => [10 * index, [0]]),
    )
    const smoothness = smoothnessOf(instance, carriedPlan(instance, schedule, kept(schedule)))
    expect(smoothness.stintsMost).toBeLessThanOrEqual(5)
    expect(smoothness.changes).toBe(5)
  })

  test('gives nobody what they have not the skill for', () => {
    const sound = [{ durationTicks: 10, hands: hands(1, 1), uses: [] }]
    const activities = [
      task('tables', { group: 1 }),
      task('sound', { group: 2, modes: sound }),
      task('more tables', { group: 1, modes: sound }),
      task('lights', { group: 2 }),
    ]
    const instance = aTurn({ activities, lanes: [lane('ada'), lane('ben', { skillMask: 1 })] })
    const schedule = aSchedule(instance, [
      [0, [0]],
      [0, [1]],
      [10, [1]],
      [10, [0]],
    ])
    expect(carriedPlan(instance, schedule, kept(schedule)).schedule).toEqual(schedule)
  })

  test('gives nobody what they are off duty for, held elsewhere, too far away, or paid too long', () => {
    const activities = [1, 2, 1, 2].map((group, index) =>
      task(`lot ${index}`, { group, place: index < 2 ? 0 : 1 }),
    )
    const crossed: [number, number[]][] = [
      [0, [0]],
      [0, [1]],
      [13, [1]],
      [13, [0]],
    ]
    // Only Ben can do lot 1, and lot 2 ends later than all others: what counts is whether Ada can do that.
    activities[1] = { ...activities[1]!, modes: [{ durationTicks: 10, hands: hands(1, 1), uses: [] }] }
    activities[2] = { ...activities[2]!, modes: [mode(20)] }
    const lanesOf = (ada: Partial<Lane>) => [lane('ada', ada), lane('ben', { skillMask: 1 })]
    const free = aTurn({ activities, lanes: lanesOf({}) })
    const schedule = aSchedule(free, crossed)
    expect(whoOf(carriedPlan(free, schedule, kept(schedule)).schedule)).toEqual([[0], [1], [0], [1]])
    const cases: Partial<TurnInstance>[] = [
      { lanes: lanesOf({ available: [{ from: 0, to: 25 }] }) },
      { lanes: lanesOf({ busy: [{ from: 30, to: 50, place: 1 }] }) },
      { lanes: lanesOf({ busy: [{ from: 34, to: 50, place: 0 }] }) },
      { lanes: lanesOf({ budget: 0 }), budgets: [{ key: 'paid', laneTicksMost: 25 }] },
    ]
    for (const parts of cases) {
      const instance = aTurn({ activities, ...parts })
      expect(carriedPlan(instance, aSchedule(instance, crossed), kept(schedule)).schedule).toEqual(schedule)
    }
  })
})

describe('with other schedules tried, the plan people carry', () => {
  const fourAndTwo = aTurn({
    activities: [1, 1, 1, 1, 2, 2].map((group, index) => task(`lot ${index}`, { group })),
  })
  const balanced = aSchedule(fourAndTwo, [
    [0, [0]],
    [10, [0]],
    [20, [0]],
    [20, [1]],
    [0, [1]],
    [10, [1]],
  ])

  test('takes one task after the other of the same kind, where that costs no time', () => {
    const instance = aTurn({
      activities: [1, 2, 1, 2].map((group, index) => task(`lot ${index}`, { group })),
      lanes: [lane('ada')],
    })
    const schedule = aSchedule(
      instance,
      [0, 10, 20, 30].map((tick) => [tick, [0]]),
    )
    const carried = carriedPlan(instance, schedule, { rounds: 1, seed: 1, readyTicksMost: [40] })
    expect(smoothnessOf(instance, carried)).toEqual({
      changes: 1,
      zoneChanges: 0,
      stintsMost: 2,
      partings: 0,
    })
    expect(carried.schedule.readyTicks).toEqual([40])
    expect(carried.workDone).toBe(480)
  })

  test('is later where it may be, and no later than it may be', () => {
    const within = (tick: number) => {
      const { schedule } = carriedPlan(fourAndTwo, balanced, {
        rounds: 1,
        seed: 1,
        readyTicksMost: [tick],
      })
      return [schedule.readyTicks[0], countedByHand(fourAndTwo, schedule).smoothness.changes]
    }
    expect(within(30)).toEqual([30, 1])
    expect(within(39)).toEqual([30, 1])
    expect(within(40)).toEqual([40, 0])
  })

  test('is looked for beside a duty as beside anything else that holds its people', () => {
    const work = Array.from({ length: 12 }, (_, index) =>
      task(`lot ${index}`, { group: index % 4, modes: [mode(10), mode(5, 2)] }),
    )
    const crew = ['ada', 'ben', 'cy', 'dee']
    const busy = [{ from: 0, to: 40, place: 0 }]
    const held = aTurn({
      turns: [turn({ dueTick: 90 })],
      activities: work,
      lanes: crew.map((key, index) => lane(key, index < 2 ? { busy } : {})),
    })
    const onDuty = aTurn({
      turns: [turn({ dueTick: 90 }), dutyTurn(0, 40)],
      activities: [...work, duty('desk', 1, { modes: [mode(40, 2)] })],
      lanes: crew.map((key) => lane(key)),
    })
    const carried = (instance: TurnInstance, given: Schedule) =>
      carriedPlan(instance, given, {
        rounds: 2,
        seed: 1,
        readyTicksMost: instance.turns.map(({ dueTick }) => dueTick),
      }).schedule.activities.slice(0, work.length)
    const { schedule } = solve(held, { workMost: 20, seed: 1 })
    if (!schedule) throw new Error('there is a plan')
    const desk = { activity: work.length, mode: 0, startTick: 0, endTick: 40, lanes: [0, 1] }
    const beside = {
      activities: [...schedule.activities, desk],
      readyTicks: [...schedule.readyTicks, 40],
    }
    expect(scheduleFaults(onDuty, beside)).toEqual([])
    const found = carried(held, schedule)
    expect(found).not.toEqual(schedule.activities)
    expect(carried(onDuty, beside)).toEqual(found)
  })

  test('is not asked to be sooner than the one it is made from', () => {
    const options = { rounds: 1, seed: 1, readyTicksMost: [12] }
    expect(carriedPlan(fourAndTwo, balanced, options).schedule.readyTicks).toEqual([30])
  })

  test('has two pairs do what four did together', () => {
    const modes = [mode(10, 4), mode(20, 2)]
    const instance = aTurn({
      activities: [1, 2].map((group) => task(`lot ${group}`, { group, modes })),
      lanes: ['ada', 'ben', 'cy', 'dee'].map((key) => lane(key)),
    })
    const together = aSchedule(instance, [
      [0, [0, 1, 2, 3]],
      [10, [0, 1, 2, 3]],
    ])
    const carried = carriedPlan(instance, together, { rounds: 1, seed: 1, readyTicksMost: [20] })
    expect(carried.schedule.activities.map(({ mode: chosen }) => chosen)).toEqual([1, 1])
    expect(smoothnessOf(instance, carried)).toEqual({
      changes: 0,
      zoneChanges: 0,
      stintsMost: 1,
      partings: 0,
    })
  })

  test('does nothing where there is nothing to do', () => {
    const instance = aTurn()
    const schedule = { activities: [], readyTicks: [0] }
    expect(carriedPlan(instance, schedule, { rounds: 2, seed: 1, readyTicksMost: [4] })).toEqual({
      schedule,
      workDone: 0,
    })
  })
})

describe('the plan people carry of any turn', () => {
  /** With groups of up to three kinds, and some activities that are like no other. */
  const instances = withPinnedAndPaid(smallInstance(6)).chain((instance) =>
    fc
      .array(fc.integer({ min: 0, max: 3 }), {
        minLength: instance.activities.length,
        maxLength: instance.activities.length,
      })
      .map((groups) => ({
        ...instance,
        activities: instance.activities.map((activity, index): Activity => {
          const group = groups[index]!
          return group === 0 ? activity : { ...activity, group, zone: index % 2 }
        }),
      })),
  )
  const cases = fc.record({
    instance: instances,
    seed: fc.integer({ min: 0, max: 5 }),
    rounds: fc.integer({ min: 0, max: 2 }),
    laterTicks: fc.integer({ min: 0, max: 4 }),
  })
  type Case = typeof cases extends fc.Arbitrary<infer Value> ? Value : never

  const each = (check: (one: Case, given: Schedule, carried: ReturnType<typeof carriedPlan>) => void) => {
    let plans = 0
    fc.assert(
      fc.property(cases, (one) => {
        const { schedule } = solve(one.instance, { workMost: 5, seed: 1 })
        if (!schedule) return
        plans += 1
        check(one, schedule, carried(one, schedule))
      }),
      { seed: 20261125, numRuns: 150 },
    )
    expect(plans).toBeGreaterThan(50)
  }
  const carried = ({ instance, seed, rounds, laterTicks }: Case, schedule: Schedule) =>
    carriedPlan(instance, schedule, {
      rounds,
      seed,
      readyTicksMost: schedule.readyTicks.map((tick) => tick + laterTicks),
    })

  test('can be carried out, and is ready by when it has to be', () => {
    each(({ instance, rounds, laterTicks }, given, { schedule, workDone }) => {
      expect(scheduleFaults(instance, schedule)).toEqual([])
      for (const [turnIndex, tick] of schedule.readyTicks.entries()) {
        expect(tick).toBeLessThanOrEqual(given.readyTicks[turnIndex]! + laterTicks)
      }
      expect(workDone).toBeLessThanOrEqual(120 * rounds * instance.activities.length)
    })
  })

  test('is never worse than the one it is made from', () => {
    let better = 0
    each(({ instance }, given, { schedule }) => {
      const { worth } = countedByHand(instance, schedule)
      const before = countedByHand(instance, given).worth
      expect(isWorse(worth, before)).toBe(false)
      if (isWorse(before, worth)) better += 1
    })
    expect(better).toBeGreaterThan(5)
  })

  test('keeps every time and every mode where nothing else is tried', () => {
    each((one, given) => {
      const { schedule } = carried({ ...one, rounds: 0 }, given)
      const times = ({ activities }: Schedule) => activities.map(({ lanes: _, ...rest }) => rest)
      expect(times(schedule)).toEqual(times(given))
    })
  })

  test('is the same for the same question', () => {
    each((one, given, found) => {
      expect(carried(structuredClone(one), structuredClone(given))).toEqual(found)
    })
  })

  test('is never worse for more rounds', () => {
    each((one, given, { schedule }) => {
      const more = carried({ ...one, rounds: one.rounds + 1 }, given).schedule
      const [worth, before] = [more, schedule].map((of) => countedByHand(one.instance, of).worth)
      expect(isWorse(worth!, before!)).toBe(false)
    })
  })
})

/** Of each golden turn: with so many hands, so many tasks each, and nobody more than so many. */
const golden = [
  { turn: gamesToBanquet, hands: 4, tasksEach: 7.5, tasksMost: 8 },
  { turn: gamesToBanquet, hands: 6, tasksEach: 7, tasksMost: 8 },
  // Three zones lie still for 20 minutes each while they dry: all hands go from one kind of work to the next.
  { turn: banquetToWorship, hands: 4, tasksEach: 12, tasksMost: 14 },
] as const

describe.each(golden)(
  'the plan that $hands people carry in the turn $turn.name',
  ({ turn, hands: count, ...most }) => {
    const instance = instanceOfNetwork(taskNetwork(turn.input), count)
    const { schedule: best } = solve(instance, { workMost: 100, seed: 1 })
    const readyTicksMost = [readyTicksMostFor(best!.readyTicks[0]!, 0)]
    const before = countedByHand(instance, best!).smoothness
    const { schedule } = carriedPlan(instance, best!, { rounds: 4, seed: 1, readyTicksMost })
    const { changes, stintsMost } = countedByHand(instance, schedule).smoothness

    test('holds, and is ready within two minutes or three in a hundred of the best', () => {
      expect(scheduleFaults(instance, schedule)).toEqual([])
      expect(schedule.readyTicks[0]).toBeLessThanOrEqual(readyTicksMost[0]!)
    })

    test('gives them few tasks, and fewer than the quickest plan', () => {
      const people = new Set(schedule.activities.flatMap(({ lanes }) => lanes)).size
      expect((changes + people) / people).toBeLessThanOrEqual(most.tasksEach)
      expect(stintsMost).toBeLessThanOrEqual(most.tasksMost)
      expect(changes).toBeLessThanOrEqual((before.changes * 3) / 4)
    })
  },
)
