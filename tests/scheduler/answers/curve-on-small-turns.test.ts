/** The curve of hands and the fewest of them, against trying everything, on random small turns. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { BookingId, LaneId } from '../../../src/domain/ids.ts'
import { crewInOrder, windowUntil } from '../../../src/scheduler/answers/crew-members.ts'
import { curvePoints, firstHands, type PointFound } from '../../../src/scheduler/answers/curve-points.ts'
import { fewestHands } from '../../../src/scheduler/answers/fewest-hands.ts'
import { lanesByHand, withHands } from '../../../src/scheduler/answers/hands.ts'
import type { InstanceAround } from '../../../src/scheduler/answers/instance-around.ts'
import { skillMix } from '../../../src/scheduler/answers/skill-mix.ts'
import { type Schedule, scheduleFaults, solve, type TurnInstance } from '../../../src/scheduler/turn/index.ts'
import { aTurn, hands, lane, mode, task, turn } from '../turn/a-turn.ts'
import { shortestByExhaustion } from '../turn/shortest-by-exhaustion.ts'
import { aroundOf, oneTurn, search } from './an-instance-around.ts'

const HANDS_MOST = 4

/** null: no plan ends within the horizon. */
function soonestTick(instance: TurnInstance): number | null {
  const { best } = shortestByExhaustion(instance)
  return best && best.weightedReadyTicks / instance.turns[0]!.weight
}

function subsets<Item>(items: readonly Item[], count: number): Item[][] {
  if (count === 0) return [[]]
  return items.flatMap((item, index) =>
    subsets(items.slice(index + 1), count - 1).map((rest) => [item, ...rest]),
  )
}

/** The crew of the only turn, asked for until its doors. */
const windowOf = (around: InstanceAround, untilTick = around.built.instance.turns[0]?.dueTick ?? 0) =>
  windowUntil(around, untilTick)
const crewOf = (around: InstanceAround) => crewInOrder(around, windowOf(around))
const curveOf = (
  around: InstanceAround,
  to = HANDS_MOST,
  {
    known = [],
    looking = search(),
  }: { known?: readonly Schedule[]; looking?: ReturnType<typeof search> } = {},
): PointFound[] =>
  curvePoints(around, { crew: crewOf(around), window: windowOf(around), known, search: looking }, to)
const ticksOf = (points: readonly PointFound[]) => points.map(({ soonest }) => soonest?.readyTick ?? null)

/** Of every choice of so many, of the crew and added. */
function soonestOfAnyTick(around: InstanceAround, count: number): number | null {
  const crew = crewOf(around)
  const numbers = Array.from({ length: Math.min(count, crew.length) + 1 }, (_, index) => index)
  const choices = numbers.flatMap((ofCrew) => subsets(crew, ofCrew))
  const ticks = choices.map((people) => {
    const hands = { people, added: count - people.length }
    return soonestTick(withHands(around, hands, windowOf(around)).instance)
  })
  const known = ticks.filter((tick) => tick !== null)
  return known.length === 0 ? null : Math.min(...known)
}

