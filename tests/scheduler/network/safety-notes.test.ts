import { describe, expect, test } from 'vitest'
import type { Furnishing } from '../../../src/domain/furnishing.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import { isForAdultsOnly, pieceNotes } from '../../../src/scheduler/network/safety-notes.ts'
import { storeWay } from '../../../src/scheduler/network/travel.ts'
import { liftingAdvice } from '../../../src/scheduler/standards/advice/lifting-advice.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aPolicy,
  chair,
  northStore,
  pieces,
  stageDeck,
} from './a-network-input.ts'

const input = aNetworkInput()
const notes = (furnishing: Furnishing, units: 'metric' | 'us' = 'metric') =>
  pieceNotes(furnishing, storeWay(furnishing, northStore, input), { ...input, units }, 1).join(' ')

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
  test('adds a note above 1.0, by the published equation with its mass shared among the hands', () => {
    expect(notes(longTable)).toMatch(/Lifting index 1\.8[78] with 1 to a piece .*\. Above 1\.0 some people/)
    const twice = { ...longTable, massKilograms: 2 * 27.2, handsPerPiece: 2 }
    expect(notes(twice)).toMatch(/Lifting index 1\.8[78] with 2 to a piece/)
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

  test('above 3.0 says that nearly everybody runs a risk, and not to lift it this way', () => {
    // 50 kg ÷ 14.51 kg = 3.45
    const tub = { ...longTable, massKilograms: 50 }
    expect(notes(tub)).toMatch(
      /Lifting index 3\.4\d .* Above 3\.0 nearly everybody .* do not lift it this way/,
    )
    expect(notes(tub)).not.toMatch(/some people/)
  })

  test('is not shown for what is rolled or slid', () => {
    const rolled = { ...longTable, massKilograms: 250, handsPerPiece: 6, method: 'roll' as const }
    for (const piece of [rolled, { ...rolled, method: 'slide' as const }]) {
      expect(notes(piece)).not.toMatch(/[Ll]ift/)
      expect(notes(piece)).toMatch(
        /Adults only: 42 kg for each who moves it, and minors handle 10 kg at most\./,
      )
    }
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

  test('what is more than a team should lift has a note, for women and for men', () => {
    // 2/3 of 2 × 16 kg and of 2 × 25 kg
    const piano = aFurnishing('piano', 'pianos', { massKilograms: 80, handsPerPiece: 2 })
    expect(notes(piano)).toMatch(
      /80 kg: guidance gives 2 people about 21 kg \(women\) to 33 kg \(men\) to lift at best height/,
    )
    expect(notes({ ...piano, massKilograms: 21 })).not.toMatch(/guidance gives/)
    expect(notes({ ...piano, massKilograms: 22 })).toMatch(/guidance gives/)
    expect(notes(piano, 'us')).toMatch(/176 lb: guidance gives 2 people about 47 lb \(women\) to 73 lb/)
  })

  test('has the same figures as the advice on the layout', () => {
    for (const piece of [stageDeck, longTable, { ...stageDeck, handsPerPiece: 3, massKilograms: 90 }]) {
      const advice = liftingAdvice({
        units: 'metric',
        furnishings: [piece],
        carryMetres: () => 25,
        minorMassLimitKilograms: 10,
      })
      const team = advice.find(({ code }) => code === 'team-lift')!
      const figures = (text: string) =>
        /about ([\d.]+) kg \(women\) to ([\d.]+) kg \(men\)/.exec(text)?.slice(1).map(Number).map(Math.round)
      expect(team.verdict).toBe('look')
      expect(figures(team.text)).toHaveLength(2)
      expect(figures(notes(piece))).toEqual(figures(team.text))
    }
  })

  test('a deck that comes on a trolley is lifted off it all the same', () => {
    const onTrolley: Furnishing = {
      ...stageDeck,
      method: 'trolley',
      massKilograms: 55,
      trolley: { capacityPieces: 6, countOwned: 1 },
    }
    expect(notes(onTrolley)).toMatch(/55 kg: guidance gives 2 people .* more hands to lift it\./)
  })

  test('with four to a piece there is no published figure, and none is made up', () => {
    expect(notes(aFurnishing('beam', 'beams', { massKilograms: 60, handsPerPiece: 4 }))).toMatch(
      /More than three people to a piece: nothing is published/,
    )
  })

  test('with more than four on one piece has a note', () => {
    expect(notes(aFurnishing('beam', 'beams', { massKilograms: 60, handsPerPiece: 6 }))).toMatch(
      /More than four people are unlikely/,
    )
  })
})

describe('how many people to a piece', () => {
  const kinds = ['round-table', 'long-table', 'stage-deck', 'stage-rail', 'post-pair', 'games-table'] as const
  const handled = (kind: Furnishing['kind'], handsPerPiece: number) =>
    notes(aFurnishing('piece', 'pieces', { kind, massKilograms: 8, handsPerPiece }))

  test('is never said to be other than the task says', () => {
    for (const kind of kinds) {
      expect(handled(kind, 1)).not.toMatch(/Two people to/)
      expect(handled(kind, 2)).toMatch(/^Two people to /)
      expect(handled(kind, 3)).toMatch(/^Three people to /)
      expect(handled(kind, 3)).not.toMatch(/Two/)
    }
  })

  test('is at least two for tables, decks, rails and posts, whatever the list says', () => {
    const alone = kinds.filter((kind) =>
      handled(kind, 1).includes('At least two people, whatever the list says.'),
    )
    expect(alone).toEqual(['round-table', 'long-table', 'stage-deck', 'stage-rail', 'post-pair'])
    for (const kind of kinds) expect(handled(kind, 2)).not.toMatch(/At least two/)
  })

  test('says adults only of a deck just where it is so', () => {
    expect(handled('stage-deck', 2)).toMatch(/Two people to every deck, adults only\./)
    const forAll = { ...stageDeck, massKilograms: 15, adultsOnly: false }
    expect(notes(forAll)).toMatch(/Two people to every deck\./)
    expect(notes(forAll)).not.toMatch(/adults only/i)
  })
})

describe('chairs that are carried two at a time', () => {
  const byHand = { ...chair, trolley: null, method: 'carry' as const }
  const layout = aLayout('meeting', { furnishings: [pieces(chair, 20)] })
  const chairsOf = (furnishing: Furnishing) =>
    taskNetwork(aNetworkInput({ furnishings: [furnishing], toLayout: layout })).tasks.filter(
      (task) => task.furnishingId === chair.id,
    )

  test('are for adults where two are more than minors may lift, and off a trolley one at a time are not', () => {
    const carried = chairsOf(byHand)
    expect(carried[0]!.text).toMatch(/, 2 at a time/)
    expect(carried.every(({ adultsOnly }) => adultsOnly)).toBe(true)
    expect(carried[0]!.safetyNotes.join(' ')).toMatch(
      /Adults only: 12 kg for each who carries 2 at a time, and minors lift 10 kg at most\./,
    )
    expect(chairsOf({ ...byHand, massKilograms: 5 }).some(({ adultsOnly }) => adultsOnly)).toBe(false)
    expect(chairsOf(chair).some(({ adultsOnly }) => adultsOnly)).toBe(false)
  })
})
