/** Exact conversions: the codes are written in inches and feet, the program is metric. */
import {
  METRES_PER_FOOT,
  METRES_PER_INCH,
  SQUARE_METRES_PER_SQUARE_FOOT,
} from '../../../domain/imperial-factors.ts'

const MILLIMETRES_PER_INCH = METRES_PER_INCH * 1000

export const millimetresFromInches = (inches: number): number => inches * MILLIMETRES_PER_INCH
export const inchesFromMillimetres = (millimetres: number): number => millimetres / MILLIMETRES_PER_INCH
export const metresFromFeet = (feet: number): number => feet * METRES_PER_FOOT
export const feetFromMetres = (metres: number): number => metres / METRES_PER_FOOT
export const squareMetresFromSquareFeet = (squareFeet: number): number =>
  squareFeet * SQUARE_METRES_PER_SQUARE_FOOT
export const squareFeetFromSquareMetres = (squareMetres: number): number =>
  squareMetres / SQUARE_METRES_PER_SQUARE_FOOT
