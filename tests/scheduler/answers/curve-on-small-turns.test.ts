/** The curve of hands and the fewest of them, against trying everything, on random small turns. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { curvePoints } from '../../../src/scheduler/answers/curve-points.ts'
import { fewestHands } from '../../../src/scheduler/answers/fewest-hands.ts'
import { crewInOrder, instanceWithHands, peopleIn } from '../../../src/scheduler/answers/hands-in-order.ts'
import { skillMix } from '../../../src/scheduler/answers/skill-mix.ts'
import { scheduleFaults, solve, type TurnInstance } from '../../../src/scheduler/turn/index.ts'
import { aTurn, hands, lane, mode, task, turn } from '../turn/a-turn.ts'
import { shortestByExhaustion } from '../turn/shortest-by-exhaustion.ts'
import { aroundOf, oneTurn, search } from './an-instance-around.ts'

const HANDS_MOST = 4
const range = { from: 1, to: HANDS_MOST }

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

describe('the curve of hands of a small turn', () => {
  test('never rises, is never sooner than the best of all plans, and is no later than it but very seldom', () => {
    let points = 0
    let best = 0
    fc.assert(
      fc.property(oneTurn(4), (instance) => {
        const around = aroundOf(instance)
        const crew = crewInOrder(around)
        const found = curvePoints(around, null, crew, search(), range)
        let before = Number.POSITIVE_INFINITY
        for (const { hands: count, readyTick, boundTick } of found) {
          const soonest = soonestTick(instanceWithHands(around, crew, count))
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
    expect(best / points).toBeGreaterThan(0.99)
  })

  test('does not rise where more hands are searched less well: the plan of fewer is carried over', () => {
    const around = aroundOf(
      aTurn({
        activities: ['a', 'b', 'c', 'd'].map((key) => task(key)),
        lanes: ['p', 'q', 'r'].map((key) => lane(key)),
      }),
    )
    const crew = crewInOrder(around)
    // One that, where there are three, has one do everything.
    const clumsy = search(50, (instance, options) =>
      solve(
        instance.lanes.length === 3 ? { ...instance, lanes: instance.lanes.slice(0, 1) } : instance,
        options,
      ),
    )
    const points = curvePoints(around, null, crew, clumsy, { from: 1, to: 3 })
    expect(points.map(({ readyTick }) => readyTick)).toEqual([40, 20, 20])
  })

  test('does not look for a plan where the one carried over is proven best', () => {
    const around = aroundOf(aTurn({ activities: [task('a')], lanes: [lane('p'), lane('q')] }))
    const looking = search()
    const points = curvePoints(around, null, crewInOrder(around), looking, range)
    expect(points.map(({ readyTick }) => readyTick)).toEqual([10, 10, 10, 10])
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
    const points = curvePoints(around, schedule, crewInOrder(around), nothing, { from: 1, to: 3 })
    expect(points.map(({ readyTick }) => readyTick)).toEqual([null, 10, 10])
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
    expect(crewInOrder(around).map(({ laneId }) => laneId)).toEqual([
      'person_p0',
      'person_p2',
      'person_p1',
      'person_p3',
    ])
  })

  test('does not count who comes only after doors, and has them there in any case', () => {
    const around = aroundOf(
      aTurn({
        turns: [{ releaseTick: 0, dueTick: 20, weight: 1 }],
        activities: [task('a', { modes: [mode(10, 2)] })],
        lanes: [lane('p'), lane('late', { available: [{ from: 100, to: 200 }] })],
      }),
    )
    const crew = crewInOrder(around)
    expect(crew.map(({ laneId }) => laneId)).toEqual(['person_p0'])
    const points = curvePoints(around, null, crew, search(), { from: 1, to: 2 })
    expect(points.map(({ readyTick }) => readyTick)).toEqual([110, 10])
  })
})

describe('the fewest hands', () => {
  test('are the fewest by trying everything; where it is called proven, no fewer of anybody would do', () => {
    let proven = 0
    let asked = 0
    fc.assert(
      fc.property(oneTurn(4), fc.integer({ min: 2, max: 14 }), (instance, byTick) => {
        const around = aroundOf(instance)
        const crew = crewInOrder(around)
        const points = curvePoints(around, null, crew, search(), range)
        const fewest = fewestHands(around, crew, points, byTick)
        const byTrying = points
          .map(({ hands: count }) => count)
          .find((count) => {
            const soonest = soonestTick(instanceWithHands(around, crew, count))
            return soonest !== null && soonest <= byTick
          })
        expect(fewest.hands ?? undefined).toBe(byTrying)
        asked += 1
        if (fewest.proof !== 'bound') return
        proven += 1
        const fewer = fewest.hands === null ? HANDS_MOST : fewest.hands - 1
        const everybody = instanceWithHands(around, crew, crew.length + fewer).lanes
        for (const some of subsets(everybody, Math.min(fewer, everybody.length))) {
          const soonest = soonestTick({ ...instance, lanes: some })
          if (soonest !== null) expect(soonest).toBeGreaterThan(byTick)
        }
      }),
      { seed: 20261130, numRuns: 150 },
    )
    expect(asked).toBe(150)
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
    const crew = crewInOrder(around)
    const points = curvePoints(around, null, crew, search(), { from: 1, to: 3 })
    expect(points.map(({ readyTick, onTimeTick }) => [readyTick, onTimeTick])).toEqual([
      [30, null],
      [20, 20],
      [10, 10],
    ])
    expect(fewestHands(around, crew, points, 100)).toMatchObject({ hands: 2, proof: 'none-found' })
  })

  test('need no more of a skill than the work does', () => {
    const both = [{ durationTicks: 10, hands: [...hands(1, 1), ...hands(1, 4)], uses: [] }]
    const instance = aTurn({
      activities: [task('a', { modes: both }), task('b')],
      lanes: ['p', 'q', 'r'].map((key) => lane(key, { skillMask: 7 })),
    })
    const around = aroundOf(instance)
    const crew = crewInOrder(around)
    const three = instanceWithHands(around, crew, 3)
    const mix = skillMix(around, three, peopleIn(around, crew, 3), 10, search())
    expect(mix).toEqual({ skills: [{ skill: 'lift', hands: 1 }], adults: 1, isSearched: true })
  })

  test('need more of a skill where there is less time', () => {
    const instance = aTurn({
      activities: ['a', 'b'].map((key) => task(key, { modes: [{ ...mode(10), hands: hands(1, 1) }] })),
      lanes: ['p', 'q'].map((key) => lane(key, { skillMask: 1 })),
    })
    const around = aroundOf(instance)
    const crew = crewInOrder(around)
    const mixBy = (byTick: number) => skillMix(around, instance, peopleIn(around, crew, 2), byTick, search())
    expect(mixBy(10).skills).toEqual([{ skill: 'lift', hands: 2 }])
    expect(mixBy(20).skills).toEqual([{ skill: 'lift', hands: 1 }])
  })
})
