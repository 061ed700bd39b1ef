/** What work and pieces usually take, to tell a slip of the keyboard from a slow crew. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import {
  CLEANING_RANGES,
  DRYING_RANGES,
  HANDLING_RANGES,
  PIECE_CLEANING_RANGES,
} from '../standards/work-measurement/index.ts'

export interface Range {
  readonly least: number
  readonly most: number
}

/** Less than half of the least or more than twice the most: nobody's crew differs that much. */
const TIMES_FAR = 2

export const isFarOutside = (value: number, { least, most }: Range): boolean =>
  value < least / TIMES_FAR || value > most * TIMES_FAR

const both = (a: Range, b: Range): Range => ({
  least: Math.min(a.least, b.least),
  most: Math.max(a.most, b.most),
})

interface Handling {
  readonly set: Range
  readonly strike: Range
}
const { roundTable60Inches, roundTable72Inches, longTable6Feet, longTable8Feet } = HANDLING_RANGES
const { placeSettingSimple, placeSettingFull } = HANDLING_RANGES

/** Person-seconds per piece. Kinds without a known range are left out. */
const handlingByKind: Partial<Record<FurnishingKind, Handling>> = {
  'stacking-chair': HANDLING_RANGES.stackingChairOffTrolley,
  'folding-chair': HANDLING_RANGES.foldingChair,
  'round-table': {
    set: both(roundTable60Inches.set, roundTable72Inches.set),
    strike: both(roundTable60Inches.strike, roundTable72Inches.strike),
  },
  'long-table': {
    set: both(longTable6Feet.set, longTable8Feet.set),
    strike: both(longTable6Feet.strike, longTable8Feet.strike),
  },
  'stage-deck': HANDLING_RANGES.stageDeck,
  'post-pair': HANDLING_RANGES.postPair,
  'table-cloth': HANDLING_RANGES.tableCloth,
  'place-setting': {
    set: both(placeSettingSimple.set, placeSettingFull.set),
    strike: both(placeSettingSimple.strike, placeSettingFull.strike),
  },
  'stage-rail': HANDLING_RANGES.guardRail,
  'dance-floor-panel': HANDLING_RANGES.danceFloorPanel,
}

export function handlingRange(kind: FurnishingKind, byTrolley: boolean): Handling | null {
  if (kind === 'stacking-chair' && !byTrolley) return HANDLING_RANGES.stackingChairCarried
  return handlingByKind[kind] ?? null
}

/** What one piece weighs, in kilograms. Trade figures, second-hand, and common practice; decks without legs. */
export const massRanges: Partial<Record<FurnishingKind, Range>> = {
  'stacking-chair': { least: 5, most: 8 },
  'folding-chair': { least: 3.6, most: 6 },
  'round-table': { least: 18, most: 50 },
  'long-table': { least: 14, most: 29 },
  'stage-deck': { least: 45, most: 80 },
}

const SQUARE_METRES_PER_1000_SQUARE_FEET = 92.903_04
type Cleaning = (typeof CLEANING_RANGES)[keyof typeof CLEANING_RANGES]
const cleaning = (quickest: Cleaning, slowest: Cleaning = quickest): Range => ({
  least: (quickest.leastMinutesPer1000SquareFeet * 60) / SQUARE_METRES_PER_1000_SQUARE_FEET,
  most: (slowest.mostMinutesPer1000SquareFeet * 60) / SQUARE_METRES_PER_1000_SQUARE_FEET,
})
const seconds = ({ leastSeconds, mostSeconds }: { leastSeconds: number; mostSeconds: number }): Range => ({
  least: leastSeconds,
  most: mostSeconds,
})
const perPiece = (of: { leastSecondsPerPiece: number; mostSecondsPerPiece: number }): Range => ({
  least: of.leastSecondsPerPiece,
  most: of.mostSecondsPerPiece,
})

/** Numbers of a rate set by their path, other than those by kind of piece. */
export const rateRanges: Readonly<Record<string, Range>> = {
  'cleaningPersonSecondsPerSquareMetre.dust-mop': cleaning(
    CLEANING_RANGES.dustMop48Inches,
    CLEANING_RANGES.dustMop18InchesClassroom,
  ),
  'cleaningPersonSecondsPerSquareMetre.sweep': cleaning(CLEANING_RANGES.sweep24Inches),
  'cleaningPersonSecondsPerSquareMetre.vacuum': cleaning(
    CLEANING_RANGES.vacuumBackpack12Inches,
    CLEANING_RANGES.vacuumUpright1985Obstructed,
  ),
  'cleaningPersonSecondsPerSquareMetre.spot-mop': cleaning(CLEANING_RANGES.spotMop),
  'cleaningPersonSecondsPerSquareMetre.wet-mop': cleaning(
    CLEANING_RANGES.autoScrub20Inches,
    CLEANING_RANGES.wetMop16Ounces,
  ),
  'dryingSeconds.sealed-wood': seconds(DRYING_RANGES['sealed-wood']),
  'dryingSeconds.vinyl': seconds(DRYING_RANGES.vinyl),
  'dryingSeconds.tile': seconds(DRYING_RANGES.tile),
  'dryingSeconds.concrete': seconds(DRYING_RANGES.concrete),
  // MTM-1 from memory gives 1.4 to 1.6; slower for those who are in no hurry.
  walkingMetresPerSecond: { least: 1.2, most: 1.6 },
  carryingMetresPerSecond: { least: 1, most: 1.6 },
  // 10 to 20 s per 10 m: common practice, no source.
  loadedTrolleyMetresPerSecond: { least: 0.5, most: 1 },
  alignPersonSecondsPerChair: HANDLING_RANGES.alignRows.set,
  wipeTablePersonSeconds: perPiece(PIECE_CLEANING_RANGES.tableWiped),
  binPersonSeconds: perPiece(PIECE_CLEANING_RANGES.bin),
}
