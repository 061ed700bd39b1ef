/** Trained crowd managers to be on duty. */
import { count } from './checked-number.ts'
import type { CrowdManagerRule } from './crowd-manager-rules.ts'

/**
 * How many crowd managers so many people need; 0 for nobody. The fire official may ask for fewer, for the protection
 * there is and the kind of event: that is a setting of the rule.
 * @param worshipOnly  the room is used for nothing but worship
 * @throws RangeError for people that are not a whole number of 0 or more
 * @source IFC 403.12.3 (2018), 403.11.3 (2021); NFPA 101 12.7.6
 */
export function crowdManagersNeeded(
  rule: CrowdManagerRule,
  input: { readonly people: number; readonly worshipOnly: boolean },
): number {
  const people = count('people', input.people)
  const exemptUpTo = input.worshipOnly ? (rule.worshipExemptUpToPeople ?? 0) : 0
  if (people <= Math.max(rule.noneUpToPeople, exemptUpTo)) return 0
  return Math.max(rule.managersLeast, Math.ceil(people / rule.peopleEach))
}
