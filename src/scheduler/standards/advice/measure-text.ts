/** Measures as a hall manager reads them: millimetres, metres and square metres, or inches, feet and square feet. */
import type { UnitSystem } from '../../../domain/site.ts'
import {
  feetFromMetres,
  inchesFromMillimetres,
  squareFeetFromSquareMetres,
} from '../occupancy/imperial-units.ts'

const oneDecimal = (value: number): number => Math.round(value * 10) / 10

export const numberText = (value: number): string =>
  value.toLocaleString('en-US', { maximumFractionDigits: 2 })

/** `1 person`, `3 people`: the count with the word for one or for several. */
export const countText = (count: number, one: string, several: string): string =>
  `${numberText(count)} ${count === 1 ? one : several}`

export const peopleText = (people: number): string => countText(people, 'person', 'people')

/** `the back door, the side door and the foyer`. */
export function listText(names: readonly string[]): string {
  const last = names.at(-1)
  if (last === undefined) return 'none'
  return names.length === 1 ? last : `${names.slice(0, -1).join(', ')} and ${last}`
}

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

const POUNDS_PER_KILOGRAM = 1 / 0.453_592_37

/** To a tenth of a kilogram or pound. */
export const shownMass = (kilograms: number, units: UnitSystem): number =>
  oneDecimal(units === 'us' ? kilograms * POUNDS_PER_KILOGRAM : kilograms)

export const massText = (kilograms: number, units: UnitSystem): string =>
  `${numberText(shownMass(kilograms, units))} ${massUnit(units)}`
