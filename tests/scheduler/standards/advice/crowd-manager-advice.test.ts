/** Crowd managers, for the same people as the exits. */
import { describe, expect, test } from 'vitest'
import type { AdviceInput } from '../../../../src/scheduler/standards/advice/advice-input.ts'
import { occupancyAdvice } from '../../../../src/scheduler/standards/advice/occupancy-advice.ts'
import { NEW_YORK_TABLES } from '../../../../src/scheduler/standards/occupancy/us-tables.ts'
import { aLayout, itemOf } from './a-layout.ts'

const advice = (code: string, changes: Partial<AdviceInput> = {}) =>
  itemOf(occupancyAdvice(aLayout(changes)), code)

describe('crowd managers', () => {
  const large = { netAreaSquareMetres: 700, occupantLimitPosted: null, seats: null } as const

  test('for fewer than the fire code begins with it cannot be told: other codes ask earlier', () => {
    expect(advice('crowd-managers')).toEqual({
      topic: 'occupancy',
      code: 'crowd-managers',
      text: 'For 343 people, the load of this layout, the International Fire Code asks for no trained crowd manager; NFPA 101 asks for 2 (at least 1 in any assembly room, 1 for each 250); the Fire Code of New York State asks for none (at least 2 above 500 people, 1 for each 250); ask which code holds here.',
      found: null,
      required: 0,
      unit: 'crowd managers',
      verdict: 'unknown',
      source: expect.stringMatching(/IFC 2018 403\.12\.3.*NFPA 101 12\.7\.6.*Fire Code of New York State/),
      status: 'from memory',
    })
  })

  test('are counted on the same people as the exits, and it says on whom', () => {
    // 700 m² in rows, 7,535 ft² at 7 ft² a person.
    expect(advice('exits-people', large)?.required).toBe(1077)
    expect(advice('crowd-managers', large)).toMatchObject({ required: 5, verdict: 'unknown' })
    expect(advice('crowd-managers', { ...large, headcount: 120 })?.text).toBe(
      'For 1,077 people, the load of this layout, the International Fire Code asks for 5 trained crowd managers on duty, none for the 120 expected.',
    )
    expect(advice('crowd-managers', { ...large, headcount: 1251 })?.text).toBe(
      'For 1,251 people, as many as are expected, the International Fire Code asks for 6 trained crowd managers on duty.',
    )
  })

  test('in New York begin above 500, and worship alone is free of them up to 1,000', () => {
    const hall = { tables: NEW_YORK_TABLES, seats: 600, occupantLimitPosted: null }
    expect(advice('crowd-managers', hall)?.required).toBe(3)
    expect(advice('crowd-managers', { ...hall, worshipOnly: true })?.required).toBe(0)
  })

  test('of nobody there is nothing to ask, and in the United Kingdom no figure is held', () => {
    const nobody = { netAreaSquareMetres: 0, occupantLimitPosted: null, seats: null }
    expect(advice('crowd-managers', nobody)).toMatchObject({ required: 0, verdict: 'ok' })
    expect(advice('crowd-managers', { locale: 'uk' })).toBeUndefined()
  })
})
