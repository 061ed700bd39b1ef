/** Exact conversions of the international yard: the codes are written in inches and feet, the program is metric. */

const MILLIMETRES_PER_INCH = 25.4
const METRES_PER_FOOT = 0.3048
const SQUARE_METRES_PER_SQUARE_FOOT = 0.092_903_04

export const millimetresFromInches = (inches: number): number => inches * MILLIMETRES_PER_INCH
export const inchesFromMillimetres = (millimetres: number): number => millimetres / MILLIMETRES_PER_INCH
export const metresFromFeet = (feet: number): number => feet * METRES_PER_FOOT
export const feetFromMetres = (metres: number): number => metres / METRES_PER_FOOT
export const squareMetresFromSquareFeet = (squareFeet: number): number =>
  squareFeet * SQUARE_METRES_PER_SQUARE_FOOT
export const squareFeetFromSquareMetres = (squareMetres: number): number =>
  squareMetres / SQUARE_METRES_PER_SQUARE_FOOT
