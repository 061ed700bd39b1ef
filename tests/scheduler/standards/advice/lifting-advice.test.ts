/** Advice on lifting what a layout is made of. */
import { describe, expect, test } from 'vitest'
import { Furnishing } from '../../../../src/domain/furnishing.ts'
import { type AdviceItem, liftingAdvice } from '../../../../src/scheduler/standards/advice/index.ts'

const aPiece = (wishes: object) =>
  Furnishing.parse({
    id: 'furnishing_piece',
    siteId: 'site_test',
    name: 'long table',
    namePlural: 'long tables',
    kind: 'long-table',
    countOwned: 10,
    massKilograms: 27.2,
    storagePlaceId: 'storage_one',
    method: 'carry',
    handsPerPiece: 1,
    setPersonSeconds: null,
    strikePersonSeconds: null,
    trolley: null,
    ...wishes,
  })

function adviceOn(piece: Furnishing, carryMetres: number | null = 5, units: 'metric' | 'us' = 'metric') {
  return liftingAdvice({
    units,
    furnishings: [piece],
    carryMetres: () => carryMetres,
    minorMassLimitKilograms: 10,
  })
}
const coded = (items: readonly AdviceItem[], code: string) => items.find((item) => item.code === code)

describe('advice on lifting', () => {
  test('tells the lifting index of a piece whose lift is described, and what it means', () => {
    // The 8-ft table of 60 lb lifted by one person (H 12 in, V 15 to 30 in, one lift in two minutes, fair grip): 1.84 by
    // the revised NIOSH lifting equation with US constants, computed, not published; metric constants differ a little.
    const lift = {
      horizontalCentimetres: 30.48,
      originHeightCentimetres: 38.1,
      destinationHeightCentimetres: 76.2,
      coupling: 'fair',
      liftsPerMinute: 0.5,
    }
    const item = coded(adviceOn(aPiece({ lift })), 'lifting-index')
    expect(item?.found).toBeGreaterThan(1.75)
    expect(item?.found).toBeLessThan(1.95)
    expect(item?.verdict).toBe('look')
    expect(item?.text).toContain('Above 1.0 some people run a higher risk')
    expect(item?.source).toContain('NIOSH 94-110')
  })

  test('with two people the index halves, and hands are not added by themselves', () => {
    const lift = {
      horizontalCentimetres: 30,
      originHeightCentimetres: 40,
      destinationHeightCentimetres: 75,
      coupling: 'fair',
    }
    const alone = coded(adviceOn(aPiece({ lift })), 'lifting-index')
    const together = coded(adviceOn(aPiece({ lift, handsPerPiece: 2 })), 'lifting-index')
    expect(together!.found!).toBeCloseTo(alone!.found! / 2, 1)
    expect(together?.verdict).toBe('ok')
  })

  test('says nothing of an index where nobody has said how the piece is lifted', () => {
    expect(coded(adviceOn(aPiece({})), 'lifting-index')).toBeUndefined()
  })

  test('holds a piece against what two people may lift together', () => {
    // HSE L23, second-hand: two thirds of the sum; 16 kg for a woman and 25 kg for a man at the best height.
    const item = coded(adviceOn(aPiece({ massKilograms: 27, handsPerPiece: 2 })), 'team-lift')
    expect(item).toMatchObject({ found: 27, required: 21.3, unit: 'kg', verdict: 'look' })
    expect(item?.text).toContain('21.3 kg (women) to 33.3 kg (men)')
  })

  test('for four people there is nothing published to hold it against', () => {
    expect(coded(adviceOn(aPiece({ handsPerPiece: 4 })), 'team-lift')).toMatchObject({
      required: null,
      verdict: 'unknown',
    })
  })

  test('a heavy piece carried further than 10 m wants a rest or a trolley', () => {
    const far = adviceOn(aPiece({ handsPerPiece: 2 }), 25)
    expect(coded(far, 'carry-distance')).toMatchObject({ found: 25, required: 10, verdict: 'look' })
    expect(coded(adviceOn(aPiece({ handsPerPiece: 2 }), 10), 'carry-distance')).toBeUndefined()
    expect(coded(adviceOn(aPiece({ massKilograms: 4 }), 25), 'carry-distance')).toBeUndefined()
  })

  test('what is over the limit of the site for minors is work for adults', () => {
    expect(coded(adviceOn(aPiece({})), 'not-for-minors')?.text).toBe(
      'One long table is 27.2 kg for each who lifts it; people under 18 lift at most 10 kg at this site, so this is work for adults.',
    )
    expect(coded(adviceOn(aPiece({ massKilograms: 10 })), 'not-for-minors')).toBeUndefined()
  })

  test('leaves out what is light, and begins with the heaviest', () => {
    const pieces = [
      aPiece({ id: 'furnishing_cloth', name: 'table cloth', massKilograms: 0.6, method: 'carry' }),
      aPiece({ id: 'furnishing_chair', name: 'chair', massKilograms: 5, method: 'trolley' }),
      aPiece({ id: 'furnishing_table', name: 'table', massKilograms: 27, handsPerPiece: 2 }),
      aPiece({ id: 'furnishing_deck', name: 'stage deck', massKilograms: 55, handsPerPiece: 2 }),
    ]
    const items = liftingAdvice({
      units: 'metric',
      furnishings: pieces,
      carryMetres: () => 25,
      minorMassLimitKilograms: 10,
    })
    expect(items.filter(({ text }) => /cloth|chair/.test(text))).toEqual([])
    expect(items[0]?.text).toContain('stage deck')
    const masses = items.filter(({ code }) => code === 'team-lift').map(({ found }) => found)
    expect(masses).toEqual([55, 27])
  })

  test('a light piece is told of where minors may not lift it, or its lift is described', () => {
    const light = aPiece({ massKilograms: 4, method: 'trolley' })
    const items = liftingAdvice({
      units: 'metric',
      furnishings: [light],
      carryMetres: () => 5,
      minorMassLimitKilograms: 3,
    })
    expect(coded(items, 'not-for-minors')?.required).toBe(3)
    const lift = {
      horizontalCentimetres: 60,
      originHeightCentimetres: 0,
      destinationHeightCentimetres: 170,
      coupling: 'poor',
    }
    expect(coded(adviceOn(aPiece({ massKilograms: 4, lift })), 'lifting-index')).toBeDefined()
    expect(adviceOn(light)).toEqual([])
  })

  test('an index for two rests on an even share of the mass, which no source gives', () => {
    const lift = {
      horizontalCentimetres: 30,
      originHeightCentimetres: 40,
      destinationHeightCentimetres: 75,
      coupling: 'fair',
    }
    expect(coded(adviceOn(aPiece({ lift })), 'lifting-index')?.status).toBe('second-hand')
    expect(coded(adviceOn(aPiece({ lift, handsPerPiece: 2 })), 'lifting-index')).toMatchObject({
      status: 'common practice, no source',
    })
  })

  test('speaks in pounds where the site does', () => {
    expect(coded(adviceOn(aPiece({}), 5, 'us'), 'not-for-minors')?.text).toContain('60 lb')
  })
})
