import fc from 'fast-check'
import { expect, test } from 'vitest'
import { prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { seededRandom } from '../../../../src/scheduler/turn/seeded-random.ts'
import { emptyDraft } from '../../../../src/scheduler/turn/with-lanes/draft.ts'
import { foundPlan } from '../../../../src/scheduler/turn/with-lanes/found-plan.ts'
import { modeRules } from '../../../../src/scheduler/turn/with-lanes/mode-choice.ts'
import { ScheduleGenerator } from '../../../../src/scheduler/turn/with-lanes/schedule-generation.ts'
import { Variation } from '../../../../src/scheduler/turn/with-lanes/variation.ts'
import { smallInstance } from '../a-turn.ts'

test('whatever is moved, changed or crossed: every task is listed once, behind what it waits for, with a wish it can have', () => {
  let varied = 0
  fc.assert(
    fc.property(smallInstance(8, 60), fc.nat(), (instance, seed) => {
      const problem = prepared(instance)
      const random = seededRandom(seed)
      const variation = new Variation(problem, random)
      const generator = new ScheduleGenerator(problem)
      const planBy = (rule: number) => {
        const draft = emptyDraft(problem)
        const wishes = new Int32Array(problem.activityCount).fill(rule)
        const values = instance.activities.map(random)
        return generator.writeSoonestFirst(values, wishes, draft) ? foundPlan(problem, draft) : null
      }
      const one = planBy(-1)
      const other = planBy(-3)
      if (!one || !other) return
      for (let round = 0; round < 5; round++) {
        if (round % 2 === 0) variation.cross(one, other)
        else variation.copy(one)
        for (let change = 0; change < 6; change++) {
          if (random() < 0.5) variation.moveOne()
          else variation.changeMode()
        }
        const { list, wishes } = variation
        expect([...list].sort((a, b) => a - b)).toEqual([...list.keys()])
        for (const [activity, { after }] of instance.activities.entries()) {
          for (const before of after) expect(list.indexOf(before)).toBeLessThan(list.indexOf(activity))
          const wish = wishes[activity]!
          const isMode = wish >= problem.modeFirst[activity]! && wish < problem.modeFirst[activity + 1]!
          expect(isMode || (wish < 0 && wish >= -modeRules.length)).toBe(true)
        }
        varied += 1
      }
    }),
    { seed: 20261125, numRuns: 100 },
  )
  expect(varied).toBeGreaterThan(200)
})
