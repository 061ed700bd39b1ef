import { describe, expect, test } from 'vitest'
import { accessAdvice } from '../../../../src/scheduler/standards/advice/access-advice.ts'
import type { AdviceInput } from '../../../../src/scheduler/standards/advice/advice-input.ts'
import { aLayout, itemOf } from './a-layout.ts'

const advice = (code: string, changes: Partial<AdviceInput> = {}) =>
  itemOf(accessAdvice(aLayout(changes)), code)

describe('access for 342 chairs in rows with amplified sound', () => {
  const changes = { seats: 342 }

  test('six wheelchair spaces, each with a companion seat', () => {
    expect(advice('wheelchair-spaces', changes)).toEqual({
      topic: 'access',
      code: 'wheelchair-spaces',
      text: 'Leave 6 wheelchair spaces among 342 seats, off the aisles and ways.',
      found: null,
      required: 6,
      unit: 'spaces',
      verdict: 'unknown',
      source: '2010 ADA Standards 221.2, written for fixed seats; for loose chairs taken as the least',
      status: 'common practice, no source',
    })
    expect(advice('companion-seats', changes)).toMatchObject({ required: 6, status: 'from memory' })
    expect(advice('wheelchair-space-width', changes)?.text).toBe(
      'A wheelchair space is 36 in wide, or 33 in each side by side, and 48 in deep, or 60 in if entered from the side.',
    )
    expect(advice('wheelchair-space-width', { ...changes, units: 'metric' })).toMatchObject({
      required: 914,
      unit: 'mm',
    })
  })

  test('fourteen receivers, four of them for hearing aids; none where nothing is amplified', () => {
    expect(advice('listening-receivers', changes)).toMatchObject({
      required: 14,
      text: 'With amplified sound have 14 hearing receivers ready, 4 of them for hearing aids.',
      status: 'read',
    })
    expect(advice('listening-receivers', { ...changes, amplified: false })).toBeUndefined()
  })

  test('no places at tables are asked for where there are none, but a way of 36 inches', () => {
    expect(advice('accessible-dining-places', changes)).toBeUndefined()
    expect(advice('accessible-route', changes)).toMatchObject({
      required: 36,
      unit: 'in',
      verdict: 'unknown',
    })
  })
})

describe('access at tables', () => {
  const banquet = { layoutKind: 'banquet', tablesCount: 20, seats: 161 } as const

  test('one place in twenty or part of it, with clear floor and a way behind it', () => {
    expect(advice('accessible-dining-places', banquet)).toMatchObject({ required: 9, unit: 'places' })
    expect(advice('dining-clear-floor', banquet)?.text).toBe(
      'Such a place has 30 in by 48 in of clear floor and a top 28 to 34 in high, with knee room under it.',
    )
    expect(advice('dining-way-behind', banquet)).toMatchObject({ required: 31 })
  })
})

test('an item of several measures names the section of each, and is as sure as the least sure', () => {
  // Width of a space second-hand, its depth from memory.
  expect(advice('wheelchair-space-width')).toMatchObject({
    source: '2010 ADA Standards 802.1.2; 2010 ADA Standards 802.1.3',
    status: 'from memory',
  })
  expect(advice('accessible-route')?.status).toBe('from memory')
})

describe('where seats are few or not known', () => {
  test('three seats need no space, and it says so', () => {
    expect(advice('wheelchair-spaces', { seats: 3 })).toMatchObject({ required: 0, verdict: 'ok' })
    expect(advice('companion-seats', { seats: 3 })).toBeUndefined()
    expect(advice('listening-receivers', { seats: 0 })).toMatchObject({ required: 0, verdict: 'ok' })
  })

  test('the guests expected stand in for seats; with neither known it is unknown', () => {
    expect(advice('wheelchair-spaces', { seats: null, headcount: 60 })?.required).toBe(4)
    for (const code of ['wheelchair-spaces', 'listening-receivers']) {
      expect(advice(code, { seats: null })).toMatchObject({ required: null, verdict: 'unknown' })
    }
    expect(advice('accessible-dining-places', { seats: null, tablesCount: 5 })?.required).toBeNull()
  })
})

test('outside the United States the figures are a guide and say so', () => {
  const items = accessAdvice(aLayout({ locale: 'uk', units: 'metric', tablesCount: 10 })).filter(
    ({ code }) => code !== 'step-free-exit',
  )
  expect(items.length).toBeGreaterThan(5)
  for (const item of items) {
    expect(item.text).toMatch(/\(the figure of the United States: none of this country is held here\)\.$/)
    expect(item.verdict).toBe('unknown')
  }
})

test('every piece of advice is one finished sentence with a source, in either units', () => {
  for (const units of ['us', 'metric'] as const) {
    for (const seats of [null, 0, 1, 40, 5000]) {
      const items = accessAdvice(aLayout({ units, seats, tablesCount: 3 }))
      expect(new Set(items.map(({ code }) => code)).size).toBe(items.length)
      for (const item of items) {
        expect(item.text).toMatch(/^[A-Z].*\.$/)
        expect(item.text).not.toMatch(/NaN|undefined|null/)
        const expected = item.code === 'step-free-exit' ? /without steps/ : /2010 ADA Standards/
        expect(item.source).toMatch(expected)
      }
    }
  }
})

test('a way out without steps is looked for among the exits, and missed where there is none', () => {
  const exits = (stepFree: (boolean | null)[]) =>
    aLayout().exits.map((exit, i) => ({ ...exit, stepFree: stepFree[i] }))
  expect(advice('step-free-exit', { exits: exits([true, false]) })).toMatchObject({ verdict: 'ok', found: 1 })
  expect(advice('step-free-exit', { exits: exits([false, false]) })).toMatchObject({
    verdict: 'look',
    found: 0,
  })
  expect(advice('step-free-exit', { exits: exits([false, null]) })).toMatchObject({
    verdict: 'unknown',
    found: null,
  })
  expect(advice('step-free-exit', { exits: [] })).toBeUndefined()
})

test('what cannot be is refused with the name of the field', () => {
  expect(() => accessAdvice(aLayout({ seats: -1 }))).toThrow(
    'seats: expected a whole number of 0 or more, got -1',
  )
})
