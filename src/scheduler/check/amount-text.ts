/** Amounts as a sentence says them, in the units the site reads. */
import {
  KILOGRAMS_PER_POUND,
  METRES_PER_INCH,
  SQUARE_METRES_PER_SQUARE_FOOT,
} from '../../domain/imperial-factors.ts'
import type { UnitSystem } from '../../domain/site.ts'

const OUNCES_PER_POUND = 16

/** Three figures are more than anybody needs; whole numbers from 100 on. */
const rounded = (value: number, decimals: number): string =>
  String(value >= 100 ? Math.round(value) : Number(value.toFixed(decimals)))

export const areaText = (squareMetres: number, units: UnitSystem): string =>
  units === 'us'
    ? `${rounded(squareMetres / SQUARE_METRES_PER_SQUARE_FOOT, 1)} ft²`
    : `${rounded(squareMetres, 2)} m²`

/** Of doors and pieces. */
export const widthText = (metres: number, units: UnitSystem): string =>
  units === 'us' ? `${rounded(metres / METRES_PER_INCH, 1)} in` : `${rounded(metres, 2)} m`

/** Below 1 kg in grams, below 1 lb in ounces. */
export function massText(kilograms: number, units: UnitSystem): string {
  const pounds = kilograms / KILOGRAMS_PER_POUND
  if (units === 'us') {
    return pounds < 1 ? `${twoFigures(pounds * OUNCES_PER_POUND)} oz` : `${rounded(pounds, 1)} lb`
  }
  return kilograms < 1 ? `${twoFigures(kilograms * 1000)} g` : `${rounded(kilograms, 1)} kg`
}

/** Never 0 for what is not: whole numbers from 10 on. */
const twoFigures = (value: number): string =>
  String(value >= 10 ? Math.round(value) : Number(value.toPrecision(2)))

/** Two whole hours or more as hours, whole minutes as minutes, everything else, and up to a minute, as seconds. */
export function spanText(seconds: number): string {
  if (seconds >= 7200 && seconds % 3600 === 0) return `${seconds / 3600} h`
  return seconds > 60 && seconds % 60 === 0 ? `${seconds / 60} min` : `${rounded(seconds, 1)} s`
}

/** `Friday`, by ISO 8601: 1 is Monday. */
export const weekdayText = (weekday: number): string => weekdayNames[weekday - 1] ?? String(weekday)
const weekdayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']
