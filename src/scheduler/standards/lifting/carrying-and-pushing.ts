/** Guideline figures for what the lifting equation leaves out. */
import { numberInRange } from '../work-measurement/number-in-range.ts'
import type { LiftingPerson } from './guideline-weights.ts'

/** Against the body, without putting it down. */
export const CARRY_METRES_MOST = 10
export const CARRY_SOURCE =
  "HSE L23, as given in a lifting-equipment maker's assessment guidelines; second-hand"

/**
 * @param distanceMetres  the way carried without a rest, 0 or more
 * @returns a sentence, or null up to 10 m
 * @throws RangeError for what is negative or no number
 */
export function carryProblem(distanceMetres: number): string | null {
  numberInRange('distanceMetres', distanceMetres, 0)
  if (distanceMetres <= CARRY_METRES_MOST) return null
  return `Carried ${distanceMetres} m without a rest: guidance says about ${CARRY_METRES_MOST} m at most. Use a trolley or put it down on the way.`
}

export interface PushPullGuideline {
  readonly person: LiftingPerson
  readonly toStartKilogramsForce: number
  readonly toKeepGoingKilogramsForce: number
  readonly source: string
}

export const PUSH_PULL_GUIDELINES: readonly PushPullGuideline[] = [
  {
    person: 'man',
    toStartKilogramsForce: 20,
    toKeepGoingKilogramsForce: 10,
    source: 'HSE L23; from memory',
  },
  {
    person: 'woman',
    toStartKilogramsForce: 15,
    toKeepGoingKilogramsForce: 7,
    source: 'HSE L23; from memory',
  },
]
