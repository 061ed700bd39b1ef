/**
 * The multipliers of the revised NIOSH lifting equation that have a formula, and the coupling table. Lengths are in
 * centimetres or inches as `units` says. Each is from 0 to 1; 0 means that no weight at all is recommended.
 * @source NIOSH 94-110 (rev. 9/2021), sections 1.3.1-1.3.4, 1.3.6; read in a public transcription of the print
 */
import { numberInRange } from '../work-measurement/number-in-range.ts'
import { LIFTING_CONSTANTS, type LiftingUnits, type MultiplierRounding } from './lifting-units.ts'
import { roundedHalfUp } from './rounded-half-up.ts'

/** Good: proper handles. Fair: poorer ones, or fingers bent 90° under it. Poor: bulky, sagging, sharp, no grip. */
export type Grip = 'good' | 'fair' | 'poor'

/** Three printed cells differ from the formula; the worksheets use what is printed (Tables 1 and 3). */
const PRINTED_OTHERWISE = {
  horizontal: {
    metric: new Map<number, number>(),
    us: new Map([
      [22, 0.46], // the formula gives .45
      [23, 0.44], // the formula gives .43
    ]),
  },
  travel: {
    metric: new Map([[130, 0.86]]), // the formula gives .85
    us: new Map<number, number>(),
  },
} as const

/** Coupling multiplier: hands below the best height, hands at it or higher. Table 7, p. 18. */
const COUPLING: Readonly<Record<Grip, { readonly low: number; readonly high: number }>> = {
  good: { low: 1, high: 1 },
  fair: { low: 0.95, high: 1 },
  poor: { low: 0.9, high: 0.9 },
}

/** The angle from straight ahead beyond which nothing is recommended (p. 12). */
const ASYMMETRY_MOST_DEGREES = 135

/**
 * HM, from mid-ankles to mid-grasp. Closer than 25 cm (10 in) counts as that; beyond 63 cm (25 in): 0.
 * @throws RangeError for a negative length or one that is no number
 */
export function horizontalMultiplier(
  units: LiftingUnits,
  horizontal: number,
  rounding: MultiplierRounding,
): number {
  numberInRange('horizontal', horizontal, 0)
  const { horizontalLeast, horizontalMost } = LIFTING_CONSTANTS[units]
  if (horizontal > horizontalMost) return 0
  const multiplier = horizontalLeast / Math.max(horizontal, horizontalLeast)
  if (rounding === 'full') return multiplier
  return PRINTED_OTHERWISE.horizontal[units].get(horizontal) ?? roundedHalfUp(multiplier, 2)
}

/**
 * VM, hands above the floor. Above 175 cm (70 in): 0.
 * @throws RangeError for a height below the floor or one that is no number
 */
export function verticalMultiplier(
  units: LiftingUnits,
  vertical: number,
  rounding: MultiplierRounding,
): number {
  numberInRange('vertical', vertical, 0)
  const { verticalBest, verticalLossPerUnit, verticalMost } = LIFTING_CONSTANTS[units]
  if (vertical > verticalMost) return 0
  const multiplier = 1 - verticalLossPerUnit * Math.abs(vertical - verticalBest)
  return rounding === 'full' ? multiplier : roundedHalfUp(multiplier, 2)
}

/**
 * DM, how far the hands travel up or down. Less than 25 cm (10 in) counts as that; above 175 cm (70 in): 0.
 * @throws RangeError for a negative length or one that is no number
 */
export function travelMultiplier(
  units: LiftingUnits,
  verticalTravel: number,
  rounding: MultiplierRounding,
): number {
  numberInRange('verticalTravel', verticalTravel, 0)
  const { travelLeast, travelMost, travelNumerator } = LIFTING_CONSTANTS[units]
  if (verticalTravel > travelMost) return 0
  const multiplier = 0.82 + travelNumerator / Math.max(verticalTravel, travelLeast)
  if (rounding === 'full') return multiplier
  return PRINTED_OTHERWISE.travel[units].get(verticalTravel) ?? roundedHalfUp(multiplier, 2)
}

/**
 * AM, the angle of the load off straight ahead, without turning the feet. Above 135°: 0.
 * @throws RangeError for an angle outside 0 to 180 or one that is no number
 */
export function asymmetryMultiplier(asymmetryDegrees: number, rounding: MultiplierRounding): number {
  numberInRange('asymmetryDegrees', asymmetryDegrees, 0, 180)
  if (asymmetryDegrees > ASYMMETRY_MOST_DEGREES) return 0
  const multiplier = 1 - 0.0032 * asymmetryDegrees
  return rounding === 'full' ? multiplier : roundedHalfUp(multiplier, 2)
}

/**
 * CM, from Table 7; the height is that of the end being judged.
 * @throws RangeError for a height below the floor or one that is no number
 */
export function couplingMultiplier(units: LiftingUnits, grip: Grip, vertical: number): number {
  numberInRange('vertical', vertical, 0)
  return COUPLING[grip][vertical < LIFTING_CONSTANTS[units].verticalBest ? 'low' : 'high']
}
