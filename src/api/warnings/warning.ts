/** One thing that a coordinator is warned of: what it is, since when, and ways out. */
import { z } from 'zod'
import { Alternative } from '../../domain/alternative.ts'
import { Booking } from '../../domain/booking.ts'
import { AcceptedRisk } from '../../domain/booking-terms.ts'
import { AnsweredReason } from '../../domain/decision.ts'
import { Instant } from '../../domain/instant.ts'
import type { Reason } from '../../domain/reason.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { Turn } from '../../domain/turn.ts'
import { answeredReason } from '../../scheduler/decide/index.ts'
import { waysOutToday } from './ways-out-today.ts'

/** In order of weight. */
export const WarningKind = z.enum(['failing', 'at-risk', 'assumed', 'stale'])
export type WarningKind = z.infer<typeof WarningKind>

export const Warning = z.object({
  kind: WarningKind.meta({
    description:
      'failing: not ready by doors, or not to be had as it stands. at-risk: taken although it does not fit, and ' +
      'somebody answers for it. assumed: it rests on hands that nobody has promised, and doors are within seven days. ' +
      'stale: the hall has changed since it was judged, and it is yet to be looked at again. What is several of them is ' +
      'told once, as the first',
  }),
  ...Turn.pick({ purpose: true, bookingId: true, roomId: true }).shape,
  turnId: Turn.shape.id,
  title: Booking.shape.title,
  doorsAt: Instant.meta({ description: 'Of the booking; of a room that is put back: by when it shall be' }),
  since: Instant.meta({
    description: 'Since when it is so; at risk: since somebody took it; stale: since it was judged last',
  }),
  isStale: z.boolean().meta({ description: 'Yet to be looked at again after a change of the hall' }),
  message: z.string().meta({ description: 'What it is, in one sentence or two' }),
  reasons: z.array(AnsweredReason),
  waysOut: z.array(Alternative).meta({
    description:
      'What would be taken instead, as it was found in the background; what is past is left out. Hands that would do ' +
      'are told at once',
  }),
  holder: AcceptedRisk.pick({ actorId: true, why: true })
    .nullable()
    .meta({ description: 'At risk: who answers for it, and why it was taken' }),
})
export type Warning = z.infer<typeof Warning>

/** Assumed hands are worth a warning only when there is little time left to find somebody. */
export const ASSUMED_WARNED_SECONDS = 7 * 86_400

/** What a warning is made of. */
export interface InTrouble {
  readonly turn: Turn
  readonly booking: Booking
  readonly isStale: boolean
}

/** @param untilAt  assumed hands are warned of for doors before then @returns null: it is in no trouble */
export function kindOf({ turn, booking, isStale }: InTrouble, untilAt: Instant): WarningKind | null {
  // A room that is put back is at nobody's risk.
  if (turn.purpose === 'prepare' && booking.riskAccepted !== null) return 'at-risk'
  if (turn.status === 'failing') return 'failing'
  if (turn.judgement.hands.assumed > 0 && turn.dueAt < untilAt) return 'assumed'
  return isStale ? 'stale' : null
}

/** What speaks against it now, and what was taken at risk. */
export function reasonsTold(kind: WarningKind, { turn, booking }: InTrouble): Reason[] {
  const { reasons } = turn.judgement
  const said = new Set(reasons.map(({ code }) => code))
  const risked = kind === 'at-risk' ? (booking.riskAccepted?.reasons ?? []) : []
  return [...reasons, ...risked.filter(({ code }) => !said.has(code))]
}

/** @param named  the bookings that its reasons may name, beside its own */
export function warningOf(
  kind: WarningKind,
  trouble: InTrouble,
  { setup, named }: { readonly setup: SiteSetup; readonly named: readonly Booking[] },
  now: Instant,
): Warning {
  const { turn, booking, isStale } = trouble
  const { judgement } = turn
  const { riskAccepted } = booking
  const reasons = reasonsTold(kind, trouble).map((reason) =>
    answeredReason(reason, setup, [booking, ...named]),
  )
  const holder = kind === 'at-risk' ? riskAccepted : null
  return {
    kind,
    purpose: turn.purpose,
    bookingId: booking.id,
    turnId: turn.id,
    roomId: turn.roomId,
    title: booking.title,
    doorsAt: turn.dueAt,
    since:
      holder?.acceptedAt ??
      (kind === 'stale' ? judgement.judgedAt : (judgement.warnedSince ?? judgement.judgedAt)),
    isStale,
    message: messageOf(kind, reasons, holder),
    reasons,
    waysOut: waysOutToday(turn, setup, now),
    holder: holder && { actorId: holder.actorId, why: holder.why },
  }
}

function messageOf(
  kind: WarningKind,
  reasons: readonly AnsweredReason[],
  holder: AcceptedRisk | null,
): string {
  const first = reasons.find(({ code }) => (code === 'hands-assumed') === (kind === 'assumed'))?.message
  switch (kind) {
    case 'failing':
      return first ?? 'It does not fit as it stands.'
    case 'at-risk':
      return `Taken at the risk of ${holder?.actorId ?? 'nobody'}: ${holder?.why ?? ''}`
    case 'assumed':
      return first ?? 'It rests on hands that nobody has promised.'
    case 'stale':
      return 'The hall has changed since it was judged; it is looked at again, nearest doors first.'
    default:
      return kind satisfies never
  }
}
