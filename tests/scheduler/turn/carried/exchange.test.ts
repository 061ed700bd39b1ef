import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { lanesExchanged } from '../../../../src/scheduler/turn/carried/exchange.ts'
import { rosterOf } from '../../../../src/scheduler/turn/carried/roster.ts'
import { carriedWorth, groupsOf } from '../../../../src/scheduler/turn/carried/smoothness.ts'
import {
  placesOf,
  spliced,
  stintsSpliced,
  stretchesOf,
} from '../../../../src/scheduler/turn/carried/stretches.ts'
import type { Schedule, TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { aTurn, lane, mode, task } from '../a-turn.ts'

/** Activities of ten ticks in a row, each with the hands given, two at a time. */
function inRow(lanes: readonly (readonly number[])[]): Schedule {
  const activities = lanes.map((own, activity) => {
    const startTick = 10 * Math.floor(activity / 2)
    return { activity, mode: 0, startTick, endTick: startTick + 10, lanes: own }
  })
  return { activities, readyTicks: [5 * lanes.length] }
}

const exchanged = (instance: TurnInstance, lanes: readonly (readonly number[])[]) =>
  lanesExchanged(rosterOf(instance, groupsOf(instance), inRow(lanes)), lanes)

describe('hands exchanged between two people', () => {
  test('for all until a moment save each a change', () => {
    const groups = [1, 2, 1, 2, 1, 2]
    const instance = aTurn({ activities: groups.map((group, index) => task(`lot ${index}`, { group })) })
    expect(exchanged(instance, [[0], [1], [1], [0], [1], [0]])).toEqual([[1], [0], [1], [0], [1], [0]])
  })

  test('for one stretch in the middle save each two', () => {
    const groups = [1, 2, 1, 2, 1, 2]
    const instance = aTurn({ activities: groups.map((group, index) => task(`lot ${index}`, { group })) })
    expect(exchanged(instance, [[0], [1], [1], [0], [0], [1]])).toEqual([[0], [1], [0], [1], [0], [1]])
  })

  test('bring pairs back together, though nobody changes less', () => {
    const activities = [1, 2, 3, 4].map((group) => task(`lot ${group}`, { group, modes: [mode(10, 2)] }))
    const instance = aTurn({ activities, lanes: ['ada', 'ben', 'cy', 'dee'].map((key) => lane(key)) })
    const apart = [
      [0, 1],
      [2, 3],
      [0, 2],
      [1, 3],
    ]
    const groups = groupsOf(instance)
    const partings = (lanes: readonly (readonly number[])[]) =>
      carriedWorth(instance, groups, inRow(lanes)).partings
    expect(partings(apart)).toBe(4)
    expect(partings(exchanged(instance, apart))).toBe(0)
  })

  test('leave everything as it is where nothing is gained', () => {
    const activities = [1, 2, 1, 2].map((group, index) => task(`lot ${index}`, { group }))
    const lanes = [[0], [1], [0], [1]]
    expect(exchanged(aTurn({ activities }), lanes)).toEqual(lanes)
  })

  test('are reckoned as if each new list of work had been gone through', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ group: fc.integer({ min: 1, max: 3 }), lane: fc.integer({ min: 0, max: 2 }) }), {
          minLength: 1,
          maxLength: 12,
        }),
        fc.nat(12),
        fc.nat(12),
        (jobs, one, other) => {
          const instance = aTurn({ activities: jobs.map(({ group }, index) => task(`${index}`, { group })) })
          const roster = rosterOf(instance, groupsOf(instance), inRow(jobs.map(({ lane: of }) => [of % 2])))
          const own = [0, 1].map((of) => [...jobs.keys()].filter((position) => jobs[position]!.lane === of))
          const [from, to] = [Math.min(one, other), Math.max(one, other)]
          const lists = own.map((list) => stretchesOf(list, roster))
          const [places, otherPlaces] = own.map((list) => placesOf([from, to], list))
          const list = spliced(own[0]!, own[1]!, from, to)
          expect(
            stintsSpliced(lists[0]!, places![0]!, places![1]!, lists[1]!, otherPlaces![0]!, otherPlaces![1]!),
          ).toBe(stretchesOf(list, roster).stints)
          const runs = list.filter(
            (position, at) => jobs[list[at - 1] ?? -1]?.group !== jobs[position]!.group,
          )
          expect(stretchesOf(list, roster).stints).toBe(runs.length)
        },
      ),
      { seed: 20261125, numRuns: 500 },
    )
  })
})
