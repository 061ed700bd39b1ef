/** The changeover before a booking: what it starts from, when it may run, how it stands, and the plan that shows it. */
import { z } from 'zod'
import { Alternative } from './alternative.ts'
import { BookingId, LayoutId, PolicyId, RateSetId, RoomId, SiteId, TurnId } from './ids.ts'
import { Instant } from './instant.ts'
import { Plan } from './plan.ts'
import { Proof, Reason } from './reason.ts'
import { Verdict } from './verdict.ts'

/** The longest before doors that a turn may begin: 48 h. What is loaded for a decision leans on it. */
export const TURN_LONGEST_SECONDS = 48 * 3600

/** How long after doors a plan is still looked for, to say how late it would be: 24 h. */
export const TURN_LATE_MOST_SECONDS = 24 * 3600

export const HandsNumbers = z.object({
  needed: z
    .int()
    .min(0)
    .meta({ description: 'The most hands at work at one time in the plan, late ones included' }),
  onDuty: z.int().min(0).meta({ description: 'The most hands on duty at one time between clear and doors' }),
  assumed: z.int().min(0).meta({ description: 'Hands counted on that nobody has promised' }),
})

/** What was found when the turn was last judged. */
export const Judgement = z.object({
  verdict: Verdict,
  reasons: z
    .array(Reason)
    .meta({ description: 'What speaks against it as it stands, in order of precedence' }),
  judgedAt: Instant,
  policyId: PolicyId.meta({ description: 'The policy it was judged under' }),
  rateSetId: RateSetId.nullable()
    .default(null)
    .meta({ description: 'The rate set it was judged by; null: the defaults' }),
  staffedWindowSeconds: z
    .int()
    .min(0)
    .meta({ description: 'Time with somebody on duty between clear and doors' }),
  neededSeconds: z.int().min(0).nullable().meta({
    description: 'The time in which something is being done, by the plan; waiting for hands is left out',
  }),
  lowerBoundSeconds: z
    .int()
    .min(0)
    .nullable()
    .meta({ description: 'No plan can need less with these hands; null: no plan is possible at all' }),
  proof: Proof.nullable().meta({
    description:
      'How sure it is that the turn does not fit; `bound` on one that fits: no plan is ready earlier; else null',
  }),
  readyAt: Instant.nullable(),
  slackSeconds: z.int().nullable(),
  hands: HandsNumbers,
  warnedSince: Instant.nullable().default(null).meta({
    description:
      'Since when it fails, runs late or rests on hands that nobody has promised; null: it does not',
  }),
  polishedAt: Instant.nullable().default(null).meta({
    description: 'When a longer search last went over it as it stands; null: not yet',
  }),
  waysOut: z.array(Alternative).default([]).meta({
    description: 'What would have it ready, where it fails; looked for in the background',
  }),
})
export type Judgement = z.infer<typeof Judgement>

/**
 * `failing`: not ready by doors, or not at all; the turn of a booking at risk then keeps a plan that is late, so that its
 * hands stay its own. `dropped`: the booking is cancelled, or the room is not put back any more.
 */
export const TurnStatus = z.enum(['ready', 'failing', 'dropped'])
export type TurnStatus = z.infer<typeof TurnStatus>

/** It prepares a booking, or puts a room back into its home layout that nobody needs for a while. */
export const TurnPurpose = z.enum(['prepare', 'return-home'])
export type TurnPurpose = z.infer<typeof TurnPurpose>

export const Turn = z.object({
  id: TurnId,
  siteId: SiteId,
  bookingId: BookingId.meta({ description: 'The booking it prepares, or after which it puts the room back' }),
  purpose: TurnPurpose.default('prepare'),
  roomId: RoomId,
  predecessorBookingIds: z
    .array(BookingId)
    .meta({ description: 'What stood there before; several in a combined room' }),
  fromLayoutIds: z.array(LayoutId).meta({ description: 'What they leave standing; none: the bare floor' }),
  toLayoutId: LayoutId,
  releaseAt: Instant.meta({
    description: 'Not before: the last predecessor is clear, at most 48 h before doors',
  }),
  dueAt: Instant.meta({ description: 'Ready by: doors, or the end of the time to put the room back' }),
  inputHash: z.string().meta({ description: 'Of everything the task network was made from' }),
  status: TurnStatus,
  judgement: Judgement,
  plan: Plan.nullable(),
})
export type Turn = z.infer<typeof Turn>

/** A turn in brief, as decisions show it. */
export const TurnBrief = z.object({
  turnId: TurnId,
  bookingId: BookingId,
  roomId: RoomId,
  fromLayoutIds: z.array(LayoutId),
  toLayoutId: LayoutId,
  releaseAt: Instant,
  dueAt: Instant,
  ...Judgement.omit({
    reasons: true,
    judgedAt: true,
    policyId: true,
    rateSetId: true,
    warnedSince: true,
    polishedAt: true,
    waysOut: true,
  }).shape,
  readyChance: z.number().min(0).max(1).nullable().meta({ description: 'null: not computed' }),
})
export type TurnBrief = z.infer<typeof TurnBrief>
