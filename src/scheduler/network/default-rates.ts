/**
 * The rates a site starts with, each number with where it comes from. Setting and striking times have no published
 * source: learn them as soon as possible.
 */
import type { CleaningMethod } from '../../domain/cleaning-method.ts'
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { RatePath, Rates } from '../../domain/rate-set.ts'
import type { FloorKind } from '../../domain/section.ts'
import type { TaskMode } from '../../domain/task-mode.ts'
import { ratePaths } from './rate-paths.ts'

interface Sourced<Value> {
  readonly value: Value
  readonly source: string
}
const sourced = <Value>(value: Value, source: string): Sourced<Value> => ({ value, source })

interface KindRates {
  readonly set: Sourced<number>
  readonly strike: Sourced<number>
  readonly perCarry: Sourced<number>
  readonly storedArea: Sourced<number>
}

const PRACTICE = 'Common practice, no source'
const middleOf = (least: number, most: number, note: string): Sourced<number> =>
  sourced((least + most) / 2, `${PRACTICE}: ${least} to ${most}, the middle; ${note}`)
const perCarry = (pieces: number, note: string): Sourced<number> => sourced(pieces, `${PRACTICE}: ${note}`)
const stored = (squareMetres: number, note: string): Sourced<number> =>
  sourced(squareMetres, `${PRACTICE}: ${note}`)

/** With a trolley beside the work, where there is one for the kind. */
const KINDS: Readonly<Record<FurnishingKind, KindRates>> = {
  'stacking-chair': {
    set: middleOf(6, 12, 'off a trolley beside the row'),
    strike: middleOf(5, 10, 'onto a trolley beside the row'),
    perCarry: perCarry(2, 'one chair in each hand'),
    storedArea: sourced(
      0.035,
      'A moulded chair takes 17.5 × 24.5 in (nationaleventsupply.com), 8 to a stack on the floor (wxjj.net); computed',
    ),
  },
  'folding-chair': {
    set: middleOf(8, 15, 'unfolded and put in line'),
    strike: middleOf(8, 12, 'folded and hung on a trolley'),
    perCarry: perCarry(2, 'one chair in each hand'),
    storedArea: stored(0.025, 'a trolley of 60 takes about 0.8 × 1.8 m'),
  },
  'round-table': {
    set: middleOf(60, 120, '60 in: roll, tip, legs; one of 72 in takes 90 to 160'),
    strike: middleOf(45, 90, '60 in; one of 72 in takes 75 to 130'),
    perCarry: perCarry(1, 'one table at a time'),
    storedArea: stored(0.15, 'on edge, a trolley of 9 takes about 0.8 × 1.6 m'),
  },
  'long-table': {
    set: middleOf(60, 120, '8 ft, the slower of the usual two; 6 ft takes 45 to 90'),
    strike: middleOf(50, 100, '8 ft; 6 ft takes 40 to 80'),
    perCarry: perCarry(1, 'one table at a time'),
    storedArea: stored(0.2, '8 × 2.5 ft, ten flat on one another'),
  },
  'stage-deck': {
    set: sourced(
      270,
      'Middle of 180 to 360 for a deck of 4 × 8 ft with legs: follows from the crew rate in exhibitions.co.uk, Folding stage, 2010',
    ),
    strike: middleOf(120, 270, '4 × 8 ft with legs'),
    perCarry: perCarry(1, 'one deck at a time'),
    storedArea: stored(0.5, '4 × 8 ft, six flat on one another'),
  },
  'post-pair': {
    set: middleOf(180, 300, 'goal or badminton posts'),
    strike: middleOf(120, 240, 'goal or badminton posts'),
    perCarry: perCarry(1, 'one pair at a time'),
    storedArea: stored(0.5, 'in a rack along the wall'),
  },
  'games-table': {
    set: sourced(90, 'A guess without a range: taken like an 8-ft table'),
    strike: sourced(75, 'A guess without a range: taken like an 8-ft table'),
    perCarry: perCarry(1, 'one table at a time'),
    storedArea: stored(1, 'folded and upright, about 0.7 × 1.5 m'),
  },
  'table-cloth': {
    set: middleOf(30, 60, 'cloth on a table'),
    strike: middleOf(10, 20, 'cloth off and folded'),
    perCarry: perCarry(10, 'an armful'),
    storedArea: stored(0.01, 'folded on a shelf, twenty on one another'),
  },
  'place-setting': {
    set: middleOf(20, 40, 'simple; a full one takes 60 to 120'),
    strike: middleOf(15, 30, 'cleared and sorted into crates'),
    perCarry: perCarry(8, 'a tray or half a crate'),
    storedArea: stored(0.005, 'twenty to a crate of 0.4 × 0.6 m, two crates on one another'),
  },
  'stage-rail': {
    set: middleOf(120, 240, 'guard rail or step unit'),
    strike: middleOf(90, 180, 'guard rail or step unit'),
    perCarry: perCarry(1, 'one rail at a time'),
    storedArea: stored(0.15, 'flat on a rack, six on one another'),
  },
  'dance-floor-panel': {
    set: middleOf(30, 60, 'a panel of 3 × 3 ft'),
    strike: middleOf(20, 40, 'a panel of 3 × 3 ft'),
    perCarry: perCarry(1, 'one panel at a time'),
    storedArea: stored(0.05, '3 × 3 ft, eighteen flat on one another'),
  },
  other: {
    set: sourced(60, 'A guess without a range, to be replaced'),
    strike: sourced(60, 'A guess without a range, to be replaced'),
    perCarry: sourced(1, 'A guess: one piece at a time'),
    storedArea: sourced(0.5, 'A guess without a range, to be replaced'),
  },
}

