/** A booking may be taken although it does not fit, where somebody answers for it and everything against it allows that. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import { type Reason, speaksAgainst } from '../../domain/reason.ts'
import type { Turn } from '../../domain/turn.ts'
import { bookingReasons } from './checks/index.ts'
import type { WorldAfter } from './operations/world-after.ts'
import { isOverridable } from './overridable.ts'
import { reasonsOf } from './reasons-of.ts'
import type { JudgedTurns } from './turns/judge-turns.ts'

export interface RiskTaken {
  /** As they shall be written: who fits is at no risk. */
  readonly bookings: WorldAfter['bookings']
  /** All that speaks against what is asked is answered for. */
  readonly isTaken: boolean
  /** In order of precedence. */
  readonly reasons: readonly Reason[]
}

export function riskTaken(after: WorldAfter, judged: JudgedTurns): RiskTaken {
  const reasons = reasonsOf(judged)
  const against = reasons.filter(speaksAgainst)
  const { world } = after
  const asked = after.bookings.map((change) => change.after).filter(isBlocking)
  const fits = (booking: Booking): boolean =>
    turnOf(after, judged, booking)?.status !== 'failing' &&
    !bookingReasons(world, booking).some(speaksAgainst)
  // Nobody answers for another booking than the one that is taken at risk.
  const isAnsweredFor =
    asked.some(({ riskAccepted }) => riskAccepted !== null) &&
    asked.every((booking) => booking.riskAccepted !== null || fits(booking))
  const allFits = against.length === 0
  const isTaken =
    isAnsweredFor && !allFits && against.every((reason) => isOverridable(reason, world.setup.policy))
  return {
    reasons,
    isTaken,
    bookings: after.bookings.map(({ before, after: booking }) =>
      allFits && isBlocking(booking) && booking.riskAccepted !== null && fits(booking)
        ? { before, after: { ...booking, riskAccepted: null } }
        : { before, after: isTaken ? withReasons(booking, against) : booking },
    ),
  }
}

/** Whoever reads it later sees what was risked, for others too. */
const withReasons = (booking: Booking, reasons: readonly Reason[]): Booking =>
  booking.riskAccepted === null
    ? booking
    : { ...booking, riskAccepted: { ...booking.riskAccepted, reasons: [...reasons] } }

/** That prepares it, as it would be written; null: there is none. */
const turnOf = ({ world }: WorldAfter, { turns }: JudgedTurns, { turnId }: Booking): Turn | null =>
  turns.find((turn) => turn.after.id === turnId)?.after ?? world.turnsById.get(turnId) ?? null
