import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { asLateAs } from '../../../src/scheduler/turn/as-late-as.ts'
import { type ChainStep, criticalChain } from '../../../src/scheduler/turn/critical-chain/critical-chain.ts'
import type { Schedule, ScheduledActivity, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
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

const planned = (
  activity: number,
  startTick: number,
  endTick: number,
  lanes: readonly number[],
): ScheduledActivity => ({ activity, mode: 0, startTick, endTick, lanes })

/** A schedule written by hand; it must hold. */
function aSchedule(instance: TurnInstance, activities: readonly ScheduledActivity[]): Schedule {
  const readyTicks = instance.turns.map(({ releaseTick }, index) =>
    activities.reduce(
      (ready, { activity, endTick }) =>
        instance.activities[activity]!.turn === index ? Math.max(ready, endTick) : ready,
      releaseTick,
    ),
  )
  const schedule = { activities, readyTicks }
  expect(scheduleFaults(instance, schedule)).toEqual([])
  return schedule
}

function solved(instance: TurnInstance): Schedule {
  const { schedule } = solve(instance, { workMost: 20, seed: 1 })
  if (!schedule) throw new Error('no plan')
  return schedule
}

/** Each step as `what: why`. */
function chainOf(instance: TurnInstance, schedule: Schedule = solved(instance), turnIndex = 0): string[] {
  const keyOf = (activity: number | null) =>
    activity === null ? 'nobody here' : instance.activities[activity]!.key
  const why = ({ binds }: ChainStep): string => {
    switch (binds.kind) {
      case 'after':
        return `after ${keyOf(binds.activity)}`
      case 'lane':
        return `${instance.lanes[binds.lane]!.key} did ${keyOf(binds.activity)}`
      case 'lane-held':
        return `${instance.lanes[binds.lane]!.key} was held`
      case 'duty':
        return `${instance.lanes[binds.lane]!.key} came on duty`
      case 'resource':
        return `${instance.resources[binds.resource]!.key} taken by ${keyOf(binds.activity)}`
      case 'skill':
        return `skills ${binds.skillMask} at ${keyOf(binds.activity)}`
      default:
        return binds.kind
    }
  }
  return criticalChain(instance, schedule, turnIndex).map((step) => `${keyOf(step.activity)}: ${why(step)}`)
}

describe('what explains when a turn is ready', () => {
  test('is nothing when there is nothing to do', () => {
    expect(chainOf(aTurn())).toEqual([])
  })

  test('is the chain of tasks that wait for each other', () => {
    const activities = [
      task('strike', { modes: [mode(20)] }),
      task('bins'),
      task('dry', { modes: [mode(30, 0)], after: [0] }),
      task('set', { after: [1, 2] }),
    ]
    expect(chainOf(aTurn({ activities }))).toEqual(['strike: release', 'dry: after strike', 'set: after dry'])
  })

  test('goes through a hand that was elsewhere before, and had to walk', () => {
    const activities = [task('here', { modes: [mode(20)] }), task('there', { place: 1 })]
    expect(chainOf(aTurn({ activities, lanes: [lane('ada')] }))).toEqual([
      'here: release',
      'there: ada did here',
    ])
  })

  test('goes through a tool that was in use', () => {
    const withTrolley = (ticks: number) => [mode(ticks, 0, [{ resource: 0, amount: 1 }])]
    const activities = [
      task('tables', { modes: withTrolley(20) }),
      task('chairs', { modes: withTrolley(30) }),
    ]
    expect(chainOf(aTurn({ activities, resources: [resource('trolley', 1)] }))).toEqual([
      'tables: release',
      'chairs: trolley taken by tables',
    ])
  })

  test('does not go through a tool of which there was enough', () => {
    const withTrolley = (ticks: number, handsCount: number) => [
      mode(ticks, handsCount, [{ resource: 0, amount: 1 }]),
    ]
    const activities = [
      task('tables', { modes: withTrolley(20, 0) }),
      task('cloths', { modes: [mode(20, 2)] }),
      task('chairs', { modes: withTrolley(30, 1) }),
    ]
    const instance = aTurn({ activities, resources: [resource('trolley', 2)] })
    const schedule = aSchedule(instance, [
      planned(0, 0, 20, []),
      planned(1, 0, 20, [0, 1]),
      planned(2, 20, 50, [0]),
    ])
    expect(chainOf(instance, schedule)).toEqual(['cloths: release', 'chairs: ada did cloths'])
  })

  test('goes through the tool and not through the hand, where other hands were free', () => {
    const withTrolley = [mode(20, 1, [{ resource: 0, amount: 1 }])]
    const activities = [
      task('tables', { modes: withTrolley }),
      task('bins', { modes: [mode(20)] }),
      task('chairs', { modes: withTrolley }),
    ]
    const lanes = [lane('ada'), lane('ben'), lane('cy')]
    const instance = aTurn({ activities, lanes, resources: [resource('trolley', 1)] })
    const schedule = aSchedule(instance, [
      planned(0, 0, 20, [0]),
      planned(1, 0, 20, [1]),
      planned(2, 20, 40, [1]),
    ])
    expect(chainOf(instance, schedule)).toEqual(['tables: release', 'chairs: trolley taken by tables'])
  })

  test('begins where a tool comes back that a plan that stands had', () => {
    const capacity = [
      { fromTick: 0, amount: 0 },
      { fromTick: 25, amount: 1 },
    ]
    const activities = [task('tables', { modes: [mode(10, 1, [{ resource: 0, amount: 1 }])] })]
    expect(chainOf(aTurn({ activities, resources: [{ key: 'trolley', capacity }] }))).toEqual([
      'tables: trolley taken by nobody here',
    ])
  })

  test('begins where hands come on duty', () => {
    const available = [
      { from: 0, to: 15 },
      { from: 200, to: 300 },
    ]
    const activities = [task('strike'), task('set', { after: [0] })]
    expect(chainOf(aTurn({ activities, lanes: [lane('ada', { available })] }))).toEqual([
      'set: ada came on duty',
    ])
  })

  test('begins where a plan that stands sets a hand free, who then has to walk', () => {
    const busy = [{ from: 0, to: 40, place: 1 }]
    expect(chainOf(aTurn({ activities: [task('set')], lanes: [lane('ada', { busy })] }))).toEqual([
      'set: ada was held',
    ])
  })

  test('goes through the only one with the skill, when all others were free', () => {
    const skilled = (ticks: number) => [{ durationTicks: ticks, hands: hands(1, 2), uses: [] }]
    const activities = [task('screen', { modes: skilled(20) }), task('sound', { modes: skilled(10) })]
    const lanes = [lane('ada', { skillMask: 3 }), lane('ben', { skillMask: 1 })]
    expect(chainOf(aTurn({ activities, lanes }))).toEqual(['screen: release', 'sound: skills 2 at screen'])
  })

  test('goes through a hand and not through its skill, when nobody else was free', () => {
    const skilled = [{ durationTicks: 10, hands: hands(1, 2), uses: [] }]
    const activities = [task('bins', { modes: [mode(20, 2)] }), task('sound', { modes: skilled })]
    const lanes = [lane('ada', { skillMask: 2 }), lane('ben')]
    const instance = aTurn({ activities, lanes })
    const schedule = aSchedule(instance, [planned(0, 0, 20, [0, 1]), planned(1, 20, 30, [0])])
    expect(chainOf(instance, schedule)).toEqual(['bins: release', 'sound: ada did bins'])
  })

  test('names the one skill that was missing, where more are asked for', () => {
    const both = [{ durationTicks: 10, hands: hands(1, 3), uses: [] }]
    const activities = [task('sound', { modes: both })]
    const lanes = [
      lane('ada', { skillMask: 3, available: [{ from: 30, to: 100 }] }),
      lane('ben', { skillMask: 1 }),
    ]
    expect(chainOf(aTurn({ activities, lanes }))).toEqual(['sound: skills 2 at nobody here'])
  })

  test('is the choice of the plan, where another hand could have gone on', () => {
    const instance = aTurn({ activities: [task('tables'), task('cloths')] })
    const schedule = aSchedule(instance, [planned(0, 0, 10, [0]), planned(1, 10, 20, [0])])
    expect(chainOf(instance, schedule)).toEqual(['tables: release', 'cloths: ada did tables'])
  })

  test('is nothing at all for work that waits until just in time', () => {
    const instance = aTurn({ activities: [task('tables'), task('cloths', { after: [0] })] })
    const schedule = aSchedule(instance, [planned(0, 500, 510, [0]), planned(1, 510, 520, [0])])
    expect(chainOf(instance, schedule)).toEqual(['tables: none', 'cloths: after tables'])
  })

  test('begins with a duty at the event, which is where it has to be', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(30, 20)],
      activities: [task('set'), duty('desk', 1, { modes: [mode(20)] })],
      lanes: [lane('ada', { available: [{ from: 25, to: 100 }] })],
    })
    expect(chainOf(instance)).toEqual(['desk: release', 'set: ada did desk'])
    expect(chainOf(instance, solved(instance), 1)).toEqual(['desk: release'])
  })

  test('waits for who costs nothing, once what is paid for is used up', () => {
    const instance = aTurn({
      activities: [task('tables'), task('cloths')],
      lanes: [lane('ada'), lane('ben', { budget: 0 })],
      budgets: [{ key: 'paid', laneTicksMost: 5 }],
    })
    expect(chainOf(instance)).toEqual(['tables: release', 'cloths: ada did tables'])
  })

  test('goes through the hand and not through the tool, where nobody else could have come or been paid', () => {
    const withTrolley = [mode(20, 1, [{ resource: 0, amount: 1 }])]
    const activities = [
      task('tables', { modes: withTrolley }),
      task('bins', { place: 1, modes: [mode(18)] }),
      task('chairs', { modes: withTrolley }),
    ]
    const chainWith = (parts: Partial<TurnInstance>) => {
      const instance = aTurn({ activities, resources: [resource('trolley', 1)], ...parts })
      const schedule = aSchedule(instance, [
        planned(0, 0, 20, [0]),
        planned(1, 0, 18, [1]),
        planned(2, 20, 40, [0]),
      ])
      return chainOf(instance, schedule)
    }
    const byHand = ['tables: release', 'chairs: ada did tables']
    const byTool = ['tables: release', 'chairs: trolley taken by tables']
    // Ben is free at 18 and 3 ticks away.
    expect(chainWith({})).toEqual(byHand)
    const near = [
      [0, 1],
      [1, 0],
    ]
    expect(chainWith({ walkTicks: near })).toEqual(byTool)
    const lanes = [lane('ada'), lane('ben', { budget: 0 })]
    const paidFor = (laneTicksMost: number) => [{ key: 'paid', laneTicksMost }]
    expect(chainWith({ walkTicks: near, lanes, budgets: paidFor(37) })).toEqual(byHand)
    expect(chainWith({ walkTicks: near, lanes, budgets: paidFor(38) })).toEqual(byTool)
  })

  test('is told of each turn by itself', () => {
    const instance = aTurn({
      turns: [turn(), turn({ releaseTick: 40 })],
      activities: [task('first'), task('second', { turn: 1 })],
    })
    expect(chainOf(instance, solved(instance), 0)).toEqual(['first: release'])
    expect(chainOf(instance, solved(instance), 1)).toEqual(['second: release'])
  })
})

