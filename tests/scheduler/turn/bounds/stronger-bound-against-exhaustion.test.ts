/** No turn can be ready before its stronger bound: against every plan there is, on small turns of all kinds. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { strongerBoundTicks } from '../../../../src/scheduler/turn/bounds/stronger-bound.ts'
import type { TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../../src/scheduler/turn/lower-bound.ts'
import { prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { smallInstance, withConsumables, withoutPeople, withPinnedAndPaid } from '../a-turn.ts'
import { shortestByExhaustion } from '../shortest-by-exhaustion.ts'

/** All others together weigh less than one tick of the turn that is asked about. */
const ALONE = 1000

/** The earliest at which the turn can be ready, whatever becomes of the others; null: never. */
function earliestOf(instance: TurnInstance, turnIndex: number): number | null {
  const turns = instance.turns.map((turn, index) => ({
    ...turn,
    dueTick: instance.horizonTick,
    weight: index === turnIndex ? ALONE : 1,
  }))
  const { best } = shortestByExhaustion({ ...instance, turns })
  return best && Math.floor(best.weightedReadyTicks / ALONE)
}

/** Two or three ways of doing everything, and little that things wait for: what is scarce decides. */
const crowded = smallInstance(5, 16).map((instance) => ({
  ...instance,
  activities: instance.activities.map((activity, index) => ({
    ...activity,
    after: index > 3 ? [0, 1].filter((before) => before !== index) : [],
    modes: [
      ...activity.modes,
      ...activity.modes.map((mode) => ({ ...mode, durationTicks: mode.durationTicks + 1 })),
    ],
  })),
}))

const kinds = [
  { what: 'any small turns', instances: smallInstance(6, 16) },
  { what: 'turns with duties and budgets', instances: withPinnedAndPaid(smallInstance(5, 16)) },
  { what: 'turns that use things up', instances: withConsumables(smallInstance(5, 16)) },
  { what: 'turns with more ways than one', instances: crowded },
  { what: 'turns without people', instances: withoutPeople(smallInstance(6, 16)) },
]

describe.each(kinds)('on $what', ({ instances }) => {
  test('no plan is ready before the stronger bound, and the bound never falls below the other one', () => {
    let asked = 0
    let stronger = 0
    fc.assert(
      fc.property(instances, (instance) => {
        for (const turnIndex of instance.turns.keys()) {
          const weak = lowerBoundTicks(instance, turnIndex).readyTick
          if (weak === null) continue
          const earliest = earliestOf(instance, turnIndex)
          if (earliest === null) continue
          const problem = prepared(instance)
          const bound = strongerBoundTicks(problem, turnIndex, weak, instance.horizonTick)
          expect(bound).toBeGreaterThanOrEqual(weak)
          expect(bound).toBeLessThanOrEqual(earliest)
          const fromRelease = strongerBoundTicks(problem, turnIndex, 0, earliest)
          expect(fromRelease).toBeLessThanOrEqual(earliest)
          asked += 1
          if (bound > weak) stronger += 1
        }
      }),
      { seed: 20261130, numRuns: 150 },
    )
    expect(asked).toBeGreaterThan(50)
    expect(stronger).toBeGreaterThan(0)
  })
})
