/** The lifting index of one piece of furniture, its mass shared evenly among those who handle it. */
import type { Furnishing } from '../../../domain/furnishing.ts'
import { assessLift } from './assess-lift.ts'

/**
 * Judged at both ends, as a piece is put down with care, for up to an hour of such work. It never says how many hands
 * a piece needs: rolling, pushing and carrying are outside the equation.
 * @param piece  with its lift geometry
 * @returns null where the equation recommends no weight at all
 * @source revised NIOSH lifting equation (NIOSH 94-110, rev. 9/2021); team lifts are outside it, the even share is
 *   common practice, no source
 */
export function pieceLiftingIndex(
  piece: Pick<Furnishing, 'massKilograms' | 'handsPerPiece'> & {
    readonly lift: NonNullable<Furnishing['lift']>
  },
): number | null {
  const { lift, massKilograms, handsPerPiece } = piece
  const hands = (vertical: number) => ({
    horizontal: lift.horizontalCentimetres,
    vertical,
    asymmetryDegrees: lift.asymmetryDegrees,
  })
  return assessLift(
    {
      units: 'metric',
      load: massKilograms / handsPerPiece,
      origin: hands(lift.originHeightCentimetres),
      destination: { placedWithCare: true, hands: hands(lift.destinationHeightCentimetres) },
      liftsPerMinute: lift.liftsPerMinute,
      duration: 'short',
      grip: lift.coupling,
    },
    'full',
  ).liftingIndex
}