/** The same schedule with one activity a tick earlier. */
function earlier(instance: TurnInstance, schedule: Schedule, activity: number): Schedule {
  const activities = schedule.activities.map((one) =>
    one.activity === activity ? { ...one, startTick: one.startTick - 1, endTick: one.endTick - 1 } : one,
  )
  const readyTicks = instance.turns.map(({ releaseTick }, index) =>
    activities.reduce(
      (ready, one) =>
        instance.activities[one.activity]!.turn === index ? Math.max(ready, one.endTick) : ready,
      releaseTick,
    ),
  )
  return { activities, readyTicks }
}

describe('the chain of any turn', () => {
  const instances = withPinnedAndPaid(smallInstance(6))
  const eachChain = (
    from: fc.Arbitrary<TurnInstance>,
    check: (instance: TurnInstance, schedule: Schedule, chain: ChainStep[], turnIndex: number) => void,
  ) => {
    let chains = 0
    fc.assert(
      fc.property(from, (instance) => {
        const { schedule } = solve(instance, { workMost: 20, seed: 1 })
        for (const turnIndex of schedule?.readyTicks.keys() ?? []) {
          chains += 1
          check(instance, schedule!, criticalChain(instance, schedule!, turnIndex), turnIndex)
        }
      }),
      { seed: 20261125, numRuns: 200 },
    )
    expect(chains).toBeGreaterThan(100)
  }

  test('ends with the task that ends last, in order of time and without gaps but for walks', () => {
    eachChain(instances, (instance, schedule, chain, turnIndex) => {
      const steps = chain.map(({ activity }) => schedule.activities[activity]!)
      const hasWork = instance.activities.some((activity) => activity.turn === turnIndex)
      expect(steps.at(-1)?.endTick).toBe(hasWork ? schedule.readyTicks[turnIndex] : undefined)
      for (const [position, step] of steps.entries()) {
        const before = steps[position - 1]
        if (!before) continue
        const { binds } = chain[position]!
        expect('activity' in binds && binds.activity).toBe(before.activity)
        const places = [before, step].map(({ activity }) => instance.activities[activity]!.place)
        const walk = instance.walkTicks[places[0]!]![places[1]!]!
        const isHand = binds.kind === 'lane' || binds.kind === 'skill'
        expect(step.startTick - before.endTick).toBe(isHand ? walk : 0)
      }
    })
  })

  test('begins with something that is no task: the release, hands, things, or nothing', () => {
    eachChain(instances, (instance, schedule, chain) => {
      const first = chain[0]
      if (!first) return
      expect('activity' in first.binds ? first.binds.activity : null).toBeNull()
      const { turn: turnIndex } = instance.activities[first.activity]!
      if (first.binds.kind !== 'release') return
      expect(schedule.activities[first.activity]!.startTick).toBe(instance.turns[turnIndex]!.releaseTick)
    })
  })

  test('says of a task that nothing binds it exactly when it could be a tick earlier', () => {
    let notBound = 0
    eachChain(instances, (instance, { readyTicks }, _chain, turnIndex) => {
      const { schedule } = solve(instance, { workMost: 1, seed: 1 })
      const wanted = readyTicks.map((tick) => tick + 4)
      for (const made of [schedule, schedule && asLateAs(instance, schedule, wanted)]) {
        if (!made) continue
        for (const { activity, binds } of criticalChain(instance, made, turnIndex)) {
          const faults = scheduleFaults(instance, earlier(instance, made, activity))
          expect(binds.kind === 'none').toBe(faults.length === 0)
          if (binds.kind === 'none') notBound += 1
        }
      }
    })
    expect(notBound).toBeGreaterThan(20)
  })

  test('finds what binds every task of a plan that is as early as can be', () => {
    eachChain(withShortWalks(smallInstance(6)), (_instance, _schedule, chain) => {
      expect(chain.filter(({ binds }) => binds.kind === 'none')).toEqual([])
    })
  })

  test('names a skill only where hands without it were free', () => {
    let named = 0
    eachChain(instances, (instance, schedule, chain) => {
      for (const { activity, binds } of chain) {
        if (binds.kind !== 'skill') continue
        named += 1
        // With that skill in every hand the task could be a tick earlier, as far as hands go.
        const lanes = instance.lanes.map((one) => ({ ...one, skillMask: one.skillMask | binds.skillMask }))
        const { startTick, endTick, lanes: own } = schedule.activities[activity]!
        const free = lanes.flatMap((_, index) => {
          const others = schedule.activities.filter(
            (one) => one.activity !== activity && one.lanes.includes(index),
          )
          const isFree = others.every((one) => one.endTick < startTick || one.startTick >= endTick - 1)
          return isFree ? [index] : []
        })
        expect(free.length).toBeGreaterThanOrEqual(own.length)
        expect(own.some((index) => (instance.lanes[index]!.skillMask & binds.skillMask) !== 0)).toBe(true)
      }
    })
    expect(named).toBeGreaterThan(0)
  })
})
