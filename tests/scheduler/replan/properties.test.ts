/** What holds of every turn that is planned from now, whatever is told of it. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { instantPlusSeconds } from '../../../src/domain/instant.ts'
import { TICK_SECONDS, type TurnInstance } from '../../../src/scheduler/turn/index.ts'
import { at } from '../decide/a-hall.ts'
import { lane as aLane, turn as anInstanceTurn, aTurn } from '../turn/a-turn.ts'
import { shortestByExhaustion } from '../turn/shortest-by-exhaustion.ts'
import { aDinnerPlanned, asPlanned } from './a-dinner-planned.ts'
import {
  askedAt,
  evening,
  lane,
  NOTHING_TOLD,
  type PartDone,
  partDone,
  plannedTask,
  replannedAt,
  told,
} from './a-part-done-turn.ts'

const dinner = aDinnerPlanned()
const { tasks } = dinner
const startsAt = tasks[0]!.startsAt
const readyAt = Math.max(...tasks.map(({ endsAt }) => endsAt))
const momentMs = fc.integer({ min: 0, max: readyAt - startsAt - 1 })

describe('a turn that is done exactly as planned', () => {
  test('is ready at the planned time, at whichever moment that is asked, and nobody is told anything', () => {
    fc.assert(
      fc.property(momentMs, (ms) => {
        const replanned = replannedAt(dinner, ms, asPlanned(tasks, startsAt + ms))
        expect(replanned.readyAt).toBe(readyAt)
        expect(replanned.changes).toEqual([])
      }),
      { seed: 20, numRuns: 40 },
    )
  })
})

/** Some tasks done and running as planned, some of them not, some hands gone. */
const anyProgress = fc
  .record({ ms: momentMs, late: fc.subarray([...tasks.keys()], { maxLength: 3 }), gone: fc.nat({ max: 2 }) })
  .map(({ ms, late, gone }) => {
    const asIt = asPlanned(tasks, startsAt + ms)
    const notDone = new Set(late.map((index) => tasks[index]!.key))
    const done = asIt.done.filter(({ taskKey }) => !notDone.has(taskKey))
    const missing = Array.from({ length: gone }, (_, index) => ({
      laneId: lane(index + 1),
      fromAt: null,
      toAt: null,
    }))
    return { ms, progress: { ...asIt, done, missing } }
  })

describe('a turn that is planned from now', () => {
  test('does nothing again that is done, everything else once, and what runs by those who are at it', () => {
    fc.assert(
      fc.property(anyProgress, ({ ms, progress }) => {
        const { plan } = replannedAt(dinner, ms, progress)
        if (plan === null) throw new Error('three hands can do it')
        const done = new Set(progress.done.map(({ taskKey }) => taskKey))
        expect(plan.tasks.map(({ key }) => key).sort()).toEqual(
          tasks.flatMap(({ key }) => (done.has(key) ? [] : key)).sort(),
        )
        const now = startsAt + ms
        for (const { taskKey, secondsLeft } of progress.running) {
          const running = plan.tasks.find(({ key }) => key === taskKey)!
          expect(running.laneIds).toEqual(tasks.find(({ key }) => key === taskKey)!.laneIds)
          expect(running.startsAt).toBe(now)
          expect(running.endsAt - now - secondsLeft * 1000).toBeLessThan(TICK_SECONDS * 1000)
        }
      }),
      { seed: 21, numRuns: 25 },
    )
  })

  test('has nobody at two things at once, nobody who is missing, and nothing before what it waits for', () => {
    fc.assert(
      fc.property(anyProgress, ({ ms, progress }) => {
        const planned = replannedAt(dinner, ms, progress).plan?.tasks ?? []
        const running = new Set(progress.running.map(({ taskKey }) => taskKey))
        const gone = new Set<string>(progress.missing.map(({ laneId }) => laneId))
        const byKey = new Map(planned.map((task) => [task.key, task]))
        for (const [index, task] of planned.entries()) {
          if (running.has(task.key)) continue
          expect(task.startsAt).toBeGreaterThanOrEqual(startsAt + ms)
          expect(task.laneIds.filter((id) => gone.has(id))).toEqual([])
          for (const key of task.after) {
            expect(byKey.get(key)?.endsAt ?? 0).toBeLessThanOrEqual(task.startsAt)
          }
          const atOnce = planned.filter(
            (other, at) => at !== index && other.startsAt < task.endsAt && task.startsAt < other.endsAt,
          )
          for (const other of atOnce) {
            expect(other.laneIds.filter((id) => task.laneIds.includes(id))).toEqual([])
          }
        }
      }),
      { seed: 22, numRuns: 25 },
    )
  })

  test('is never ready later for leaving something out, and offers neither the sign-off nor what has begun', () => {
    fc.assert(
      fc.property(anyProgress, ({ ms, progress }) => {
        const { readyAt: ready, dropList, plan } = replannedAt(dinner, ms, progress)
        const byKey = new Map(plan?.tasks.map((task) => [task.key, task]))
        const begun = new Set(progress.running.map(({ taskKey }) => taskKey))
        const saved = dropList.items.map(({ savedSeconds }) => savedSeconds)
        expect(saved).toEqual(saved.toSorted((a, b) => b - a))
        for (const drop of [...dropList.items, ...(dropList.all ? [dropList.all] : [])]) {
          expect(drop.savedSeconds).toBeGreaterThanOrEqual(0)
          expect(instantPlusSeconds(drop.readyAt, drop.savedSeconds)).toBe(ready)
          for (const key of drop.taskKeys) {
            expect(byKey.get(key)?.kind).toMatch(/^(mark-out|set|bins)$/)
            expect(key).toMatch(/^(mark-out|bins|set\/align-rows)/)
            expect(begun.has(key)).toBe(false)
          }
        }
        if (dropList.all) expect(dropList.all.savedSeconds).toBeGreaterThanOrEqual(Math.max(...saved))
        else expect(dropList.items.length).toBeLessThan(2)
      }),
      { seed: 23, numRuns: 25 },
    )
  })

  test('comes out the same to the byte when it is asked again', () => {
    fc.assert(
      fc.property(anyProgress, ({ ms, progress }) => {
        expect(JSON.stringify(askedAt(dinner, ms, progress))).toBe(
          JSON.stringify(askedAt(dinner, ms, progress)),
        )
      }),
      { seed: 24, numRuns: 5 },
    )
  })
})

