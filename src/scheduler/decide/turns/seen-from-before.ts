import type { Reason } from '../../../domain/reason.ts'

/** A reason about the turn that prepares the next booking, told from the booking before it. */
export function seenFromBefore(reason: Reason): Reason {
  if (reason.code === 'turn-before-too-long') return { ...reason, code: 'turn-after-too-long', side: 'after' }
  return 'side' in reason ? { ...reason, side: 'after' } : reason
}
