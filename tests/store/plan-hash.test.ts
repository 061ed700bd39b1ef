import { describe, expect, test } from 'vitest'
import { Plan } from '../../src/domain/plan.ts'
import { planHash } from '../../src/store/plan-hash.ts'
import { aBooking, aPlan } from './a-world.ts'

describe('the hash of a plan', () => {
  const plan = aPlan(aBooking('dinner'))

  test('is the same in whatever order its fields came through its schema', () => {
    const reversed = Object.fromEntries(Object.entries(plan).reverse())
    expect(Object.keys(reversed)).not.toEqual(Object.keys(plan))
    expect(planHash(Plan.parse(reversed))).toBe(planHash(plan))
  })

  test('is another when one task starts later, or the order of tasks changes', () => {
    const [first, second] = plan.tasks
    const later = { ...first!, startsAt: second!.startsAt }
    expect(planHash({ ...plan, tasks: [later, second!] })).not.toBe(planHash(plan))
    expect(planHash({ ...plan, tasks: [second!, first!] })).not.toBe(planHash(plan))
  })
})
