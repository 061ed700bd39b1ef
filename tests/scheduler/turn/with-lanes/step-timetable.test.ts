/** The quick timetable against the one that looks through the gaps of every lane: the same answers, whatever is asked. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { randomTurn } from '../../../../bench/turns/random-turn.ts'
import { NEVER } from '../../../../src/scheduler/turn/far-tick.ts'
import type { TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { type PreparedInstance, prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { seededRandom } from '../../../../src/scheduler/turn/seeded-random.ts'
import { emptyDraft } from '../../../../src/scheduler/turn/with-lanes/draft.ts'
import { mirrored } from '../../../../src/scheduler/turn/with-lanes/mirrored-instance.ts'
import { pinnedPlacement } from '../../../../src/scheduler/turn/with-lanes/pinned-placement.ts'
import { listByChance, priorities } from '../../../../src/scheduler/turn/with-lanes/priority-rules.ts'
import { StepTimetable } from '../../../../src/scheduler/turn/with-lanes/step-timetable.ts'
import { hasStepTimetable } from '../../../../src/scheduler/turn/with-lanes/step-timetable-serves.ts'
import { Timetable } from '../../../../src/scheduler/turn/with-lanes/timetable.ts'
import {
  aTurn,
  lane,
  mode,
  smallInstance,
  task,
  withConsumables,
  withPinnedAndPaid,
  withShortWalks,
} from '../a-turn.ts'

/** Twice, since what is left of the first schedule must not show in the second. @returns starts and lanes compared */
function expectSameAnswers(problem: PreparedInstance, pinned = pinnedPlacement(problem), seed = 1): number {
  if (!pinned) return 0
  const quick = new StepTimetable(problem, pinned)
  const plain = new Timetable(problem, pinned)
  const random = seededRandom(seed)
  let compared = 0
  for (let round = 0; round < 2; round++) {
    const list = listByChance(problem, priorities(problem, 'latest-start'), random)
    const draft = emptyDraft(problem)
    quick.begin(problem.releaseTicks)
    plain.begin()
    for (const activity of list) {
      if (problem.isPinned[activity] === 1) continue
      let from = problem.releaseTicks[problem.turnOf[activity]!]!
      let latest = -1
      for (let at = problem.predecessorFirst[activity]!; at < problem.predecessorFirst[activity + 1]!; at++) {
        const predecessor = problem.predecessors[at]!
        if (draft.ends[predecessor]! <= from) continue
        from = draft.ends[predecessor]!
        latest = predecessor
      }
      quick.lookFrom(activity, latest)
      const found: [mode: number, start: number][] = []
      for (let of = problem.modeFirst[activity]!; of < problem.modeFirst[activity + 1]!; of++) {
        const start = quick.earliestStart(activity, of, from, problem.horizonTick)
        expect(start).toBe(plain.earliestStart(activity, of, from, problem.horizonTick))
        compared += 1
        if (start !== NEVER) found.push([of, start])
      }
      const chosen = found[Math.floor(random() * found.length)]
      if (!chosen) break
      const [of, start] = chosen
      const slot = problem.slotFirst[activity]!
      const slotsTo = slot + problem.modeHands[of]!
      plain.reserve(activity, of, start, draft.lanes, slot)
      const lanes = [...draft.lanes.subarray(slot, slotsTo)]
      quick.reserve(activity, of, start, draft.lanes, slot)
      expect([...draft.lanes.subarray(slot, slotsTo)]).toEqual(lanes)
      draft.ends[activity] = start + problem.modeTicks[of]!
    }
  }
  return compared
}

describe('the quick timetable gives the same starts and the same hands', () => {
  const kinds: [string, fc.Arbitrary<TurnInstance>][] = [
    ['on small turns of every kind', withShortWalks(smallInstance(6, 30))],
    ['with what is used up', withConsumables(withShortWalks(smallInstance(6, 30)))],
    ['with what is pinned', withPinnedAndPaid(withShortWalks(smallInstance(6, 30)), { budgetsMost: 0 })],
  ]
  test.each(kinds)('%s', (_, instances) => {
    let compared = 0
    fc.assert(
      fc.property(instances, fc.nat(), (instance, seed) => {
        const problem = prepared(instance)
        expect(hasStepTimetable(problem)).toBe(true)
        compared += expectSameAnswers(problem, pinnedPlacement(problem), seed)
      }),
      { seed: 20261125, numRuns: 200 },
    )
    expect(compared).toBeGreaterThan(1000)
  })

  test('backwards in time', () => {
    fc.assert(
      fc.property(withShortWalks(smallInstance(6, 30)), fc.nat(), (instance, seed) => {
        const back = mirrored(
          prepared({ ...instance, turns: instance.turns.map((of) => ({ ...of, releaseTick: 0 })) }),
        )
        expectSameAnswers(back, emptyDraft(back), seed)
      }),
      { seed: 20261125, numRuns: 200 },
    )
  })

  test('on turns of 20 to 80 tasks', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      expect(expectSameAnswers(prepared(randomTurn(seed)))).toBeGreaterThan(50)
    }
  })
})

describe('the quick timetable is not asked', () => {
  const activities = [task('here'), task('there', { place: 1 })]
  const has = (parts: Partial<TurnInstance>): boolean =>
    hasStepTimetable(prepared(aTurn({ activities, ...parts })))

  test('where a detour shortens a walk', () => {
    const walkTicks = (detour: number) => [
      [0, 5, detour],
      [5, 0, 2],
      [detour, 2, 0],
    ]
    const busy = [{ from: 0, to: 1, place: 2 }]
    expect(has({ walkTicks: walkTicks(3), lanes: [lane('ada', { busy })] })).toBe(true)
    expect(has({ walkTicks: walkTicks(2), lanes: [lane('ada', { busy })] })).toBe(false)
  })

  test('where hands are paid for, or there are more of them than bits in a mask', () => {
    expect(has({ budgets: [{ key: 'purse', laneTicksMost: 9 }] })).toBe(false)
    expect(has({ lanes: Array.from({ length: 31 }, (_, index) => lane(`hand ${index}`)) })).toBe(true)
    expect(has({ lanes: Array.from({ length: 32 }, (_, index) => lane(`hand ${index}`)) })).toBe(false)
  })

  test('where a task asks for many groups of people', () => {
    const groups = (count: number) => Array.from({ length: count }, () => ({ count: 1, skillMask: 0 }))
    const withGroups = (count: number) => [task('rig', { modes: [{ ...mode(5), hands: groups(count) }] })]
    expect(has({ activities: withGroups(5) })).toBe(true)
    expect(has({ activities: withGroups(6) })).toBe(false)
  })
})
