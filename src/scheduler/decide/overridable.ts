/** What a coordinator may decide otherwise, with a reason, and what nobody may. */
import type { BookingId, TurnId } from '../../domain/ids.ts'
import type { Policy } from '../../domain/policy.ts'
import type { Reason, ReasonCode } from '../../domain/reason.ts'

const never: ReadonlySet<ReasonCode> = new Set<ReasonCode>([
  'room-closed',
  'room-occupied',
  'headcount-over-posted-limit',
  'state-unreachable',
  'device-held',
  'way-closed',
])

/** These may speak of another booking than the one that is asked for. */
const mayBeOfAnother: ReadonlySet<ReasonCode> = new Set<ReasonCode>([
  'tool-missing',
  'skill-missing',
  'crew-demand-short',
  'paid-hours-short',
  'hands-short',
  'turn-after-too-long',
  'milestone-missed',
  'noise-next-door',
  'another-turn-broken',
  'device-late',
])

/** Firm bookings that would be broken: see firm-harmed.ts. */
export interface FirmHarmed {
  readonly bookingIds: ReadonlySet<BookingId>
  readonly turnIds: ReadonlySet<TurnId>
}

export const NO_FIRM_HARMED: FirmHarmed = { bookingIds: new Set(), turnIds: new Set() }

/**
 * A skill that no minor may have needs somebody qualified, or at least grown up: that is not for anybody to waive. Nor is
 * what was promised to somebody else for good.
 */
export function isOverridable(
  reason: Reason,
  { adultOnlySkills }: Policy,
  harmed: FirmHarmed = NO_FIRM_HARMED,
): boolean {
  if (never.has(reason.code) || speaksOfFirm(reason, harmed)) return false
  if (reason.code !== 'skill-missing') return true
  return reason.skill !== 'adult' && !adultOnlySkills.includes(reason.skill)
}

export function speaksOfFirm(reason: Reason, { bookingIds, turnIds }: FirmHarmed): boolean {
  if ('turnId' in reason) return turnIds.has(reason.turnId)
  return (
    'bookingId' in reason &&
    reason.bookingId !== null &&
    mayBeOfAnother.has(reason.code) &&
    bookingIds.has(reason.bookingId)
  )
}

/** The same for all reasons with a code, as a table has it. */
export function overridableInWords(code: ReasonCode): OverridableInWords {
  if (code === 'skill-missing') return 'unless qualified or firm'
  if (never.has(code)) return 'no'
  return mayBeOfAnother.has(code) ? 'unless firm' : 'yes'
}

type OverridableInWords = 'yes' | 'no' | 'unless firm' | 'unless qualified or firm'
