/** The solver against a general solver of integer programs that has nothing of it, on turns of up to a dozen tasks. */
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, test } from 'vitest'
import { scheduleFaults, solve } from '../../../src/scheduler/turn/index.ts'
import type { Mode, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { instanceProblems } from '../../../src/scheduler/turn/instance-problems.ts'
import { seededRandom } from '../../../src/scheduler/turn/seeded-random.ts'
import { timeIndexedModel } from './time-indexed-model.ts'

interface IntegerProgramSolver {
  solve(program: string, options: object): { readonly Status: string; readonly ObjectiveValue: number }
}

// Its types say of the import what holds of the require.
const require = createRequire(import.meta.url)
const loadSolver: () => Promise<IntegerProgramSolver> = require('highs')
let highs: IntegerProgramSolver
beforeAll(async () => {
  highs = await loadSolver()
})

/** null: there is no plan. @throws when the program was not solved to the end */
function leastReadyTick(instance: TurnInstance): number | null {
  const { Status, ObjectiveValue } = highs.solve(timeIndexedModel(instance), {
    mip_rel_gap: 0,
    mip_max_nodes: 100_000,
  })
  if (Status === 'Infeasible') return null
  if (Status !== 'Optimal') throw new Error(`the integer program was not solved: ${Status}`)
  return Math.round(ObjectiveValue)
}

function drawnFrom(seed: number) {
  const random = seededRandom(seed)
  const between = (least: number, most: number) => least + Math.floor(random() * (most - least + 1))
  const some = (count: number, share: number) =>
    Array.from({ length: count }, (_, index) => index).filter(() => random() < share)
  return { between, some, isSo: (share: number) => random() < share }
}

/** Modes with a quick and a slow way, resources that come and go, what is used up. */
function project(seed: number, taskCount: number): TurnInstance {
  const { between, some } = drawnFrom(seed)
  const mode = (durationTicks: number): Mode => ({
    durationTicks,
    hands: [],
    uses: some(2, 0.7).map((resource) => ({ resource, amount: between(1, 3) })),
    consumes: [{ consumable: 0, amount: between(0, 4) }],
  })
  return {
    turns: [{ releaseTick: between(0, 3), dueTick: 40, weight: 1 }],
    activities: Array.from({ length: taskCount }, (_, index) => ({
      key: `task ${index + 1}`,
      turn: 0,
      place: 0,
      after: some(index, 0.25),
      modes: [mode(between(1, 3)), mode(between(3, 6))],
    })),
    resources: [
      { key: 'doorway', capacity: [{ fromTick: 0, amount: 4 }] },
      {
        key: 'trolley',
        capacity: [
          { fromTick: 0, amount: 3 },
          { fromTick: 10, amount: between(0, 2) },
          { fromTick: between(12, 16), amount: 5 },
        ],
      },
    ],
    consumables: [{ key: 'soap', amountMost: 2 * taskCount - between(2, 6) }],
    lanes: [],
    walkTicks: [[0]],
    horizonTick: 40,
  }
}

/** Three hands with skills and hours of their own, of whom one is held for a while. */
function turnWithHands(seed: number, taskCount: number): TurnInstance {
  const { between, some, isSo } = drawnFrom(seed)
  const crewed = (count: number, durationTicks: number, skillMask: number): Mode => ({
    durationTicks,
    hands: [{ count, skillMask }],
    uses: some(1, 0.4).map((resource) => ({ resource, amount: 1 })),
  })
  const horizonTick = 30
  return {
    turns: [{ releaseTick: 0, dueTick: horizonTick, weight: 1 }],
    activities: Array.from({ length: taskCount }, (_, index) => {
      const durationTicks = between(2, 6)
      const skillMask = isSo(0.25) ? 1 : 0
      return {
        key: `task ${index + 1}`,
        turn: 0,
        place: 0,
        after: some(index, 0.2),
        modes: isSo(0.1)
          ? [{ durationTicks, hands: [], uses: [] }]
          : [
              crewed(1, durationTicks, skillMask),
              crewed(2, Math.ceil(durationTicks * 0.6), skillMask === 1 && isSo(0.5) ? 1 : 0),
            ],
      }
    }),
    resources: [{ key: 'machine', capacity: [{ fromTick: 0, amount: 1 }] }],
    lanes: [
      { key: 'ada', skillMask: 1, available: [{ from: 0, to: horizonTick }], busy: [] },
      { key: 'ben', skillMask: 1, available: [{ from: between(2, 6), to: horizonTick }], busy: [] },
      {
        key: 'cem',
        skillMask: 0,
        available: [{ from: 0, to: between(15, 25) }],
        busy: [{ from: between(4, 6), to: 9, place: 0 }],
      },
    ],
    walkTicks: [[0]],
    horizonTick,
  }
}

const seeds = Array.from({ length: 6 }, (_, index) => index + 1)

describe.each([
  { what: 'projects of 12 tasks with modes and things used up', drawn: (seed: number) => project(seed, 12) },
  { what: 'turns of 8 tasks for three hands', drawn: (seed: number) => turnWithHands(seed, 8) },
])('on $what', ({ drawn }) => {
  test.each(seeds)('no. %i is ready as soon as an integer program says it can be, and no sooner', (seed) => {
    const instance = drawn(seed)
    expect(instanceProblems(instance)).toEqual([])
    const { schedule, boundTicks } = solve(instance, { workMost: 1_000, seed: 1 })
    expect(schedule && scheduleFaults(instance, schedule)).toEqual([])
    const readyTick = schedule?.readyTicks[0] ?? instance.horizonTick
    // With a plan at hand that holds, later ones need not be looked at.
    const least = leastReadyTick({ ...instance, horizonTick: readyTick })
    expect(least).not.toBeNull()
    if (least === null) return
    expect(boundTicks[0]).toBeLessThanOrEqual(least)
    expect(readyTick).toBeGreaterThanOrEqual(least)
    const long = solve(instance, { workMost: 300_000, seed: 1, acceptableReadyTicks: [least] })
    expect(long.schedule?.readyTicks).toEqual([least])
    expect(long.schedule && scheduleFaults(instance, long.schedule)).toEqual([])
  })
})

test('an integer program and the solver agree on what cannot be done at all', () => {
  const instance = { ...project(1, 6), consumables: [{ key: 'soap', amountMost: 0 }] }
  const soapless = {
    ...instance,
    activities: instance.activities.map((activity) => ({
      ...activity,
      modes: activity.modes.map((mode) => ({ ...mode, consumes: [{ consumable: 0, amount: 1 }] })),
    })),
  }
  expect(leastReadyTick(soapless)).toBeNull()
  expect(solve(soapless, { workMost: 100, seed: 1 })).toMatchObject({ schedule: null, proof: 'bound' })
})