const STACKING_CHAIR_BY_HAND = middleOf(13, 18, 'carried singly 6 m; BasicMOST, from memory, gives 14.8')

const SQUARE_METRES_PER_1000_SQUARE_FEET = 92.903_04

/** Cleaning times are published in minutes per 1,000 square feet. */
const minutesPer1000SquareFeet = (minutes: number, source: string): Sourced<number> =>
  sourced((minutes * 60) / SQUARE_METRES_PER_1000_SQUARE_FEET, `${minutes} min per 1,000 ft². ${source}`)

const CLEANING: Readonly<Record<CleaningMethod, Sourced<number>>> = {
  'dust-mop': minutesPer1000SquareFeet(6.5, `${PRACTICE}: mop of 24 in, 5 to 8 (48 in by ISSA 540: 2.4)`),
  sweep: minutesPer1000SquareFeet(10, `${PRACTICE}: push broom of 24 in, 8 to 12`),
  vacuum: minutesPer1000SquareFeet(
    22.8,
    'Upright of 12 in: ISSA cleaning times, 1994 edition, quoted by issa.com 2018',
  ),
  'spot-mop': minutesPer1000SquareFeet(4.5, `${PRACTICE}: 3 to 6`),
  'wet-mop': minutesPer1000SquareFeet(
    14.4,
    'Mop of 16 oz and bucket: ISSA 540, from an answer that applies it',
  ),
}

const DRYING_SOURCE = 'flooringclarity.com, a consumer guide to floor drying: the middle of'
const DRYING: Readonly<Record<Exclude<FloorKind, 'carpet'>, Sourced<number>>> = {
  'sealed-wood': sourced(1350, `${DRYING_SOURCE} 15 to 30 min`),
  vinyl: sourced(1200, `${DRYING_SOURCE} 10 to 30 min`),
  tile: sourced(1800, `${DRYING_SOURCE} 20 to 40 min`),
  concrete: sourced(2700, `${DRYING_SOURCE} 30 to 60 min`),
}

