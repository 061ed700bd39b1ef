/** What can be wrong with a policy beyond its shape. */
import type { Policy } from '../../domain/policy.ts'
import { bodyFault, type Fault } from '../problems.ts'

/** More hands are listed after fewer, are worth no less, and never more than they are. */
export function policyFaults({ effectiveHands }: Policy): Fault[] {
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
