/** What must follow from one another, whatever the search happens to find. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { randomTurn } from '../../../bench/turns/random-turn.ts'
import { scheduleFaults, solve } from '../../../src/scheduler/turn/index.ts'
import type { Lane, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { instanceProblems } from '../../../src/scheduler/turn/instance-problems.ts'
import { smallInstance, withConsumables, withoutPeople, withShortWalks } from './a-turn.ts'

const options = { workMost: 60, seed: 1 }

describe('on turns of 20 to 80 tasks', () => {
  const seeds = Array.from({ length: 12 }, (_, index) => index + 1)

  test('no plan has a fault, and none is ready before the bound', () => {
    for (const seed of seeds) {
      const instance = randomTurn(seed)
      const { schedule, boundTicks } = solve(instance, options)
      expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
      expect(schedule?.readyTicks[0]).toBeGreaterThanOrEqual(boundTicks[0] ?? Number.POSITIVE_INFINITY)
    }
  })

  test('the same turn, effort and seed give the same bytes', () => {
    for (const seed of seeds) {
      const bytes = [0, 1].map(() => JSON.stringify(solve(randomTurn(seed), { workMost: 40, seed })))
      expect(bytes[1]).toBe(bytes[0])
    }
  })
})

/**
 * Nothing that was possible is impossible now. So no bound may lie above what was found before; and a plan that is at its
 * bound now is ready no later than any that was found before.
 * @returns whether the later answer was proven, by turn
 */
function expectNoLonger(before: TurnInstance, after: TurnInstance): boolean[] {
  expect(instanceProblems(after)).toEqual([])
  const { schedule } = solve(before, options)
  if (schedule === null) return []
  const eased = solve(after, options)
  return schedule.readyTicks.map((readyTick, turn) => {
    const boundTick = eased.boundTicks[turn]
    expect(boundTick).not.toBeNull()
    expect(boundTick).toBeLessThanOrEqual(readyTick)
    const isProven = eased.schedule?.readyTicks[turn] === boundTick
    if (isProven) expect(eased.schedule?.readyTicks[turn]).toBeLessThanOrEqual(readyTick)
    return isProven
  })
}

/** As often as it says nothing, the rest says nothing. */
function expectProvenOften(proven: readonly boolean[]): void {
  expect(proven.length).toBeGreaterThan(150)
  expect(proven.filter(Boolean).length).toBeGreaterThan(50)
}

const instances = fc.oneof(
  withShortWalks(smallInstance(6)),
  withConsumables(withShortWalks(smallInstance(5))),
  withConsumables(withoutPeople(smallInstance(6))),
)

test('one hand more never makes a proven answer longer', () => {
  const proven: boolean[] = []
  fc.assert(
    fc.property(
      instances,
      fc.integer({ min: 0, max: 3 }),
      fc.nat({ max: 10 }),
      (instance, skillMask, from) => {
        const more: Lane = {
          key: 'one more',
          skillMask,
          available: [{ from, to: instance.horizonTick }],
          busy: [],
        }
        proven.push(...expectNoLonger(instance, { ...instance, lanes: [...instance.lanes, more] }))
      },
    ),
    { seed: 20261125, numRuns: 300 },
  )
  expectProvenOften(proven)
})

test('a task less, what waited for it now waiting for what it waited for, never makes a proven answer longer', () => {
  const proven: boolean[] = []
  fc.assert(
    fc.property(instances, fc.nat(), (instance, pick) => {
      proven.push(...expectNoLonger(instance, withoutTask(instance, pick % instance.activities.length)))
    }),
    { seed: 20261125, numRuns: 300 },
  )
  expectProvenOften(proven)
})

test('more of a consumable never makes a proven answer longer', () => {
  const proven: boolean[] = []
  fc.assert(
    fc.property(withConsumables(smallInstance(5)), (instance) => {
      const consumables = instance.consumables?.map((one) => ({ ...one, amountMost: one.amountMost + 2 }))
      proven.push(...expectNoLonger(instance, { ...instance, consumables: consumables ?? [] }))
    }),
    { seed: 20261125, numRuns: 300 },
  )
  expectProvenOften(proven)
})

function withoutTask(instance: TurnInstance, dropped: number): TurnInstance {
  const { after: before } = instance.activities[dropped]!
  const indexNow = (index: number) => (index > dropped ? index - 1 : index)
  return {
    ...instance,
    activities: instance.activities
      .filter((_, index) => index !== dropped)
      .map((activity) => {
        const after = activity.after.flatMap((index) => (index === dropped ? before : [index]))
        return { ...activity, after: [...new Set(after)].map(indexNow) }
      }),
  }
}
