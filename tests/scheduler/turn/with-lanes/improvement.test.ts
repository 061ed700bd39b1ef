import { describe, expect, test } from 'vitest'
import { prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { foundPlan } from '../../../../src/scheduler/turn/with-lanes/found-plan.ts'
import { type Effort, Improvement } from '../../../../src/scheduler/turn/with-lanes/improvement.ts'
import { wishNumber } from '../../../../src/scheduler/turn/with-lanes/mode-choice.ts'
import { ScheduleGenerator } from '../../../../src/scheduler/turn/with-lanes/schedule-generation.ts'
import { aTurn, lane, mode, task } from '../a-turn.ts'

/** Short work that holds nothing up comes first in the list, and in the way of the long chain. */
const instance = aTurn({
  lanes: [lane('ada')],
  activities: [
    task('bins', { modes: [mode(10)] }),
    task('mop', { modes: [mode(10)] }),
    task('dry', { modes: [mode(40, 0)], after: [1] }),
  ],
})

function improve(workMost: number, isGoodEnough = () => false) {
  const generator = new ScheduleGenerator(prepared(instance))
  const wishes = instance.activities.map(() => 'earliest-end' as const)
  const draft = generator.forward([0, 1, 2], wishes)
  if (!draft) throw new Error('there is a plan')
  const plan = foundPlan(generator.problem, draft)
  const effort: Effort = { workMost, workDone: 0 }
  return {
    plan,
    better: new Improvement(generator, effort, isGoodEnough).improved(
      plan,
      new Int32Array(wishes.map(wishNumber)),
    ),
    effort,
  }
}

describe('pushing a plan late, then early again', () => {
  test('moves work behind what it was in the way of', () => {
    const { plan, better } = improve(10)
    expect(plan.readyTicks).toEqual([60])
    expect(better.readyTicks).toEqual([50])
    expect([...better.draft.starts]).toEqual([10, 0, 10])
  })

  test('counts every schedule it makes, and stops when a round does not help', () => {
    expect(improve(10).effort.workDone).toBe(4)
  })

  test('never makes more schedules than it may', () => {
    expect(improve(0)).toMatchObject({ effort: { workDone: 0 }, better: { readyTicks: [60] } })
    expect(improve(1)).toMatchObject({ effort: { workDone: 1 }, better: { readyTicks: [60] } })
    expect(improve(2)).toMatchObject({ effort: { workDone: 2 }, better: { readyTicks: [50] } })
  })

  test('leaves a plan alone that is good enough', () => {
    const { plan, better, effort } = improve(10, () => true)
    expect(better).toBe(plan)
    expect(effort.workDone).toBe(0)
  })
})