describe('the curve of hands of a small turn', () => {
  test('never rises, is never sooner than the best of all plans, and is no later than it but very seldom', () => {
    let points = 0
    let best = 0
    fc.assert(
      fc.property(oneTurn(4), (instance) => {
        const around = aroundOf(instance)
        let before = Number.POSITIVE_INFINITY
        for (const { hands: count, soonest: found, boundTick } of curveOf(around)) {
          const soonest = soonestOfAnyTick(around, count)
          const readyTick = found?.readyTick ?? null
          expect(readyTick ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(before)
          before = readyTick ?? before
          if (boundTick === null) expect(soonest).toBeNull()
          if (soonest === null) expect(readyTick).toBeNull()
          else {
            points += 1
            if (readyTick === soonest) best += 1
            expect(boundTick).toBeLessThanOrEqual(soonest)
            if (readyTick !== null) expect(readyTick).toBeGreaterThanOrEqual(soonest)
          }
        }
      }),
      { seed: 20261130, numRuns: 150 },
    )
    expect(points).toBeGreaterThan(200)
    expect(best / points).toBeGreaterThan(0.98)
  })

  test('does not rise where more hands are searched less well: the plan of fewer is carried over', () => {
    const around = aroundOf(
      aTurn({
        activities: ['a', 'b', 'c', 'd'].map((key) => task(key)),
        lanes: ['p', 'q', 'r'].map((key) => lane(key)),
      }),
    )
    // One that, where there are three, has one do everything.
    const clumsy = search(50, (instance, options) =>
      solve(
        instance.lanes.length === 3 ? { ...instance, lanes: instance.lanes.slice(0, 1) } : instance,
        options,
      ),
    )
    expect(ticksOf(curveOf(around, 3, { looking: clumsy }))).toEqual([40, 20, 20])
  })

  test('does not look for a plan where the one carried over is proven best', () => {
    const around = aroundOf(aTurn({ activities: [task('a')], lanes: [lane('p'), lane('q')] }))
    const looking = search()
    expect(ticksOf(curveOf(around, HANDS_MOST, { looking }))).toEqual([10, 10, 10, 10])
    expect(looking.work().searches).toBe(1)
  })

  test('takes the stored plan from the number on with which all who work in it are there', () => {
    const instance = aTurn({
      activities: ['a', 'b'].map((key) => task(key)),
      lanes: ['p', 'q', 'r'].map((key) => lane(key)),
    })
    const { schedule } = solve(instance, { workMost: 50, seed: 1 })
    expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
    const around = aroundOf(instance)
    const nothing = search(1, (asked, options) => ({ ...solve(asked, options), schedule: null }))
    const known = schedule ? [schedule] : []
    expect(ticksOf(curveOf(around, 3, { known, looking: nothing }))).toEqual([null, 10, 10])
  })

  test('keeps who has a skill that nobody before has, then who is there for longest', () => {
    const both = mode(10, 2)
    const skilled = { ...both, hands: [...hands(1, 1), ...hands(1, 2)] }
    const around = aroundOf(
      aTurn({
        activities: [task('a', { modes: [skilled] })],
        lanes: [
          lane('p', { skillMask: 1 }),
          lane('q', { skillMask: 1 }),
          lane('r', { skillMask: 2, available: [{ from: 0, to: 500 }] }),
          lane('s'),
        ],
      }),
    )
    expect(crewOf(around).map(({ laneId }) => laneId)).toEqual([
      'person_p0',
      'person_p2',
      'person_p1',
      'person_p3',
    ])
  })

  test('counts who comes only after doors as it counts everybody: where they work, and not before', () => {
    const instance = aTurn({
      turns: [{ releaseTick: 0, dueTick: 20, weight: 1 }],
      activities: [task('a', { modes: [mode(10, 2)] })],
      lanes: [lane('p'), lane('late', { available: [{ from: 100, to: 200 }] })],
    })
    const around = aroundOf(instance)
    expect(crewOf(around).map(({ laneId }) => laneId)).toEqual(['person_p0'])
    // One of the crew, and one added.
    expect(ticksOf(curveOf(around, 2))).toEqual([null, 10])
    const { schedule } = solve(instance, { workMost: 50, seed: 1 })
    expect(schedule?.readyTicks).toEqual([110])
    const nothing = search(1, (asked, options) => ({ ...solve(asked, options), schedule: null }))
    const points = curveOf(around, 2, { known: schedule ? [schedule] : [], looking: nothing })
    expect(ticksOf(points)).toEqual([null, 110])
    expect(points[1]?.soonest?.hands.people.map(({ laneId }) => laneId)).toEqual(['person_p0', 'person_p1'])
  })

  test('finds that two others than the first in order do it sooner', () => {
    // The first two are there for longest, and one of them only when the other is not.
    const around = aroundOf(
      aTurn({
        turns: [{ releaseTick: 0, dueTick: 100, weight: 1 }],
        activities: [task('a', { modes: [mode(10, 2)] })],
        lanes: [
          lane('p', { available: [{ from: 10, to: 100 }] }),
          lane('q', { available: [{ from: 20, to: 100 }] }),
          lane('r', { available: [{ from: 0, to: 50 }] }),
          lane('s', { available: [{ from: 0, to: 50 }] }),
        ],
      }),
    )
    expect(crewOf(around).map(({ laneId }) => laneId)).toEqual([
      'person_p0',
      'person_p1',
      'person_p2',
      'person_p3',
    ])
    const points = curveOf(around)
    expect(ticksOf(points)).toEqual([null, 10, 10, 10])
    expect(points[1]?.soonest?.hands.people.map(({ laneId }) => laneId)).toEqual(['person_p2', 'person_p3'])
  })

  test('counts with those who work whoever must be there to lead those who help', () => {
    const instance = aTurn({
      activities: [task('a', { modes: [mode(10, 2)] })],
      lanes: [lane('p'), lane('h')],
    })
    const plain = aroundOf(instance)
    const bookingId = BookingId.parse('booking_group')
    const around: InstanceAround = {
      built: {
        ...plain.built,
        lanes: [plain.built.lanes[0]!, { laneId: LaneId.parse('booking_group#1'), crew: false }],
      },
      part: {
        ...plain.part,
        input: {
          asks: {
            helpers: [{ bookingId, hands: 1, fromAt: plain.built.originAt, toAt: plain.built.originAt }],
          },
        },
      },
    }
    const alone = { ...instance, activities: [task('a', { modes: [{ ...mode(10), hands: hands(1, 0) }] })] }
    const schedule: Schedule = {
      ...solve(alone, { workMost: 1, seed: 1 }).schedule!,
      activities: [{ activity: 0, startTick: 0, endTick: 10, mode: 0, lanes: [1] }],
    }
    const byHelper = { ...around, built: { ...around.built, instance: alone } }
    const nothing = search(1, (asked, options) => ({ ...solve(asked, options), schedule: null }))
    const points = curveOf(byHelper, 1, { known: [schedule], looking: nothing })
    expect(points[0]?.soonest?.hands.people.map(({ laneId }) => laneId)).toEqual(['person_p0'])
  })
})

describe('the fewest hands', () => {
  test('are the fewest by trying everything but seldom; proven, no fewer of anybody would do', () => {
    let proven = 0
    let asked = 0
    let missed = 0
    fc.assert(
      fc.property(oneTurn(4), fc.integer({ min: 2, max: 14 }), (drawn, byTick) => {
        const instance = { ...drawn, turns: [{ ...drawn.turns[0]!, dueTick: byTick }] }
        const around = aroundOf(instance)
        const crew = crewOf(around)
        const points = curveOf(around)
        const fewest = fewestHands(around, points, byTick)
        const byTrying = points
          .map(({ hands: count }) => count)
          .find((count) => {
            const soonest = soonestOfAnyTick(around, count)
            return soonest !== null && soonest <= byTick
          })
        expect(fewest.hands ?? HANDS_MOST + 1).toBeGreaterThanOrEqual(byTrying ?? HANDS_MOST + 1)
        if (fewest.hands !== (byTrying ?? null)) missed += 1
        asked += 1
        if (fewest.proof !== 'bound') return
        proven += 1
        const fewer = fewest.hands === null ? HANDS_MOST : fewest.hands - 1
        const all = firstHands(crew, crew.length + fewer)
        const everybody = withHands(around, all, windowOf(around)).instance.lanes
        for (const some of subsets(everybody, Math.min(fewer, everybody.length))) {
          const soonest = soonestTick({ ...instance, lanes: some })
          if (soonest !== null) expect(soonest).toBeGreaterThan(byTick)
        }
      }),
      { seed: 20261130, numRuns: 150 },
    )
    expect(asked).toBe(150)
    expect(missed).toBeLessThanOrEqual(1)
    expect(proven).toBeGreaterThan(50)
  })

  test('have to reach in time what was asked for earlier, too', () => {
    const instance = aTurn({
      turns: [turn(), turn({ dueTick: 10 })],
      activities: [task('chairs'), task('tables', { turn: 1 }), task('cloths', { turn: 1 })],
      lanes: ['p', 'q', 'r'].map((key) => lane(key)),
    })
    const plain = aroundOf(instance)
    const around = { ...plain, part: { ...plain.part, milestones: [{ turn: 1 }] } }
    const points = curveOf(around, 3)
    expect(
      points.map(({ soonest, onTime }) => [soonest?.readyTick ?? null, onTime?.readyTick ?? null]),
    ).toEqual([
      [30, null],
      [20, 20],
      [10, 10],
    ])
    expect(fewestHands(around, points, 100)).toMatchObject({ hands: 2, proof: 'none-found' })
  })

  test('need no more of a skill than the work does', () => {
    const both = [{ durationTicks: 10, hands: [...hands(1, 1), ...hands(1, 4)], uses: [] }]
    const instance = aTurn({
      activities: [task('a', { modes: both }), task('b')],
      lanes: ['p', 'q', 'r'].map((key) => lane(key, { skillMask: 7 })),
    })
    const around = aroundOf(instance)
    const three = firstHands(crewOf(around), 3)
    const { instance: withThree, owners } = withHands(around, three, windowOf(around))
    const mix = skillMix(
      around,
      withThree,
      lanesByHand(three, owners),
      { byTick: 10, readyTick: 10 },
      search(),
    )
    expect(mix).toMatchObject({ skills: [{ skill: 'lift', hands: 1 }], adults: 1, isSearched: true })
  })

  test('need more of a skill where there is less time', () => {
    const instance = aTurn({
      activities: ['a', 'b'].map((key) => task(key, { modes: [{ ...mode(10), hands: hands(1, 1) }] })),
      lanes: ['p', 'q'].map((key) => lane(key, { skillMask: 1 })),
    })
    const around = aroundOf(instance)
    const mixBy = (byTick: number) =>
      skillMix(around, instance, [[0], [1]], { byTick, readyTick: 10 }, search())
    expect(mixBy(10).skills).toEqual([{ skill: 'lift', hands: 2 }])
    expect(mixBy(20).skills).toEqual([{ skill: 'lift', hands: 1 }])
  })
})
