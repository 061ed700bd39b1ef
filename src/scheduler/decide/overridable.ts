/** What a coordinator may decide otherwise, with a reason, and what nobody may. */
import type { ReasonCode } from '../../domain/reason.ts'

const never: ReadonlySet<ReasonCode> = new Set<ReasonCode>([
  'room-closed',
  'room-occupied',
  'headcount-over-posted-limit',
  'way-closed',
  'skill-missing',
])

export const isOverridable = (code: ReasonCode): boolean => !never.has(code)
