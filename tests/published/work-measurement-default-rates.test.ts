/**
 * The rates a site starts with, each held against the range its source gives. Every number of the default rates is
 * looked at: one that is new must be given a range here, or be said to have none.
 */
import { describe, expect, test } from 'vitest'
import { defaultPolicy } from '../../src/api/policies/default-policy.ts'
import { PolicyId, SiteId } from '../../src/domain/ids.ts'
import { DEFAULT_RATES } from '../../src/scheduler/network/default-rates.ts'
import {
  ACTION_DISTANCES,
  ALLOWANCE_FIGURES,
  CLEANING_RANGES,
  type CleaningRange,
  DRYING_RANGES,
  type DryingRange,
  HANDLING_RANGES,
  type HandlingRange,
  indexSeconds,
  MTM_FIGURES,
  MTM_PACES,
  mtmWalkingMetresPerSecond,
  PIECE_CLEANING_RANGES,
  type PieceCleaningRange,
  VOLUNTEER_PACE,
} from '../../src/scheduler/standards/work-measurement/index.ts'

interface Range {
  readonly least: number
  readonly most: number
  readonly source: string
}

/** Published figures carry two or three digits. */
const DIGITS_SHARE = 0.005

function numbersIn(value: unknown, path: string): readonly (readonly [path: string, value: number])[] {
  if (typeof value === 'number') return [[path, value]]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) =>
    numbersIn(inner, path === '' ? key : `${path}.${key}`),
  )
}

function setAndStrike(path: string, { set, strike, source }: HandlingRange): [string, Range][] {
  const ranges: [string, Range][] = []
  if (set) ranges.push([`${path}.setPersonSeconds`, { ...set, source }])
  if (strike) ranges.push([`${path}.strikePersonSeconds`, { ...strike, source }])
  return ranges
}

/** By trolley and by hand take the same, except for the chair that is carried one by one. */
const handlingByKind: Readonly<Record<string, HandlingRange>> = {
  'stacking-chair': HANDLING_RANGES.stackingChairOffTrolley,
  'folding-chair': HANDLING_RANGES.foldingChair,
  'round-table': HANDLING_RANGES.roundTable60Inches,
  'long-table': HANDLING_RANGES.longTable8Feet,
  'stage-deck': HANDLING_RANGES.stageDeck,
  'stage-rail': HANDLING_RANGES.guardRail,
  'post-pair': HANDLING_RANGES.postPair,
  'games-table': HANDLING_RANGES.longTable8Feet, // no range of its own: handled like an 8-ft table
  'table-cloth': HANDLING_RANGES.tableCloth,
  'place-setting': HANDLING_RANGES.placeSettingSimple,
  'dance-floor-panel': HANDLING_RANGES.danceFloorPanel,
}

const SECONDS_PER_MINUTE = 60
const SQUARE_METRES_PER_1000_SQUARE_FEET = 92.903_04

const perSquareMetre = (row: CleaningRange): Range => ({
  least: (row.leastMinutesPer1000SquareFeet * SECONDS_PER_MINUTE) / SQUARE_METRES_PER_1000_SQUARE_FEET,
  most: (row.mostMinutesPer1000SquareFeet * SECONDS_PER_MINUTE) / SQUARE_METRES_PER_1000_SQUARE_FEET,
  source: row.source,
})

const perPiece = (row: PieceCleaningRange): Range => ({
  least: row.leastSecondsPerPiece,
  most: row.mostSecondsPerPiece,
  source: row.source,
})

const drying = (row: DryingRange): Range => ({
  least: row.leastSeconds,
  most: row.mostSeconds,
  source: row.source,
})

const cleaningByMethod: Readonly<Record<string, CleaningRange>> = {
  'dust-mop': CLEANING_RANGES.dustMop24Inches,
  sweep: CLEANING_RANGES.sweep24Inches,
  vacuum: CLEANING_RANGES.vacuumUpright12Inches,
  'spot-mop': CLEANING_RANGES.spotMop,
  'wet-mop': CLEANING_RANGES.wetMop16Ounces,
}

const longWalks = ACTION_DISTANCES.flatMap(({ index, metresMost }) =>
  index >= 24 && metresMost !== null ? [metresMost / indexSeconds(index)] : [],
)
const mtm = (pace: keyof typeof MTM_PACES, figure: 'paceFree' | 'paceObstructedOrLoaded') =>
  mtmWalkingMetresPerSecond(MTM_PACES[pace].metres, MTM_FIGURES[figure].tmu)
const pushing = HANDLING_RANGES.loadedTrolleyPer10Metres.set

