/** Places at tables that a wheelchair can roll up to. */
import { count } from '../occupancy/checked-number.ts'

const PLACES_FOR_EACH_ACCESSIBLE = 20

/**
 * At least 5 % of the seats and standing places, spread about the room; 0 for no places.
 * @throws RangeError for places that are not a whole number of 0 or more
 * @source 2010 ADA Standards 226.1 and 226.2; fractions up, 104.2
 */
export function accessibleDiningPlaces(places: number): number {
  return Math.ceil(count('places', places) / PLACES_FOR_EACH_ACCESSIBLE)
}
