/**
 * The constants of the revised NIOSH lifting equation in its two systems of units. They are not exact conversions of
 * each other (23 kg are 50.7 lb), so the same lift gives slightly different figures: compute in one of them and keep to it.
 */

/** `metric`: centimetres and kilograms. `us`: inches and pounds. */
export type LiftingUnits = 'metric' | 'us'

/** `worksheet`: as the manual's worksheets do it by hand. `full`: no rounding at all. */
export type MultiplierRounding = 'worksheet' | 'full'

export interface LiftingConstants {
  readonly lengthUnit: 'cm' | 'in'
  readonly massUnit: 'kg' | 'lb'
  /** What may be lifted when everything else is as good as it can be. */
  readonly loadConstant: number
  /** H: a smaller one counts as this; the multiplier is this over H. */
  readonly horizontalLeast: number
  /** H: beyond it no weight is recommended. */
  readonly horizontalMost: number
  /** V: the best height of the hands, and where the columns of the frequency and coupling tables part. */
  readonly verticalBest: number
  readonly verticalLossPerUnit: number
  readonly verticalMost: number
  /** D: a shorter travel counts as this. */
  readonly travelLeast: number
  readonly travelMost: number
  /** D: the multiplier is 0.82 plus this over D. */
  readonly travelNumerator: number
  /** Hands below this height when H is guessed: the body is farther from the load. */
  readonly guessLowHands: number
  /** H is guessed as this plus half the width of the box. */
  readonly guessOffset: number
  readonly guessOffsetLowHands: number
  readonly source: string
}

export const LIFTING_CONSTANTS: Readonly<Record<LiftingUnits, LiftingConstants>> = {
  metric: {
    lengthUnit: 'cm',
    massUnit: 'kg',
    loadConstant: 23,
    horizontalLeast: 25,
    horizontalMost: 63,
    verticalBest: 75,
    verticalLossPerUnit: 0.003,
    verticalMost: 175,
    travelLeast: 25,
    travelMost: 175,
    travelNumerator: 4.5,
    guessLowHands: 25,
    guessOffset: 20,
    guessOffsetLowHands: 25,
    source: 'NIOSH 94-110 (rev. 9/2021), pp. 7-11; second-hand (public transcription of the print)',
  },
  us: {
    lengthUnit: 'in',
    massUnit: 'lb',
    loadConstant: 51,
    horizontalLeast: 10,
    horizontalMost: 25,
    verticalBest: 30,
    verticalLossPerUnit: 0.0075,
    verticalMost: 70,
    travelLeast: 10,
    travelMost: 70,
    travelNumerator: 1.8,
    guessLowHands: 10,
    guessOffset: 8,
    guessOffsetLowHands: 10,
    source: 'NIOSH 94-110 (rev. 9/2021), pp. 7-11; second-hand (public transcription of the print)',
  },
}
