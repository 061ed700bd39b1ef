/** Whether a picture is bright enough for the light in the room. */
import { numberAbove, numberInRange } from '../work-measurement/number-in-range.ts'

const CANDELAS_PER_SQUARE_METRE_PER_FOOT_LAMBERT = 3.426

export const SCREEN_LUMINANCE_SOURCE =
  'experiencingworship.com, video projection formulas, 2003; read (the gain of the screen is from memory)'

/**
 * @param lumens          of the projector, 0 or more
 * @param gain            of the screen, above 0; 1 for a plain white one
 * @param areaSquareFeet  of the picture, above 0
 * @returns foot-lamberts
 * @throws RangeError for what is out of range or no number
 */
export function screenFootLamberts(lumens: number, gain: number, areaSquareFeet: number): number {
  numberInRange('lumens', lumens, 0)
  numberAbove('gain', gain, 0)
  return (lumens * gain) / numberAbove('areaSquareFeet', areaSquareFeet, 0)
}

/**
 * @param footLamberts  0 or more
 * @throws RangeError for what is negative or no number
 * @source unit conversion, 1 fL = 3.426 cd/m²; from memory
 */
export const candelasPerSquareMetre = (footLamberts: number): number =>
  numberInRange('footLamberts', footLamberts, 0) * CANDELAS_PER_SQUARE_METRE_PER_FOOT_LAMBERT

/** In a dark room: 18, two more or less. Lumens per square foot of picture, foot-lamberts at a gain of 1. */
export const DARK_ROOM_FOOT_LAMBERTS = {
  least: 16,
  best: 18,
  most: 20,
  source: SCREEN_LUMINANCE_SOURCE,
} as const

const AMBIENT_MULTIPLE = 5

/**
 * The least a picture needs: five times the light that falls on the screen anyway, and never less than in the dark.
 * @param ambientFootCandles  on the screen with the projector off, 0 or more
 * @returns foot-lamberts
 * @throws RangeError for what is negative or no number
 */
export const leastScreenFootLamberts = (ambientFootCandles: number): number =>
  Math.max(
    DARK_ROOM_FOOT_LAMBERTS.least,
    AMBIENT_MULTIPLE * numberInRange('ambientFootCandles', ambientFootCandles, 0),
  )
