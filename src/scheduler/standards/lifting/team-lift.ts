/** What several people can lift together: less than the sum of what each could lift alone. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

export const TEAM_LIFT_SOURCE =
  'HSE L23, guidance on the Manual Handling Operations Regulations 1992, as quoted by a rail operator and in a forum; second-hand'

export const TEAM_LIFT_STAIRS_NOTE = 'On stairs and slopes the lower person may carry most of the load.'

const SHARE_OF_SUM_BY_PEOPLE: readonly number[] = [0, 1, 2 / 3, 1 / 2]

/**
 * @param aloneKilograms  what each person could lift alone, 0 or more each
 * @returns kilograms: for two people 2/3 of the sum, for three 1/2; 0 for nobody; null for four or more, for whom
 *   nothing is published except that more than four are unlikely to work together
 * @throws RangeError for what is negative or no number
 * @source HSE L23 (second-hand)
 */
export function teamLiftKilograms(aloneKilograms: readonly number[]): number | null {
  const sum = aloneKilograms.reduce(
    (total, kilograms, index) => total + numberInRange(`aloneKilograms[${index}]`, kilograms, 0),
    0,
  )
  const share = SHARE_OF_SUM_BY_PEOPLE[aloneKilograms.length]
  return share === undefined ? null : sum * share
}
