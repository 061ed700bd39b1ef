/** What a coordinator may decide otherwise, with a reason, and what nobody may. */
import type { Policy } from '../../domain/policy.ts'
import type { Reason, ReasonCode } from '../../domain/reason.ts'

const never: ReadonlySet<ReasonCode> = new Set<ReasonCode>([
  'room-closed',
  'room-occupied',
  'headcount-over-posted-limit',
  'state-unreachable',
  'way-closed',
])

/** A skill that no minor may have needs somebody qualified, or at least grown up: that is not for anybody to waive. */
export function isOverridable(reason: Reason, { adultOnlySkills }: Policy): boolean {
  if (reason.code !== 'skill-missing') return !never.has(reason.code)
  return reason.skill !== 'adult' && !adultOnlySkills.includes(reason.skill)
}

/** The same for all reasons with a code, as a table has it. */
export function overridableInWords(code: ReasonCode): 'yes' | 'no' | 'unless qualified' {
  if (code === 'skill-missing') return 'unless qualified'
  return never.has(code) ? 'no' : 'yes'
}
