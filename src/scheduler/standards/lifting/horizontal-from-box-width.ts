/** How far the hands are from the ankles, where nobody has measured it. */
import { numberInRange } from '../work-measurement/number-in-range.ts'
import { LIFTING_CONSTANTS, type LiftingUnits } from './lifting-units.ts'

/**
 * A guess of H, to be used only where it cannot be measured.
 * @param boxWidth  away from the body (cm or in), 0 or more
 * @param vertical  hands above the floor (cm or in), 0 or more
 * @returns cm or in
 * @throws RangeError for what is negative or no number
 * @source NIOSH 94-110 (rev. 9/2021), section 1.3.1.1, p. 8
 */
export function horizontalFromBoxWidth(units: LiftingUnits, boxWidth: number, vertical: number): number {
  numberInRange('boxWidth', boxWidth, 0)
  numberInRange('vertical', vertical, 0)
  const { guessLowHands, guessOffset, guessOffsetLowHands } = LIFTING_CONSTANTS[units]
  return (vertical < guessLowHands ? guessOffsetLowHands : guessOffset) + boxWidth / 2
}