const rangesByPath = new Map<string, Range>([
  ...Object.entries(handlingByKind).flatMap(([kind, row]) => [
    ...setAndStrike(`fromTrolley.${kind}`, row),
    ...setAndStrike(`byHand.${kind}`, kind === 'stacking-chair' ? HANDLING_RANGES.stackingChairCarried : row),
  ]),
  ...Object.entries(cleaningByMethod).map(([method, row]): [string, Range] => [
    `cleaningPersonSecondsPerSquareMetre.${method}`,
    perSquareMetre(row),
  ]),
  ...(['vinyl', 'tile', 'sealed-wood', 'concrete'] as const).map((floor): [string, Range] => [
    `dryingSeconds.${floor}`,
    drying(DRYING_RANGES[floor]),
  ]),
  [
    'walkingMetresPerSecond',
    {
      least: Math.min(...longWalks),
      most: mtm('unloaded', 'paceFree'),
      source: 'from the long walks of BasicMOST to the free pace of MTM-1; from memory',
    },
  ],
  [
    'carryingMetresPerSecond',
    {
      least: mtm('loadedOver16Kilograms', 'paceObstructedOrLoaded'),
      most: mtm('unloaded', 'paceObstructedOrLoaded'),
      source: 'MTM-1, loaded pace of 24 in to a full one; from memory',
    },
  ],
  [
    'loadedTrolleyMetresPerSecond',
    {
      least: 10 / pushing.most,
      most: 10 / pushing.least,
      source: HANDLING_RANGES.loadedTrolleyPer10Metres.source,
    },
  ],
  [
    'alignPersonSecondsPerChair',
    { ...HANDLING_RANGES.alignRows.set, source: HANDLING_RANGES.alignRows.source },
  ],
  ['wipeTablePersonSeconds', perPiece(PIECE_CLEANING_RANGES.tableWiped)],
  ['binPersonSeconds', perPiece(PIECE_CLEANING_RANGES.bin)],
])

/** Guesses for which nobody states a range; the site's own times replace them. */
const withoutRange = [
  /^(fromTrolley|byHand)\.other\./,
  /^piecesPerCarry\./,
  /^storedAreaSquareMetres\./,
  /^trolleyHandlingSeconds$/,
  /^shortCarryMetres$/,
  /^routeUnknownMetres$/,
  /^markOutPersonSecondsPerPiece$/,
  /^walkthroughModes\./,
  /^signOffModes\./,
]

const defaults = numbersIn(DEFAULT_RATES, '')
const heldAgainstSomething = defaults.filter(([path]) => rangesByPath.has(path))

describe('the rates a site starts with', () => {
  test.each(heldAgainstSomething)('%s = %d lies within the range of its source', (path, value) => {
    const { least, most, source } = rangesByPath.get(path)!
    expect(value, source).toBeGreaterThanOrEqual(least * (1 - DIGITS_SHARE))
    expect(value, source).toBeLessThanOrEqual(most * (1 + DIGITS_SHARE))
  })

  test('each have a range to be held against, or are known to have none', () => {
    const unheard = defaults
      .map(([path]) => path)
      .filter((path) => !rangesByPath.has(path) && !withoutRange.some((pattern) => pattern.test(path)))
    expect(unheard).toEqual([])
  })

  test('cover at least chairs, tables, decks, floors and walking: this file is not looking past them', () => {
    const paths = heldAgainstSomething.map(([path]) => path)
    expect(paths).toEqual(
      expect.arrayContaining([
        'fromTrolley.stacking-chair.setPersonSeconds',
        'byHand.stacking-chair.strikePersonSeconds',
        'fromTrolley.round-table.setPersonSeconds',
        'fromTrolley.stage-deck.strikePersonSeconds',
        'cleaningPersonSecondsPerSquareMetre.wet-mop',
        'dryingSeconds.vinyl',
        'walkingMetresPerSecond',
        'carryingMetresPerSecond',
        'loadedTrolleyMetresPerSecond',
      ]),
    )
  })

  test('walk between the 1.24 m/s of long BasicMOST walks and the 1.60 m/s of MTM-1 (from memory)', () => {
    const { least, most } = rangesByPath.get('walkingMetresPerSecond')!
    expect(least).toBeCloseTo(1.24, 2)
    expect(most).toBeCloseTo(1.6, 2)
  })

  test('carry a chair 6 m in about what BasicMOST gives for it: 14.8 s (from memory)', () => {
    const { least, most } = HANDLING_RANGES.stackingChairCarried.set
    expect(indexSeconds(41)).toBeGreaterThan(least)
    expect(indexSeconds(41)).toBeLessThan(most)
  })
})

describe('the policy a site starts with', () => {
  const policy = defaultPolicy(PolicyId.parse('policy_first'), SiteId.parse('site_first'))

  test('takes volunteers to need 1.3 to 2 times as long as a practised crew (common practice, no source)', () => {
    expect(policy.paceFactor).toBeGreaterThanOrEqual(VOLUNTEER_PACE.leastFactor)
    expect(policy.paceFactor).toBeLessThanOrEqual(VOLUNTEER_PACE.mostFactor)
  })

  test('allows 10 to 20 % for personal needs, fatigue and delay (common practice, no source)', () => {
    expect(policy.allowanceShare).toBeGreaterThanOrEqual(ALLOWANCE_FIGURES.lightToMediumWork.leastShare)
    expect(policy.allowanceShare).toBeLessThanOrEqual(ALLOWANCE_FIGURES.heavyFurniture.mostShare)
  })
})
