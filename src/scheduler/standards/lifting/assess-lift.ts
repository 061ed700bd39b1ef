/** The revised NIOSH lifting equation: what two hands may lift in this posture, and how far a load is from it. */
import { numberInRange } from '../work-measurement/number-in-range.ts'
import { type DurationClass, frequencyMultiplier } from './frequency-multiplier.ts'
import {
  asymmetryMultiplier,
  couplingMultiplier,
  type Grip,
  horizontalMultiplier,
  travelMultiplier,
  verticalMultiplier,
} from './lifting-multipliers.ts'
import { LIFTING_CONSTANTS, type LiftingUnits, type MultiplierRounding } from './lifting-units.ts'
import { roundedHalfUp } from './rounded-half-up.ts'

/** Where the hands are at one end of a lift. Lengths in cm or in, as the lift's `units` says. */
export interface HandPosition {
  /** From mid-ankles to mid-grasp, 0 or more. */
  readonly horizontal: number
  /** Hands above the floor, 0 or more. */
  readonly vertical: number
  /** The load off straight ahead, 0 to 180. */
  readonly asymmetryDegrees: number
}

/**
 * How the lift ends. A load that is gripped anew, held or guided into place strains at both ends; one that is let go
 * only needs its height.
 */
export type LiftEnd =
  | { readonly placedWithCare: true; readonly hands: HandPosition }
  | { readonly placedWithCare: false; readonly vertical: number }

export interface Lift {
  readonly units: LiftingUnits
  /** kg or lb, 0 or more: what one person holds. */
  readonly load: number
  readonly origin: HandPosition
  readonly destination: LiftEnd
  /** Averaged over 15 minutes, 0 or more; for bursts see `burstFrequency`. */
  readonly liftsPerMinute: number
  readonly duration: DurationClass
  readonly grip: Grip
}

export interface LiftingMultipliers {
  readonly horizontal: number
  readonly vertical: number
  readonly travel: number
  readonly asymmetry: number
  readonly frequency: number
  readonly coupling: number
}

export interface LiftEndAssessment {
  readonly multipliers: LiftingMultipliers
  /** kg or lb; 0: no weight is recommended. */
  readonly recommendedWeightLimit: number
  /** Load over limit; null where the limit is 0, as no number says how far above nothing a load is. */
  readonly liftingIndex: number | null
}

export interface LiftAssessment {
  readonly units: LiftingUnits
  readonly origin: LiftEndAssessment
  /** null: not placed with care, so only the origin is judged. */
  readonly destination: LiftEndAssessment | null
  /** The end with the lower limit, whose figures follow. */
  readonly hardestEnd: 'origin' | 'destination'
  readonly recommendedWeightLimit: number
  readonly liftingIndex: number | null
}

/**
 * RWL = LC × HM × VM × DM × AM × FM × CM and LI = load ÷ RWL, at the origin and, for a load placed with care, at the
 * destination. The worksheet way rounds multipliers to two places and limit and index to one, each from the rounded
 * figures before it, as the manual's examples do; full precision differs from it in the last digit.
 * Not every lift is one: see `OUTSIDE_THE_EQUATION`.
 * @throws RangeError naming the field, for what is negative, no number, or an angle above 180
 * @source NIOSH 94-110 (rev. 9/2021), sections 1.1 and 1.3; rounding: p. 29; both ends: pp. 21, 26
 */
export function assessLift(lift: Lift, rounding: MultiplierRounding): LiftAssessment {
  numberInRange('load', lift.load, 0)
  const { destination: end } = lift
  numberInRange('origin.vertical', lift.origin.vertical, 0)
  const endVertical = numberInRange(
    'destination.vertical',
    end.placedWithCare ? end.hands.vertical : end.vertical,
    0,
  )
  const verticalTravel = Math.abs(endVertical - lift.origin.vertical)
  const origin = assessedEnd(lift, 'origin', lift.origin, verticalTravel, rounding)
  const destination = end.placedWithCare
    ? assessedEnd(lift, 'destination', end.hands, verticalTravel, rounding)
    : null
  const destinationIsHarder =
    destination !== null && destination.recommendedWeightLimit < origin.recommendedWeightLimit
  const { recommendedWeightLimit, liftingIndex } = destinationIsHarder ? destination : origin
  return {
    units: lift.units,
    origin,
    destination,
    hardestEnd: destinationIsHarder ? 'destination' : 'origin',
    recommendedWeightLimit,
    liftingIndex,
  }
}

function assessedEnd(
  lift: Lift,
  end: 'origin' | 'destination',
  hands: HandPosition,
  verticalTravel: number,
  rounding: MultiplierRounding,
): LiftEndAssessment {
  const { units } = lift
  numberInRange(`${end}.horizontal`, hands.horizontal, 0)
  numberInRange(`${end}.asymmetryDegrees`, hands.asymmetryDegrees, 0, 180)
  const multipliers: LiftingMultipliers = {
    horizontal: horizontalMultiplier(units, hands.horizontal, rounding),
    vertical: verticalMultiplier(units, hands.vertical, rounding),
    travel: travelMultiplier(units, verticalTravel, rounding),
    asymmetry: asymmetryMultiplier(hands.asymmetryDegrees, rounding),
    frequency: frequencyMultiplier(units, lift.liftsPerMinute, lift.duration, lift.origin.vertical, rounding),
    coupling: couplingMultiplier(units, lift.grip, hands.vertical),
  }
  const exactLimit = Object.values(multipliers).reduce<number>(
    (limit, multiplier) => limit * multiplier,
    LIFTING_CONSTANTS[units].loadConstant,
  )
  const recommendedWeightLimit = rounding === 'full' ? exactLimit : roundedHalfUp(exactLimit, 1)
  if (recommendedWeightLimit === 0) return { multipliers, recommendedWeightLimit, liftingIndex: null }
  const exactIndex = lift.load / recommendedWeightLimit
  const liftingIndex = rounding === 'full' ? exactIndex : roundedHalfUp(exactIndex, 1)
  return { multipliers, recommendedWeightLimit, liftingIndex }
}
