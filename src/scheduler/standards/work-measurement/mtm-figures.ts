/** MTM-1: the motions that moving furniture is made of, for a practised worker at normal pace. */
import { METRES_PER_INCH } from '../../../domain/imperial-factors.ts'
import { numberAbove, numberInRange } from './number-in-range.ts'
import { secondsFromTmu } from './tmu.ts'

export interface MtmFigure {
  readonly motion: string
  readonly tmu: number
  readonly source: string
}

const DATA_CARD = 'MTM Association, MTM-1 data card 2019; read'
const REACH_AND_MOVE = 'MTM-1 reach and move tables, in a public copy; read'
const MEMORY = 'MTM-1; from memory'

export const MTM_FIGURES = {
  turnBodyLeadFoot: {
    motion: 'turn the body 45 to 90°, lead foot only',
    tmu: 18.6,
    source: DATA_CARD,
  },
  turnBodyBothFeet: { motion: 'turn the body 45 to 90°, both feet', tmu: 37.2, source: DATA_CARD },
  sideStepLeadFoot: { motion: 'side step of 30 cm, lead foot only', tmu: 17, source: DATA_CARD },
  sideStepBothFeet: { motion: 'side step of 30 cm, both feet', tmu: 34.1, source: DATA_CARD },
  sideStepLeadFootPerExtraCentimetre: {
    motion: 'side step, lead foot only, each cm beyond 30',
    tmu: 0.2,
    source: DATA_CARD,
  },
  sideStepBothFeetPerExtraCentimetre: {
    motion: 'side step, both feet, each cm beyond 30',
    tmu: 0.4,
    source: DATA_CARD,
  },
  paceFree: { motion: 'a pace, nothing in the way', tmu: 15, source: MEMORY },
  paceObstructedOrLoaded: {
    motion: 'a pace, obstructed or with more than 23 kg (50 lb)',
    tmu: 17,
    source: MEMORY,
  },
  bend: { motion: 'bend or stoop', tmu: 29, source: MEMORY },
  riseFromBend: { motion: 'rise from a bend', tmu: 31.9, source: MEMORY },
  sit: { motion: 'sit down', tmu: 34.7, source: MEMORY },
  stand: { motion: 'stand up', tmu: 43.4, source: MEMORY },
  kneelOnBothKnees: { motion: 'kneel on both knees', tmu: 69.4, source: MEMORY },
  riseFromBothKnees: { motion: 'rise from both knees', tmu: 76.7, source: MEMORY },
  reach12InchesSingleObject: {
    motion: 'reach 12 in to a single object (R12B)',
    tmu: 12.9,
    source: REACH_AND_MOVE,
  },
  reach20InchesSingleObject: {
    motion: 'reach 20 in to a single object (R20B)',
    tmu: 18.6,
    source: REACH_AND_MOVE,
  },
  reach30InchesSingleObject: {
    motion: 'reach 30 in to a single object (R30B)',
    tmu: 25.8,
    source: REACH_AND_MOVE,
  },
  move30InchesRoughPlace: {
    motion: 'move 30 in to a rough place (M30B)',
    tmu: 24.3,
    source: REACH_AND_MOVE,
  },
  move30InchesExactPlace: {
    motion: 'move 30 in to an exact place (M30C)',
    tmu: 30.7,
    source: REACH_AND_MOVE,
  },
} as const satisfies Record<string, MtmFigure>

export interface MtmMoveWeight {
  /** What the moving hand holds. */
  readonly poundsMost: number
  /** A move takes its time × factor + constant. */
  readonly factor: number
  readonly constantTmu: number
  readonly source: string
}

export const MTM_MOVE_WEIGHTS: readonly MtmMoveWeight[] = [
  { poundsMost: 12.5, factor: 1.11, constantTmu: 3.9, source: REACH_AND_MOVE },
  { poundsMost: 22.5, factor: 1.22, constantTmu: 7.4, source: REACH_AND_MOVE },
  { poundsMost: 47.5, factor: 1.5, constantTmu: 16, source: REACH_AND_MOVE },
]

/** How long a pace is; the loaded ones are the least sure figures here. */
export const MTM_PACES = {
  unloaded: { metres: 34 * METRES_PER_INCH, source: MEMORY },
  loaded2To16Kilograms: { metres: 30 * METRES_PER_INCH, source: MEMORY },
  loadedOver16Kilograms: { metres: 24 * METRES_PER_INCH, source: MEMORY },
} as const satisfies Record<string, { readonly metres: number; readonly source: string }>

/**
 * The speed of walking that a pace and its time come to.
 * @param metresPerPace  0 or more
 * @param tmuPerPace     above 0
 * @throws RangeError for what is out of range or no number
 */
export function mtmWalkingMetresPerSecond(metresPerPace: number, tmuPerPace: number): number {
  numberInRange('metresPerPace', metresPerPace, 0)
  return metresPerPace / secondsFromTmu(numberAbove('tmuPerPace', tmuPerPace, 0))
}

/**
 * A way on foot, in whole paces.
 * @param distanceMetres  0 or more
 * @param metresPerPace   above 0
 * @param tmuPerPace      0 or more
 * @returns TMU; 0 for no distance
 * @throws RangeError for what is out of range or no number
 */
export function mtmWalkTmu(distanceMetres: number, metresPerPace: number, tmuPerPace: number): number {
  numberInRange('distanceMetres', distanceMetres, 0)
  numberAbove('metresPerPace', metresPerPace, 0)
  return Math.ceil(distanceMetres / metresPerPace) * numberInRange('tmuPerPace', tmuPerPace, 0)
}
