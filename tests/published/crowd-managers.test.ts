/**
 * Crowd managers against the IFC (403.12.3 in 2018, 403.11.3 in 2021), the Fire Code of New York State and NFPA 101. The
 * thresholds of the IFC are from memory; editions and states differ, which is why the rule is a setting.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  CROWD_MANAGER_RULES,
  type CrowdManagerRuleSet,
} from '../../src/scheduler/standards/occupancy/crowd-manager-rules.ts'
import { crowdManagersNeeded } from '../../src/scheduler/standards/occupancy/crowd-managers.ts'

const managers = (rule: CrowdManagerRuleSet, people: number, worshipOnly = false): number =>
  crowdManagersNeeded(CROWD_MANAGER_RULES[rule], { people, worshipOnly })

describe('343 people', () => {
  test('need no crowd manager by the IFC or in New York, and two by NFPA 101', () => {
    expect(managers('ifc-2018', 343)).toBe(0)
    expect(managers('ifc-2021', 343)).toBe(0)
    expect(managers('new-york', 343)).toBe(0)
    expect(managers('nfpa-101', 343)).toBe(2)
  })
})

describe('crowd managers', () => {
  test('by the IFC begin above 1,000 people (from memory): one for each 250 or part, at least two (second-hand)', () => {
    expect([0, 1000, 1001, 1250, 1251].map((people) => managers('ifc-2018', people))).toEqual([0, 0, 5, 5, 6])
    expect([0, 1000, 1001, 1250, 1251].map((people) => managers('ifc-2021', people))).toEqual([0, 0, 5, 5, 6])
  })

  test('in New York begin above 500 people (read)', () => {
    expect([500, 501, 750, 751].map((people) => managers('new-york', people))).toEqual([0, 3, 3, 4])
  })

  test('by NFPA 101 are one in any assembly room, and one for each 250 above that (second-hand)', () => {
    expect([0, 1, 250, 251, 500, 501].map((people) => managers('nfpa-101', people))).toEqual([
      0, 1, 1, 2, 2, 3,
    ])
  })

  test('are at least two where a local rule begins lower', () => {
    const rule = { ...CROWD_MANAGER_RULES['ifc-2018'], noneUpToPeople: 100 }
    expect(crowdManagersNeeded(rule, { people: 120, worshipOnly: false })).toBe(2)
  })

  test('are not asked of worship alone up to 1,000 (IFC, second-hand) or 500 (NFPA 1, 2021, read)', () => {
    expect([500, 501].map((people) => managers('nfpa-101', people, true))).toEqual([0, 3])
    expect([1000, 1001].map((people) => managers('new-york', people, true))).toEqual([0, 5])
    // An older state text of NFPA 101 says 2,000 (read): a setting.
    const older = { ...CROWD_MANAGER_RULES['nfpa-101'], worshipExemptUpToPeople: 2000 }
    expect(crowdManagersNeeded(older, { people: 2000, worshipOnly: true })).toBe(0)
    const notExempt = { ...CROWD_MANAGER_RULES['nfpa-101'], worshipExemptUpToPeople: null }
    expect(crowdManagersNeeded(notExempt, { people: 300, worshipOnly: true })).toBe(2)
  })

  test('never fall with more people, and worship never needs more than others', () => {
    const people = fc.integer({ min: 0, max: 20_000 })
    fc.assert(
      fc.property(
        fc.constantFrom<CrowdManagerRuleSet>('ifc-2018', 'ifc-2021', 'new-york', 'nfpa-101'),
        people,
        people,
        fc.boolean(),
        (rule, a, b, worship) => {
          expect(managers(rule, Math.max(a, b), worship)).toBeGreaterThanOrEqual(
            managers(rule, Math.min(a, b), worship),
          )
          expect(managers(rule, a, true)).toBeLessThanOrEqual(managers(rule, a, false))
        },
      ),
      { seed: 20261125, numRuns: 300 },
    )
  })

  test('for less than nobody are refused', () => {
    expect(() => managers('nfpa-101', -1)).toThrow('people: expected a whole number of 0 or more, got -1')
  })
})
