/**
 * How long cleaning takes, and how long a floor stays wet. Published standards and makers' averages differ by up to
 * two to three times: where two rows are about the same work, plan on the slower.
 */
import { numberInRange } from './number-in-range.ts'

export interface CleaningRange {
  readonly work: string
  /** Minutes for one cleaner and 1,000 ft² (93 m²); the two are equal where the source gives one figure. */
  readonly leastMinutesPer1000SquareFeet: number
  readonly mostMinutesPer1000SquareFeet: number
  readonly source: string
}

const PRACTICE = 'common practice, no source'
const ISSA_540 = 'ISSA 540, applied in a worked answer (icanatex.com 3891); second-hand'
const ISSA_JOURNEY = 'ISSA, A Journey Through the Cleaning Times, issa.com, 2018; read'
const MAKER = "ISSA 540 and makers' averages, in a maker's article of 16 June 2014; second-hand"

const cleaning = (work: string, least: number, most: number, source: string): CleaningRange => ({
  work,
  leastMinutesPer1000SquareFeet: least,
  mostMinutesPer1000SquareFeet: most,
  source,
})

export const CLEANING_RANGES = {
  dustMop18InchesClassroom: cleaning('dust mop 18 in, classroom, at least', 8.6, 8.6, MAKER),
  dustMop24Inches: cleaning('dust mop 24 in', 5, 8, PRACTICE),
  dustMop48Inches: cleaning('dust mop 48 in', 2.4, 2.4, ISSA_540),
  sweep24Inches: cleaning('push-broom sweep 24 in', 8, 12, PRACTICE),
  wetMop16Ounces: cleaning('wet mop, 16-oz mop and bucket', 14.4, 14.4, ISSA_540),
  spotMop: cleaning('spot mop', 3, 6, PRACTICE),
  vacuumUpright1985Open: cleaning('vacuum, upright, open floor (edition 1985)', 20, 20, ISSA_JOURNEY),
  vacuumUpright1985Obstructed: cleaning(
    'vacuum, upright, obstructed floor (edition 1985)',
    30,
    30,
    ISSA_JOURNEY,
  ),
  vacuumUpright12Inches: cleaning('vacuum, upright 12 in (edition 1994)', 22.8, 22.8, ISSA_JOURNEY),
  vacuumBackpack12Inches: cleaning('vacuum, backpack, 12-in tool (edition 1994)', 6, 6, ISSA_JOURNEY),
  vacuumBackpackHardFloor: cleaning('vacuum, backpack, hard-floor tool', 6, 8.6, MAKER),
  autoScrub20Inches: cleaning('auto scrub 20 in', 6.48, 6.48, ISSA_540),
  autoScrub20InchesLight: cleaning(
    'auto scrub 20 in, light scrubbing, the average of a maker',
    2.9,
    2.9,
    MAKER,
  ),
  buff20Inches: cleaning('buff 20 in, 1,500 rpm', 6.6, 6.6, ISSA_540),
} as const satisfies Record<string, CleaningRange>

/**
 * @param areaSquareFeet             0 or more
 * @param minutesPer1000SquareFeet   0 or more
 * @returns minutes for one cleaner; 0 for no floor
 * @throws RangeError for what is negative or no number
 */
export const cleaningMinutes = (areaSquareFeet: number, minutesPer1000SquareFeet: number): number =>
  (numberInRange('areaSquareFeet', areaSquareFeet, 0) / 1000) *
  numberInRange('minutesPer1000SquareFeet', minutesPer1000SquareFeet, 0)

export interface PieceCleaningRange {
  readonly work: string
  readonly leastSecondsPerPiece: number
  readonly mostSecondsPerPiece: number
  readonly source: string
}

const WORKLOADING = 'Cleaning times in a worked answer (icanatex.com 627); read'

export const PIECE_CLEANING_RANGES = {
  restroomByHand: {
    work: 'restroom with bucket and mop, per fixture',
    leastSecondsPerPiece: 150,
    mostSecondsPerPiece: 180,
    source: WORKLOADING,
  },
  restroomByMachine: {
    work: 'restroom with a machine, per fixture',
    leastSecondsPerPiece: 60,
    mostSecondsPerPiece: 60,
    source: WORKLOADING,
  },
  bin: {
    work: 'empty a bin and reline it',
    leastSecondsPerPiece: 60,
    mostSecondsPerPiece: 120,
    source: PRACTICE,
  },
  tableWiped: {
    work: 'wipe and sanitise a table; the wet contact time of the product (often 1 to 10 min) comes on top',
    leastSecondsPerPiece: 30,
    mostSecondsPerPiece: 60,
    source: PRACTICE,
  },
} as const satisfies Record<string, PieceCleaningRange>

export interface DryingRange {
  readonly floor: string
  readonly leastSeconds: number
  readonly mostSeconds: number
  readonly source: string
}

const DRYING_GUIDE = 'flooringclarity.com, floor drying times (a consumer guide); read'

export const DRYING_RANGES = {
  vinyl: { floor: 'vinyl', leastSeconds: 600, mostSeconds: 1800, source: DRYING_GUIDE },
  tile: { floor: 'tile', leastSeconds: 1200, mostSeconds: 2400, source: DRYING_GUIDE },
  'sealed-wood': { floor: 'sealed wood', leastSeconds: 900, mostSeconds: 1800, source: DRYING_GUIDE },
  concrete: { floor: 'concrete', leastSeconds: 1800, mostSeconds: 3600, source: DRYING_GUIDE },
  anyWithoutHelp: {
    floor: 'any, without help',
    leastSeconds: 1800,
    mostSeconds: 3600,
    source: 'tidyfloor.com, floor drying times; read',
  },
  anyWithFans: {
    floor: 'any, with fans or open doors',
    leastSeconds: 900,
    mostSeconds: 1800,
    source: 'aiolith.com, drying after scrubbing; read',
  },
  autoScrubbed: {
    floor: 'any, after an auto scrubber with a squeegee: walkable at once',
    leastSeconds: 0,
    mostSeconds: 0,
    source: 'aiolith.com, drying after scrubbing; read',
  },
} as const satisfies Record<string, DryingRange>
