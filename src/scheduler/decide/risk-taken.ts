/** A booking may be taken although it does not fit, where somebody answers for it and everything against it allows that. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import type { Operation } from '../../domain/operation.ts'
import { type Reason, reasonCodes, speaksAgainst } from '../../domain/reason.ts'
import type { Turn } from '../../domain/turn.ts'
import { bookingReasons } from './checks/index.ts'
import { firmHarmed } from './firm-harmed.ts'
import { milestonesOrphaned } from './operations/milestones-of-nobody.ts'
import { onlyWordsChange } from './operations/only-words-change.ts'
import type { WorldAfter } from './operations/world-after.ts'
import { type FirmHarmed, isOverridable } from './overridable.ts'
import { reasonsOf } from './reasons-of.ts'
import type { JudgedTurns } from './turns/judge-turns.ts'

export interface RiskTaken {
  /** As they shall be written: who fits is at no risk. */
  readonly bookings: WorldAfter['bookings']
  /** It is written although something speaks against it: somebody answers for all of that, or it follows from nothing asked. */
  readonly isTaken: boolean
  /** In order of precedence. */
  readonly reasons: readonly Reason[]
  /** Whom it would break: nobody may answer for that. */
  readonly harmed: FirmHarmed
}

export function riskTaken(
  after: WorldAfter,
  judged: JudgedTurns,
  operations: readonly Operation[],
): RiskTaken {
  const { world } = after
  if (onlyWordsChange(operations, after)) return standingAsBefore(after, judged, operations)
  const reasons = [...reasonsOf(judged), ...milestonesOrphaned(after, operations)].sort(
    (a, b) => reasonCodes.indexOf(a.code) - reasonCodes.indexOf(b.code),
  )
  const harmed = firmHarmed(after, judged, operations)
  const against = reasons.filter(speaksAgainst)
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
    isAnsweredFor && !allFits && against.every((reason) => isOverridable(reason, world.setup.policy, harmed))
  const written = after.bookings.map(({ before, after: booking }) =>
    allFits && isBlocking(booking) && booking.riskAccepted !== null && fits(booking)
      ? { before, after: { ...booking, riskAccepted: null } }
      : { before, after: isTaken ? withReasons(booking, against) : booking },
  )
  return { reasons, isTaken, harmed, bookings: [...written, ...readyAfterAll(after, judged)] }
}

/** What stands is called otherwise: it fits no better for that, and no worse. */
function standingAsBefore(
  after: WorldAfter,
  judged: JudgedTurns,
  operations: readonly Operation[],
): RiskTaken {
  const found = reasonsOf(judged)
  const said = new Set(found.map(({ code }) => code))
  const judgedIds = new Set(judged.turns.map((turn) => turn.after.id))
  const stored = after.bookings.flatMap(({ after: { turnId } }) => {
    const turn = after.world.turnsById.get(turnId)
    return turn?.status === 'failing' && !judgedIds.has(turnId) ? turn.judgement.reasons : []
  })
  const reasons = [...found, ...stored.filter(({ code }) => !said.has(code))].sort(
    (a, b) => reasonCodes.indexOf(a.code) - reasonCodes.indexOf(b.code),
  )
  const harmed = firmHarmed(after, judged, operations)
  return { reasons, harmed, isTaken: true, bookings: [...after.bookings, ...readyAfterAll(after, judged)] }
}

/** Taken at risk once, and ready now by what has changed around them: there is nothing left to answer for. */
function readyAfterAll({ bookings }: WorldAfter, { turns }: JudgedTurns): WorldAfter['bookings'] {
  const asked = new Set(bookings.map((change) => change.after.id))
  return turns.flatMap(({ input: { booking, purpose }, before, after }) =>
    purpose === 'prepare' &&
    booking.riskAccepted !== null &&
    !asked.has(booking.id) &&
    before?.status === 'failing' &&
    after.status === 'ready'
      ? [{ before: booking, after: { ...booking, riskAccepted: null, version: booking.version + 1 } }]
      : [],
  )
}

/** Whoever reads it later sees what was risked, for others too. */
const withReasons = (booking: Booking, reasons: readonly Reason[]): Booking =>
  booking.riskAccepted === null
    ? booking
    : { ...booking, riskAccepted: { ...booking.riskAccepted, reasons: [...reasons] } }

/** That prepares it, as it would be written; null: there is none. */
const turnOf = ({ world }: WorldAfter, { turns }: JudgedTurns, { turnId }: Booking): Turn | null =>
  turns.find((turn) => turn.after.id === turnId)?.after ?? world.turnsById.get(turnId) ?? null
