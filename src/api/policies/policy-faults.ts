/** What can be wrong with a policy beyond its shape. */
import type { Policy } from '../../domain/policy.ts'
import { repeated } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const policyFaults = (policy: Policy): Fault[] => [
  ...handsFaults(policy),
  ...repeated((index) => `/adultOnlySkills/${index}`, policy.adultOnlySkills, 'skill'),
  ...Object.entries(policy.cleaning).flatMap(([kind, methods]) =>
    repeated((index) => `/cleaning/${kind}/${index}`, methods, 'cleaning method'),
  ),
]

/** More hands are listed after fewer, are worth no less, and never more than they are. */
function handsFaults({ effectiveHands }: Policy): Fault[] {
  return effectiveHands.flatMap(({ hands, effective }, index) => {
    const at = `/effectiveHands/${index}`
    const before = effectiveHands[index - 1]
    if (effective > hands)
      return [bodyFault(`${at}/effective`, `${hands} hands cannot be worth more than ${hands}`)]
    if (!before) return []
    if (hands <= before.hands)
      return [bodyFault(`${at}/hands`, `list hands in rising order, after ${before.hands} more`)]
    return effective < before.effective
      ? [bodyFault(`${at}/effective`, `${hands} hands cannot be worth less than ${before.hands} hands`)]
      : []
  })
}
