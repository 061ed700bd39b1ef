/** The solver's claims against an exhaustive search and an independent check, on random small instances. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { scheduleFaults, solve } from '../../../src/scheduler/turn/index.ts'
import type { TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { instanceProblems } from '../../../src/scheduler/turn/instance-problems.ts'
import { prepared } from '../../../src/scheduler/turn/prepared-instance.ts'
import { listByPriority, priorities } from '../../../src/scheduler/turn/with-lanes/priority-rules.ts'
import { ScheduleGenerator } from '../../../src/scheduler/turn/with-lanes/schedule-generation.ts'
import { smallInstance, withConsumables, withoutPeople, withPinnedAndPaid } from './a-turn.ts'
import { shortestByExhaustion } from './shortest-by-exhaustion.ts'

/** What counts first, and what counts second; a whole number, so that the first always outweighs the second. */
function badness(instance: TurnInstance, readyTicks: readonly (number | null)[]): number {
  const sum = (of: (readyTick: number, dueTick: number) => number): number =>
    instance.turns.reduce(
      (all, turn, i) => all + turn.weight * of(readyTicks[i] ?? Number.NaN, turn.dueTick),
      0,
    )
  return (
    10_000 * sum((readyTick, dueTick) => Math.max(0, readyTick - dueTick)) + sum((readyTick) => readyTick)
  )
}
function leastBadness(instance: TurnInstance): number | null {
  const { best } = shortestByExhaustion(instance)
  return best && 10_000 * best.weightedLateTicks + best.weightedReadyTicks
}

const options = { workMost: 60, seed: 1 }
const PLENTY = [0, 1].map((index) => ({ key: `consumable-${index}`, amountMost: 1_000 }))

