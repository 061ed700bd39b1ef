/**
 * Whatever happens to a hall, in whatever order: holds, links, overruns, crews that change, closures, policies, the clock.
 * After each thing everything that must be true of the site is asked, and a decision on the days around is compared with
 * the decision on everything there is, to the byte.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { deepFreeze } from '../../../src/store/deep-freeze.ts'
import { aBusyHall } from './random-life/a-busy-hall.ts'
import { happening } from './random-life/happening.ts'
import { judgedAnew, workedOff } from './random-life/judged-anew.ts'
import { lived, type Outcome } from './random-life/lived.ts'

/** In each of these weeks the clock is put forward or back. */
const weeks = [
  { zone: 'America/Chicago', firstDate: '2026-03-05', seed: 20261130 },
  { zone: 'America/Chicago', firstDate: '2026-10-29', seed: 20261131 },
  { zone: 'Pacific/Auckland', firstDate: '2026-04-02', seed: 20261132 },
]

describe('a hall lives through a week in which the clock changes', () => {
  test.each(weeks)(
    'in $zone from $firstDate',
    ({ zone, firstDate, seed }) => {
      const outcomes = new Map<Outcome, number>()
      fc.assert(
        fc.property(fc.array(happening, { minLength: 10, maxLength: 24 }), (things) => {
          let snapshot = deepFreeze(aBusyHall({ zone, firstDate }))
          for (const [index, one] of things.entries()) {
            const step = lived(snapshot, one, { firstDate, name: `n${index}` }, { alternatives: false })
            outcomes.set(step.outcome, (outcomes.get(step.outcome) ?? 0) + 1)
            snapshot = step.snapshot
          }
          // Working off what was put off leaves what looking at everything anew would: no promise is broken or mended.
          const done = workedOff(snapshot, 3)
          for (const { before, after } of judgedAnew(done)) expect(after.status).toBe(before?.status)
        }),
        { seed, numRuns: 15 },
      )
      // Worth something only if it met yes and no.
      expect(outcomes.get('taken') ?? 0).toBeGreaterThan(40)
      expect(outcomes.get('refused') ?? 0).toBeGreaterThan(5)
    },
    120_000,
  )
})
