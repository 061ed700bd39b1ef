/** Just in time. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { asLateAs } from '../../../src/scheduler/turn/as-late-as.ts'
import type { Schedule, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { solve } from '../../../src/scheduler/turn/solve.ts'
import { scheduleFaults } from '../../../src/scheduler/turn/validate.ts'
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
  withShortWalks,
} from './a-turn.ts'

const evening = aTurn({
  activities: [
    task('strike', { modes: [mode(20, 1), mode(12, 2)] }),
    task('dry', { modes: [mode(30, 0)], after: [0] }),
    task('set', { after: [0] }),
  ],
})
const plan: Schedule = {
  activities: [
    { activity: 0, mode: 1, startTick: 0, endTick: 12, lanes: [0, 1] },
    { activity: 1, mode: 0, startTick: 12, endTick: 42, lanes: [] },
    { activity: 2, mode: 0, startTick: 12, endTick: 22, lanes: [1] },
  ],
  readyTicks: [42],
}

function late(instance: TurnInstance, schedule: Schedule, wanted: readonly number[]) {
  const result = asLateAs(instance, schedule, wanted)
  expect(result === null ? [] : scheduleFaults(instance, result)).toEqual([])
  return result?.activities.map(({ startTick, lanes }) => [
    startTick,
    ...lanes.map((index) => instance.lanes[index]?.key),
  ])
}

describe('a plan just in time', () => {
  test('ends when it is wanted, and begins everything as late as that allows, in the same modes', () => {
    expect(late(evening, plan, [100])).toEqual([[58, 'ada', 'ben'], [70], [90, 'ben']])
    expect(late(evening, plan, [42])).toEqual([[0, 'ada', 'ben'], [12], [32, 'ben']])
  })

  test('is ready earlier than planned if that can be, else there is none', () => {
    const later: Schedule = {
      activities: plan.activities.map((of) => ({
        ...of,
        startTick: of.startTick + 9,
        endTick: of.endTick + 9,
      })),
      readyTicks: [51],
    }
    expect(late(evening, later, [43])).toEqual([[1, 'ada', 'ben'], [13], [33, 'ben']])
    expect(late(evening, later, [41])).toBeUndefined()
    expect(late({ ...evening, turns: [turn({ releaseTick: 2 })] }, later, [43])).toBeUndefined()
  })

  test('is given to more hands where that lets the first of them come later', () => {
    const instance = aTurn({ activities: [task('left'), task('right')] })
    const byOne: Schedule = {
      activities: [
        { activity: 0, mode: 0, startTick: 0, endTick: 10, lanes: [0] },
        { activity: 1, mode: 0, startTick: 10, endTick: 20, lanes: [0] },
      ],
      readyTicks: [20],
    }
    expect(late(instance, byOne, [50])).toEqual([
      [40, 'ben'],
      [40, 'ada'],
    ])
    const chained = { ...instance, activities: [task('left'), task('right', { after: [0] })] }
    expect(late(chained, byOne, [50])).toEqual([
      [30, 'ada'],
      [40, 'ada'],
    ])
  })

  test('begins no turn earlier for another to begin later', () => {
    const sound = { durationTicks: 5, hands: hands(1, 1), uses: [] }
    const instance = aTurn({
      turns: [turn(), turn()],
      activities: [
        task('sound', { modes: [sound] }),
        task('decks', { turn: 1, modes: [mode(12)] }),
        task('steps', { turn: 1 }),
      ],
      lanes: [lane('ada'), lane('ben', { skillMask: 1 })],
    })
    const early: Schedule = {
      activities: [
        { activity: 0, mode: 0, startTick: 34, endTick: 39, lanes: [1] },
        { activity: 1, mode: 0, startTick: 28, endTick: 40, lanes: [0] },
        { activity: 2, mode: 0, startTick: 40, endTick: 50, lanes: [0] },
      ],
      readyTicks: [39, 50],
    }
    // Were the decks given to ben, they could begin at 38 instead of 28, and the sound at 33 instead of 34.
    expect(late(instance, early, [39, 50])).toEqual([
      [34, 'ben'],
      [28, 'ada'],
      [40, 'ada'],
    ])
    expect(late(instance, early, [40, 50])?.map(([startTick]) => startTick)).toEqual([35, 28, 40])
  })

  test('keeps to hours, walks and duties, and has a wanted tick for each turn', () => {
    const instance = aTurn({
      turns: [turn(), dutyTurn(60), turn()],
      activities: [task('set'), duty('desk', 1, { place: 1 }), task('chairs', { turn: 2 })],
      lanes: [lane('ada', { available: [{ from: 0, to: 80 }] })],
    })
    const early: Schedule = {
      activities: [
        { activity: 0, mode: 0, startTick: 0, endTick: 10, lanes: [0] },
        { activity: 1, mode: 0, startTick: 60, endTick: 70, lanes: [0] },
        { activity: 2, mode: 0, startTick: 10, endTick: 20, lanes: [0] },
      ],
      readyTicks: [10, 70, 20],
    }
    expect(late(instance, early, [100, 70, 500])?.map(([startTick]) => startTick)).toEqual([37, 60, 47])
    expect(late(instance, early, [30, 70, 500])?.map(([startTick]) => startTick)).toEqual([20, 60, 47])
    expect(late(instance, early, [100, 69, 500])).toBeUndefined()
  })

  test('counts a turn of no work as ready at its release, whatever is wanted', () => {
    const instance = aTurn({ turns: [turn(), turn({ releaseTick: 8 })], activities: [task('set')] })
    const early: Schedule = {
      activities: [{ activity: 0, mode: 0, startTick: 0, endTick: 10, lanes: [0] }],
      readyTicks: [10, 8],
    }
    expect(late(instance, early, [40, 8])).toEqual([[30, 'ada']])
    expect(late(instance, early, [40, 7])).toBeUndefined()
  })

  test('is the plan as it was where a roundabout walk lets no pass back do as well', () => {
    const instance = aTurn({
      activities: [
        task('on the way', { place: 2, modes: [mode(1)] }),
        task('set', { place: 1, modes: [mode(10)] }),
      ],
      lanes: [lane('ada', { available: [{ from: 0, to: 20 }], busy: [{ from: 0, to: 5, place: 0 }] })],
      walkTicks: [
        [0, 6, 0],
        [6, 0, 0],
        [0, 0, 0],
      ],
    })
    const early: Schedule = {
      activities: [
        { activity: 0, mode: 0, startTick: 5, endTick: 6, lanes: [0] },
        { activity: 1, mode: 0, startTick: 6, endTick: 16, lanes: [0] },
      ],
      readyTicks: [16],
    }
    expect(asLateAs(instance, early, [16])).toBe(early)
  })
})

describe('any plan just in time', () => {
  const firstStart = (instance: TurnInstance, schedule: Schedule | null, turnIndex: number): number =>
    Math.min(
      ...(schedule?.activities ?? [])
        .filter((planned) => instance.activities[planned.activity]?.turn === turnIndex)
        .map((planned) => planned.startTick),
    )
  const instances = withPinnedAndPaid(smallInstance(6, 24))

  test('can be carried out and is ready by what is wanted; and begins no turn earlier if it was ready by then', () => {
    let later = 0
    let earlierReady = 0
    fc.assert(
      fc.property(
        fc.oneof(instances, withShortWalks(instances)),
        fc.integer({ min: -2, max: 9 }),
        (instance, by) => {
          const { schedule } = solve(instance, { workMost: 3, seed: 1 })
          if (!schedule) return
          const wanted = schedule.readyTicks.map((tick, index) =>
            instance.activities.some((activity) => activity.turn === index && !activity.pinned)
              ? tick + by
              : tick,
          )
          const result = asLateAs(instance, schedule, wanted)
          if (by >= 0) expect(result).not.toBeNull()
          if (!result) return
          expect(scheduleFaults(instance, result)).toEqual([])
          for (const [index, tick] of wanted.entries()) {
            expect(result.readyTicks[index]).toBeLessThanOrEqual(tick)
            if (by < 0) continue
            const before = firstStart(instance, schedule, index)
            expect(firstStart(instance, result, index)).toBeGreaterThanOrEqual(before)
            if (firstStart(instance, result, index) > before) later += 1
          }
          if (by < 0) earlierReady += 1
        },
      ),
      { seed: 20261125, numRuns: 300 },
    )
    expect(later).toBeGreaterThan(50)
    expect(earlierReady).toBeGreaterThan(0)
  })
})
