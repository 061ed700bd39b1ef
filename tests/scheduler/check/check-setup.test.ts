import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Finding, FindingCode, findingKinds } from '../../../src/domain/finding.ts'
import { checkSetup, type SetupToCheck } from '../../../src/scheduler/check/index.ts'
import { aCleanSite, type Changes, NOW } from './a-clean-site.ts'
import { cases } from './cases.ts'
import { damagedSite } from './damaged-site.ts'
import { silences } from './silences.ts'

const weights = new Map<string, string>(findingKinds.map(({ code, weight }) => [code, weight]))
const found = (changes: Changes = {}) => checkSetup(aCleanSite(changes), NOW)

/** The row it is about is there, and its pointer leads to something in it. */
function expectRowAndField(site: SetupToCheck, { about, field }: Finding): void {
  const rows: readonly { readonly id: string }[] = [
    ...[site.sections, site.exits, site.passages, site.rooms, site.storagePlaces, site.furnishings].flat(),
    ...[site.tools, site.equipment, site.layouts, site.people, site.shifts].flat(),
    ...[site.closures, site.stockChanges, site.rateSet ?? [], site.policy].flat(),
  ]
  const row = rows.find(({ id }) => id === about.id)
  expect(row, about.id).toBeDefined()
  const at = (field ?? '')
    .split('/')
    .slice(1)
    .reduce((node: unknown, key) => (Object(node) === node ? Reflect.get(Object(node), key) : undefined), row)
  expect(at, `${about.id}${field}`).not.toBeUndefined()
}

describe('a check of the set-up', () => {
  test('is silent about a complete, sensible set-up', () => {
    expect(found()).toEqual([])
  })

  for (const { title, changes, findings } of cases) {
    test(title, () => {
      const site = aCleanSite(changes)
      const shown = checkSetup(site, NOW)
      expect(shown).toEqual(findings.map((finding) => ({ ...finding, weight: weights.get(finding.code) })))
      for (const finding of shown) expectRowAndField(site, finding)
    })
  }

  test('has a smallest set-up that brings up each code there is', () => {
    const shown = new Set<string>(cases.flatMap(({ findings }) => findings.map(({ code }) => code)))
    expect(FindingCode.options.filter((code) => !shown.has(code))).toEqual([])
  })
})

describe('a check of the set-up is silent', () => {
  for (const { title, changes } of silences) {
    test(title, () => {
      expect(found(changes)).toEqual([])
    })
  }
})

describe('the list of findings', () => {
  test('has what is missing first, then what is odd, then what is worth a look', () => {
    expect([...new Set(findingKinds.map(({ weight }) => weight))]).toEqual(['missing', 'odd', 'note'])
    const inRuns = findingKinds.filter(({ weight }, index) => weight !== findingKinds[index - 1]?.weight)
    expect(inRuns).toHaveLength(3)
  })

  test('is given for whatever is entered, in its order, nothing twice, and the same every time', () => {
    fc.assert(
      fc.property(damagedSite(), (site) => {
        const findings = checkSetup(site, NOW)
        const ranks = findings.map(({ code }) => FindingCode.options.indexOf(code))
        expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
        for (const finding of findings) {
          expect(finding.message + finding.fix).not.toMatch(/undefined|NaN|Infinity|\[object/)
          expectRowAndField(site, finding)
        }
        expect(new Set(findings.map((finding) => JSON.stringify(finding))).size).toBe(findings.length)
        expect(checkSetup(structuredClone(site), NOW)).toEqual(findings)
      }),
      { seed: 20261125, numRuns: 100 },
    )
  })
})