describe('on small turns of every kind', () => {
  test('the examples are well formed, and most of them can be planned', () => {
    const examples = fc.sample(smallInstance(6), { seed: 20261125, numRuns: 100 })
    expect(examples.flatMap(instanceProblems)).toEqual([])
    const planned = examples.filter((instance) => solve(instance, options).schedule !== null)
    expect(planned.length).toBeGreaterThan(50)
  })

  test('no plan has a fault', () => {
    fc.assert(
      fc.property(smallInstance(6), fc.integer({ min: 1, max: 60 }), (instance, workMost) => {
        const { schedule, workDone } = solve(instance, { workMost, seed: 7 })
        expect(workDone).toBeLessThanOrEqual(workMost)
        expect(schedule === null ? [] : scheduleFaults(instance, schedule)).toEqual([])
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })

  test('no plan is better than the best of all plans, and the best of all plans is never below the bound', () => {
    let turnsPlanned = 0
    let plansThatAreBest = 0
    fc.assert(
      fc.property(smallInstance(6, 14), (instance) => {
        const best = leastBadness(instance)
        const { schedule, boundTicks } = solve(instance, options)
        if (best === null) {
          expect(schedule).toBeNull()
          return
        }
        expect(boundTicks).not.toContain(null)
        expect(badness(instance, boundTicks)).toBeLessThanOrEqual(best)
        if (schedule === null) return
        expect(badness(instance, schedule.readyTicks)).toBeGreaterThanOrEqual(best)
        turnsPlanned += 1
        if (badness(instance, schedule.readyTicks) === best) plansThatAreBest += 1
      }),
      { seed: 20261125, numRuns: 200 },
    )
    expect(turnsPlanned).toBeGreaterThan(100)
    expect(plansThatAreBest / turnsPlanned).toBeGreaterThan(0.95)
  })

  test('what is said to be proven is: a plan at its bound is the best, and a proven no has no plan in time', () => {
    let provenYes = 0
    let provenNo = 0
    fc.assert(
      fc.property(smallInstance(6, 14), (instance) => {
        const { schedule, proof, boundTicks } = solve(instance, options)
        if (proof !== 'bound') return
        const best = leastBadness(instance)
        const isInTime = schedule?.readyTicks.every(
          (tick, turn) => tick <= (instance.turns[turn]?.dueTick ?? 0),
        )
        if (schedule && isInTime) {
          provenYes += 1
          expect(schedule.readyTicks).toEqual(boundTicks)
          expect(badness(instance, schedule.readyTicks)).toBe(best)
        } else {
          provenNo += 1
          expect(best === null || best >= 10_000).toBe(true)
        }
      }),
      { seed: 20261125, numRuns: 200 },
    )
    expect(provenYes).toBeGreaterThan(30)
    expect(provenNo).toBeGreaterThan(30)
  })

  test('no plan is later than that of whoever takes the tasks as they come', () => {
    fc.assert(
      fc.property(smallInstance(6), fc.integer({ min: 1, max: 60 }), (instance, workMost) => {
        const problem = prepared(instance)
        const list = listByPriority(problem, priorities(problem, 'first-come'))
        const wishes = instance.activities.map(() => 'earliest-end' as const)
        const draft = new ScheduleGenerator(problem).forward(list, wishes)
        if (draft === null) return
        const readyTicks = instance.turns.map((turn, index) =>
          instance.activities.reduce(
            (latest, activity, at) =>
              activity.turn === index ? Math.max(latest, draft.ends[at] ?? 0) : latest,
            turn.releaseTick,
          ),
        )
        const { schedule } = solve(instance, { workMost, seed: 3 })
        expect(schedule).not.toBeNull()
        if (schedule) {
          expect(badness(instance, schedule.readyTicks)).toBeLessThanOrEqual(badness(instance, readyTicks))
        }
      }),
      { seed: 20261125, numRuns: 200 },
    )
  })

  test('the same turn, effort and seed give the same answer', () => {
    fc.assert(
      fc.property(smallInstance(6), fc.integer(), (instance, seed) => {
        expect(solve(structuredClone(instance), { workMost: 40, seed })).toEqual(
          solve(instance, { workMost: 40, seed }),
        )
      }),
      { seed: 20261125, numRuns: 100 },
    )
  })

  test('more effort never gives a worse plan', () => {
    fc.assert(
      fc.property(smallInstance(6), (instance) => {
        const plans = [20, 80].map((workMost) => solve(instance, { workMost, seed: 1 }).schedule)
        const [little, much] = plans.map((plan) =>
          plan ? badness(instance, plan.readyTicks) : Number.POSITIVE_INFINITY,
        )
        expect(much).toBeLessThanOrEqual(little ?? 0)
      }),
      { seed: 20261125, numRuns: 200 },
    )
  })
})

describe('on small turns with duties and paid hands', () => {
  const instances = withPinnedAndPaid(smallInstance(4, 14))

  test('the examples are well formed, and many of them can be planned', () => {
    const examples = fc.sample(instances, { seed: 20261125, numRuns: 100 })
    expect(examples.flatMap(instanceProblems)).toEqual([])
    expect(examples.some((instance) => instance.activities.some((activity) => activity.pinned))).toBe(true)
    expect(examples.some((instance) => instance.lanes.some((lane) => lane.budget !== undefined))).toBe(true)
    const planned = examples.filter((instance) => solve(instance, options).schedule !== null)
    expect(planned.length).toBeGreaterThan(25)
  })

  test('no plan has a fault, none is better than the best of all, and no bound is above it', () => {
    let turnsPlanned = 0
    let plansThatAreBest = 0
    let noneFound = 0
    fc.assert(
      fc.property(instances, (instance) => {
        const best = leastBadness(instance)
        const { schedule, boundTicks } = solve(instance, options)
        expect(schedule === null ? [] : scheduleFaults(instance, schedule)).toEqual([])
        if (best === null) {
          expect(schedule).toBeNull()
          return
        }
        expect(boundTicks).not.toContain(null)
        expect(badness(instance, boundTicks)).toBeLessThanOrEqual(best)
        if (schedule === null) {
          noneFound += 1
          return
        }
        expect(badness(instance, schedule.readyTicks)).toBeGreaterThanOrEqual(best)
        turnsPlanned += 1
        if (badness(instance, schedule.readyTicks) === best) plansThatAreBest += 1
      }),
      { seed: 20261125, numRuns: 400 },
    )
    expect(turnsPlanned).toBeGreaterThan(100)
    expect(plansThatAreBest / turnsPlanned).toBeGreaterThan(0.95)
    expect(noneFound / turnsPlanned).toBeLessThan(0.02)
  })

  test('a duty for which hands can be found has them', () => {
    fc.assert(
      fc.property(withPinnedAndPaid(smallInstance(1, 14), { pinnedMost: 4 }), (instance) => {
        const duties = { ...instance, activities: instance.activities.filter(({ pinned }) => pinned) }
        if (leastBadness(duties) === null) return
        expect(solve(duties, options).schedule).not.toBeNull()
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })
})

describe.each([
  {
    what: 'turns that use things up',
    instances: withConsumables(withPinnedAndPaid(smallInstance(4, 14), { pinnedMost: 1, budgetsMost: 1 })),
    decidedLeast: 15,
  },
  {
    what: 'projects without people that use things up',
    instances: withConsumables(withoutPeople(smallInstance(5))),
    decidedLeast: 30,
  },
])('on small $what', ({ instances, decidedLeast }) => {
  test('the examples are well formed, many of them can be planned, and in many what is used up decides', () => {
    const examples = fc.sample(instances, { seed: 20261125, numRuns: 100 })
    expect(examples.flatMap(instanceProblems)).toEqual([])
    const least = examples.map(leastBadness)
    expect(least.filter((one) => one !== null).length).toBeGreaterThan(25)
    const withPlenty = examples.map((instance) => leastBadness({ ...instance, consumables: PLENTY }))
    expect(withPlenty.filter((one, index) => one !== least[index]).length).toBeGreaterThan(decidedLeast)
  })

  test('no plan has a fault, none is better than the best of all, no bound is above it, and what is proven is so', () => {
    let turnsPlanned = 0
    let plansThatAreBest = 0
    let noneFound = 0
    let proven = 0
    fc.assert(
      fc.property(instances, (instance) => {
        const best = leastBadness(instance)
        const { schedule, boundTicks, proof } = solve(instance, { workMost: 200, seed: 1 })
        expect(schedule === null ? [] : scheduleFaults(instance, schedule)).toEqual([])
        if (best === null) {
          expect(schedule).toBeNull()
          return
        }
        expect(boundTicks).not.toContain(null)
        expect(badness(instance, boundTicks)).toBeLessThanOrEqual(best)
        if (schedule === null) {
          noneFound += 1
          return
        }
        const found = badness(instance, schedule.readyTicks)
        expect(found).toBeGreaterThanOrEqual(best)
        turnsPlanned += 1
        if (found === best) plansThatAreBest += 1
        if (proof !== 'bound') return
        proven += 1
        // At the bound it is the best; late and proven so, none is in time.
        if (found < 10_000) expect(found).toBe(best)
        else expect(best).toBeGreaterThanOrEqual(10_000)
      }),
      { seed: 20261125, numRuns: 400 },
    )
    expect(turnsPlanned).toBeGreaterThan(100)
    expect(proven).toBeGreaterThan(30)
    expect(plansThatAreBest / turnsPlanned).toBeGreaterThan(0.95)
    expect(noneFound / turnsPlanned).toBeLessThan(0.05)
  })
})

describe('the exhaustive search itself', () => {
  test('finds nothing better when it tries every tick', () => {
    fc.assert(
      fc.property(smallInstance(3, 10), (instance) => {
        const { best } = shortestByExhaustion(instance)
        expect(shortestByExhaustion(instance, { everyTick: true }).best).toEqual(best)
      }),
      { seed: 20261125, numRuns: 100 },
    )
  })

  test('finds nothing better when it tries every tick, with duties and paid hands', () => {
    fc.assert(
      fc.property(withPinnedAndPaid(smallInstance(2, 9)), (instance) => {
        const { best } = shortestByExhaustion(instance)
        expect(shortestByExhaustion(instance, { everyTick: true }).best).toEqual(best)
      }),
      { seed: 20261125, numRuns: 100 },
    )
  })

  test('finds nothing better when it tries every tick, with things that are used up', () => {
    fc.assert(
      fc.property(withConsumables(smallInstance(3, 10)), (instance) => {
        const { best } = shortestByExhaustion(instance)
        expect(shortestByExhaustion(instance, { everyTick: true }).best).toEqual(best)
      }),
      { seed: 20261125, numRuns: 100 },
    )
  })
})
