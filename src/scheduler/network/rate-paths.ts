/** The name of every number in a set of rates. */
import type { RatePath, Rates } from '../../domain/rate-set.ts'

/**
 * Keys joined by dots, down to each number, in the order the rates list them: `fromTrolley.stacking-chair.setPersonSeconds`,
 * `walkthroughModes.0.seconds` (places in a list count from 0).
 */
export const ratePaths = (rates: Rates): RatePath[] => pathsIn(rates, '')

function pathsIn(value: unknown, path: string): RatePath[] {
  if (typeof value !== 'object' || value === null) return [path]
  return Object.entries(value).flatMap(([key, inner]) => pathsIn(inner, path === '' ? key : `${path}.${key}`))
}