const SINGLE = {
  walkingMetresPerSecond: sourced(1.6, 'MTM-1, 15.0 TMU a pace of 0.864 m, from memory'),
  carryingMetresPerSecond: sourced(1.41, 'MTM-1, 17.0 TMU a pace with a load over 23 kg, from memory'),
  loadedTrolleyMetresPerSecond: sourced(
    10 / 15,
    `${PRACTICE}: a loaded chair trolley takes 10 to 20 s for 10 m`,
  ),
  trolleyHandlingSeconds: sourced(60, PRACTICE),
  shortCarryMetres: sourced(6, 'The carry that the handling figures were taken with'),
  routeUnknownMetres: sourced(40, `${PRACTICE}: a store at the other end of the building`),
  markOutPersonSecondsPerPiece: sourced(15, `${PRACTICE}: two distances and a mark of tape`),
  alignPersonSecondsPerChair: middleOf(1, 2, 'align and number rows'),
  wipeTablePersonSeconds: middleOf(30, 60, 'wipe and sanitise a table'),
  binPersonSeconds: middleOf(60, 120, 'empty a bin and reline it'),
} as const

const WALKTHROUGH_MODES: readonly TaskMode[] = [
  { hands: 1, seconds: 300 },
  { hands: 2, seconds: 180 },
]
const SIGN_OFF_MODES: readonly TaskMode[] = [
  { hands: 1, seconds: 600 },
  { hands: 2, seconds: 360 },
]

/** Every value of a table, and under `path` each source. */
function valuesOf<Key extends string, Value>(
  table: Readonly<Record<Key, Sourced<Value>>>,
): Record<Key, Value> {
  return mapped(table, (entry) => entry.value)
}

function mapped<Key extends string, From, To>(
  table: Readonly<Record<Key, From>>,
  to: (from: From) => To,
): Record<Key, To> {
  return Object.fromEntries(Object.entries<From>(table).map(([key, entry]) => [key, to(entry)])) as Record<
    Key,
    To
  >
}

const pieceRate = ({ set, strike }: KindRates) => ({
  setPersonSeconds: set.value,
  strikePersonSeconds: strike.value,
})

export const DEFAULT_RATES: Rates = {
  fromTrolley: mapped(KINDS, pieceRate),
  byHand: {
    ...mapped(KINDS, pieceRate),
    'stacking-chair': {
      setPersonSeconds: STACKING_CHAIR_BY_HAND.value,
      strikePersonSeconds: STACKING_CHAIR_BY_HAND.value,
    },
  },
  piecesPerCarry: mapped(KINDS, (kind) => kind.perCarry.value),
  storedAreaSquareMetres: mapped(KINDS, (kind) => kind.storedArea.value),
  cleaningPersonSecondsPerSquareMetre: valuesOf(CLEANING),
  dryingSeconds: valuesOf(DRYING),
  ...valuesOf(SINGLE),
  walkthroughModes: [...WALKTHROUGH_MODES],
  signOffModes: [...SIGN_OFF_MODES],
}

/** Of every number in the default rates, where it comes from; the names are those of `ratePaths`. */
export const DEFAULT_RATE_SOURCES: Readonly<Record<RatePath, string>> = Object.fromEntries(
  ratePaths(DEFAULT_RATES).map((path) => [path, sourceOf(path)]),
)

/** Where a default comes from; null for a path that names no number of the default rates. */
export const defaultRateSource = (path: RatePath): string | null => DEFAULT_RATE_SOURCES[path] ?? null

function sourceOf(path: RatePath): string {
  const [group = '', key = '', figure = ''] = path.split('.')
  if (group === 'walkthroughModes' || group === 'signOffModes') return PRACTICE
  const single: Readonly<Record<string, Sourced<unknown>>> = SINGLE
  const cleaning: Readonly<Record<string, Sourced<unknown>>> = CLEANING
  const drying: Readonly<Record<string, Sourced<unknown>>> = DRYING
  if (group === 'cleaningPersonSecondsPerSquareMetre') return cleaning[key]!.source
  if (group === 'dryingSeconds') return drying[key]!.source
  const kinds: Readonly<Record<string, KindRates>> = KINDS
  const kind = kinds[key]
  if (kind === undefined) return single[group]!.source
  if (group === 'piecesPerCarry') return kind.perCarry.source
  if (group === 'storedAreaSquareMetres') return kind.storedArea.source
  if (group === 'byHand' && key === 'stacking-chair') return STACKING_CHAIR_BY_HAND.source
  return figure === 'setPersonSeconds' ? kind.set.source : kind.strike.source
}
