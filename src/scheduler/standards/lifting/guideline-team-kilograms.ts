/** What a team may lift at the best height before somebody should look closer. */
import { GUIDELINE_WEIGHTS, type LiftingPerson } from './guideline-weights.ts'
import { teamLiftKilograms } from './team-lift.ts'

const bestHeight = (person: LiftingPerson): number =>
  Math.max(...GUIDELINE_WEIGHTS.filter((one) => one.person === person).map(({ kilograms }) => kilograms))

/**
 * The guideline weight at the best height, close to the body, of so many women and of so many men: a filter for
 * looking closer, not a limit.
 * @param people  1 or more
 * @returns kilograms; null for four or more, for whom nothing is published
 * @source HSE L23 and INDG143 (second-hand)
 */
export function guidelineTeamKilograms(
  people: number,
): { readonly women: number; readonly men: number } | null {
  const team = (kilograms: number) => teamLiftKilograms(Array.from({ length: people }, () => kilograms))
  const women = team(bestHeight('woman'))
  const men = team(bestHeight('man'))
  return women === null || men === null ? null : { women, men }
}