interface Tiny {
  readonly minutes: readonly number[]
  readonly waits: readonly number[]
}

const tinyTurn: fc.Arbitrary<Tiny> = fc.record({
  minutes: fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 4, maxLength: 5 }),
  // Each waits for one before it, or for none.
  waits: fc.array(fc.integer({ min: -2, max: 3 }), { minLength: 5, maxLength: 5 }),
})

const afterOf = ({ waits }: Tiny, index: number): number[] => {
  const before = waits[index] ?? -1
  return before >= 0 && before < index ? [before] : []
}

/** One after the other by hand 1: as late as can be, so that a better plan is always looked for. */
function tinyPlanned(tiny: Tiny): PartDone {
  let from = 0
  const planned = tiny.minutes.map((minutes, index) => {
    const task = plannedTask({
      key: `task-${index}`,
      hands: [1],
      startsAt: `21:${String(from).padStart(2, '0')}`,
      minutes,
      after: afterOf(tiny, index).map((before) => `task-${before}`),
    })
    from += minutes
    return task
  })
  return partDone(planned, { doors: '21:01', hands: 3, hall: { policy: { workMost: 600 } } })
}

const tinyInstance = (tiny: Tiny, hands: number): TurnInstance =>
  aTurn({
    turns: [anInstanceTurn({ releaseTick: 0, dueTick: 2 })],
    activities: tiny.minutes.map((minutes, index) => ({
      key: `task-${index}`,
      turn: 0,
      place: 0,
      after: afterOf(tiny, index),
      modes: [{ durationTicks: minutes * 2, hands: [{ count: 1, skillMask: 0 }], uses: [] }],
    })),
    resources: [],
    lanes: Array.from({ length: hands }, (_, index) =>
      aLane(`hand-${index}`, { available: [{ from: 0, to: 200 }] }),
    ),
    horizonTick: 200,
  })

describe('a tiny turn', () => {
  test('is ready as soon as the best of all plans, and no sooner with a hand that is missing', () => {
    fc.assert(
      fc.property(tinyTurn, (tiny) => {
        const part = tinyPlanned(tiny)
        const withAll = replannedAt(part, '21:00', NOTHING_TOLD).readyAt!
        const best = (hands: number) =>
          evening('21:00') +
          shortestByExhaustion(tinyInstance(tiny, hands)).best!.weightedReadyTicks * TICK_SECONDS * 1000
        expect(withAll).toBe(best(3))
        const missing = [{ laneId: lane(2) }]
        const withFewer = replannedAt(part, '21:00', told({ missing })).readyAt!
        expect(withFewer).toBe(best(2))
        expect(withFewer).toBeGreaterThanOrEqual(withAll)
      }),
      { seed: 25, numRuns: 30 },
    )
  })
})

test('the dinner of these tests is planned from nine on, with something in it that can be left out', () => {
  expect(startsAt).toBe(at('2026-06-05T21:00'))
  expect(tasks.filter(({ optional }) => optional === true).length).toBeGreaterThan(2)
})
