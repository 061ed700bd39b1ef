import { describe, expect, test } from 'vitest'
import type { Furnishing } from '../../../src/domain/furnishing.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import { isForAdultsOnly, liftingIndex, pieceNotes } from '../../../src/scheduler/network/safety-notes.ts'
import { storeWay } from '../../../src/scheduler/network/travel.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aPolicy,
  northStore,
  pieces,
  stageDeck,
} from './a-network-input.ts'

const input = aNetworkInput()
const notes = (furnishing: Furnishing, units: 'metric' | 'us' = 'metric') =>
  pieceNotes(furnishing, storeWay(furnishing, northStore, input), { ...input, units }).join(' ')

/**
 * From the floor to knuckle height, close to the body: an 8-ft table of 27.2 kg (60 lb) by one person. With the
 * equation of NIOSH 94-110 in its metric constants, by hand:
 * 23 × (25 ÷ 30.48) × (1 − 0.003 × |38.1 − 75|) × (0.82 + 4.5 ÷ 38.1) × 0.97 × 0.95 = 14.51 kg at the origin,
 * so 27.2 ÷ 14.51 = 1.87 (with the constants in pounds and inches: 1.84).
 */
const longTable = aFurnishing('long table', 'long tables', {
  kind: 'long-table',
  massKilograms: 27.2,
  lift: {
    horizontalCentimetres: 30.48,
    originHeightCentimetres: 38.1,
    destinationHeightCentimetres: 76.2,
    asymmetryDegrees: 0,
    coupling: 'fair',
    liftsPerMinute: 0.5,
  },
})

describe('who may handle a piece', () => {
  test('is adults only where it is heavier for each hand than minors may lift', () => {
    const box = aFurnishing('box', 'boxes', { massKilograms: 21, handsPerPiece: 2 })
    expect(isForAdultsOnly(box, input)).toBe(true)
    expect(isForAdultsOnly({ ...box, massKilograms: 20 }, input)).toBe(false)
    expect(isForAdultsOnly(box, { ...input, policy: aPolicy({ minorMassLimitKilograms: 11 }) })).toBe(false)
    expect(notes(box)).toMatch(/Adults only: 11 kg for each who lifts, and minors lift 10 kg at most\./)
    expect(notes(box, 'us')).toMatch(/Adults only: 23 lb for each who lifts, and minors lift 22 lb at most\./)
  })

  test('is adults only for a stage, unless the furnishing says otherwise', () => {
    const lightDeck = { ...stageDeck, massKilograms: 15 }
    expect(isForAdultsOnly(lightDeck, input)).toBe(true)
    expect(isForAdultsOnly({ ...lightDeck, adultsOnly: false }, input)).toBe(false)
    const stool = aFurnishing('stool', 'stools', { massKilograms: 2, adultsOnly: true })
    expect(isForAdultsOnly(stool, input)).toBe(true)
  })
})

describe('the lifting index of a piece', () => {
  test('is that of the published equation, with its mass shared among the hands', () => {
    expect(liftingIndex(longTable)).toBeCloseTo(1.87, 1)
    expect(liftingIndex({ ...longTable, handsPerPiece: 2 })).toBeCloseTo(1.87 / 2, 1)
  })

  test('adds a note above 1.0', () => {
    expect(notes(longTable)).toMatch(/Lifting index 1\.8\d with 1 to a piece .* above 1\.0 some people/)
    expect(notes(longTable)).not.toMatch(/needs a trolley/)
    expect(notes({ ...longTable, handsPerPiece: 2 })).not.toMatch(/Lifting index/)
  })

  test('asks for a trolley, more hands or qualified staff above 2.0, and never gives more hands by itself', () => {
    const heavy = { ...longTable, massKilograms: 40 }
    expect(notes(heavy)).toMatch(/It needs a trolley, more hands or qualified staff\./)
    const layout = aLayout('meeting', { furnishings: [pieces(heavy, 3)] })
    const network = taskNetwork(aNetworkInput({ furnishings: [heavy], toLayout: layout }))
    expect(network.tasks.find((task) => task.furnishingId === heavy.id)!.modes[0]!.hands).toBe(1)
  })

  test('says so where no weight is recommended at all', () => {
    const far = { ...longTable, lift: { ...longTable.lift!, horizontalCentimetres: 80 } }
    expect(notes(far)).toMatch(/No weight is recommended for this lift/)
  })

  test('is not asked where nobody measured the lift', () => {
    expect(notes({ ...longTable, lift: null })).not.toMatch(/ifting index/)
  })
})

describe('carrying', () => {
  test('far has a note on putting it down, for what is heavy', () => {
    expect(notes({ ...longTable, lift: null })).toMatch(/Carried 25 m: put it down on the way; .* about 10 m/)
    expect(notes({ ...longTable, lift: null }, 'us')).toMatch(/Carried 82 ft: .* about 33 ft/)
    expect(notes(aFurnishing('cushion', 'cushions', { massKilograms: 1 }))).not.toMatch(/Carried/)
  })

  test('what is more than a team should lift has a note', () => {
    const piano = aFurnishing('piano', 'pianos', { massKilograms: 80, handsPerPiece: 2 })
    expect(notes(piano)).toMatch(/80 kg is more than guidance gives 2 people to lift \(about 33 kg/)
  })

  test('with more than four on one piece has a note', () => {
    expect(notes(aFurnishing('beam', 'beams', { massKilograms: 60, handsPerPiece: 6 }))).toMatch(
      /More than four people are unlikely/,
    )
  })
})
