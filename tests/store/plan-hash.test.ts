import { describe, expect, test } from 'vitest'
import { planHash } from '../../src/store/plan-hash.ts'
import { aBooking, aPlan } from './a-world.ts'

describe('the hash of a plan', () => {
  const plan = aPlan(aBooking('dinner'))

  test('is the same in whatever order its fields come', () => {
    const reversed = Object.fromEntries(Object.entries(plan).reverse())
    expect(Object.keys(reversed)).not.toEqual(Object.keys(plan))
    expect(planHash(Object.assign({}, reversed, plan))).toBe(planHash(plan))
  })

  test('is another when one task starts later, or the order of tasks changes', () => {
    const [first, second] = plan.tasks
    const later = { ...first!, startsAt: second!.startsAt }
    expect(planHash({ ...plan, tasks: [later, second!] })).not.toBe(planHash(plan))
    expect(planHash({ ...plan, tasks: [second!, first!] })).not.toBe(planHash(plan))
  })
})
