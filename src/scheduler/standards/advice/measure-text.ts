/** Measures as a hall manager reads them: millimetres, metres and square metres, or inches, feet and square feet. */
import { KILOGRAMS_PER_POUND } from '../../../domain/imperial-factors.ts'
import type { UnitSystem } from '../../../domain/site.ts'
import { counted } from '../../wording/counted.ts'
import {
  feetFromMetres,
  inchesFromMillimetres,
  squareFeetFromSquareMetres,
} from '../occupancy/imperial-units.ts'

const oneDecimal = (value: number): number => Math.round(value * 10) / 10

export const numberText = (value: number): string =>
  value.toLocaleString('en-US', { maximumFractionDigits: 2 })

/** `1 person`, `1,200 people`. */
export const countText = (count: number, one: string, several: string): string =>
  counted(count, one, several, numberText)

export const peopleText = (people: number): string => countText(people, 'person', 'people')

export const widthUnit = (units: UnitSystem): string => (units === 'us' ? 'in' : 'mm')

/** Whole millimetres, or inches to a tenth. */
export const shownWidth = (millimetres: number, units: UnitSystem): number =>
  units === 'us' ? oneDecimal(inchesFromMillimetres(millimetres)) : Math.round(millimetres)

export const widthText = (millimetres: number, units: UnitSystem): string =>
  `${numberText(shownWidth(millimetres, units))} ${widthUnit(units)}`

export interface ComparedWidths {
  readonly isEnough: boolean
  readonly found: number
  readonly required: number
  readonly unit: string
  readonly foundText: string
  readonly requiredText: string
}

/**
 * A width found against one needed, both to the nearest millimetre: nobody measures a hall better, and codes print 36 in
 * as 914 mm. What is shown never contradicts the answer, also where inches to a tenth are coarser than that.
 */
export function comparedWidths(
  foundMillimetres: number,
  neededMillimetres: number,
  units: UnitSystem,
): ComparedWidths {
  const isEnough = Math.round(foundMillimetres) >= Math.round(neededMillimetres)
  const required = shownWidth(neededMillimetres, units)
  const step = units === 'us' ? 0.1 : 1
  const shown = shownWidth(foundMillimetres, units)
  const found = oneDecimal(isEnough ? Math.max(shown, required) : Math.min(shown, required - step))
  const unit = widthUnit(units)
  return {
    isEnough,
    found,
    required,
    unit,
    foundText: `${numberText(found)} ${unit}`,
    requiredText: `${numberText(required)} ${unit}`,
  }
}

export const distanceUnit = (units: UnitSystem): string => (units === 'us' ? 'ft' : 'm')

/** To a tenth of a metre or foot. */
export const shownDistance = (metres: number, units: UnitSystem): number =>
  oneDecimal(units === 'us' ? feetFromMetres(metres) : metres)

export const distanceText = (metres: number, units: UnitSystem): string =>
  `${numberText(shownDistance(metres, units))} ${distanceUnit(units)}`

/** Large floors to the whole unit, the floor of one person to a hundredth. */
export function areaText(squareMetres: number, units: UnitSystem): string {
  const area = units === 'us' ? squareFeetFromSquareMetres(squareMetres) : squareMetres
  return `${numberText(area >= 100 ? Math.round(area) : area)} ${units === 'us' ? 'ft²' : 'm²'}`
}

export const massUnit = (units: UnitSystem): string => (units === 'us' ? 'lb' : 'kg')

/** To a tenth of a kilogram or pound. */
export const shownMass = (kilograms: number, units: UnitSystem): number =>
  oneDecimal(units === 'us' ? kilograms / KILOGRAMS_PER_POUND : kilograms)

export const massText = (kilograms: number, units: UnitSystem): string =>
  `${numberText(shownMass(kilograms, units))} ${massUnit(units)}`
