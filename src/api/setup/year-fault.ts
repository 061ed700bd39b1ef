import type { LocalDate } from '../../domain/units.ts'
import { bodyFault, type Fault } from '../problems.ts'

/** Days are planned in the years that moments are: see Instant. None for a day that is left open. */
export function yearFault(at: string, date: LocalDate | null): Fault[] {
  const year = date === null ? 2000 : Number(date.slice(0, 4))
  return year >= 2000 && year <= 2099 ? [] : [bodyFault(at, `the year ${year} is outside 2000 to 2099`)]
}
