/** What can speak against a turn, or make it tight. */
import { z } from 'zod'
import {
  BookingId,
  ClosureId,
  EquipmentId,
  LayoutId,
  PassageId,
  RoomId,
  StoragePlaceId,
  ToolId,
  TurnId,
} from './ids.ts'
import { Instant } from './instant.ts'
import { Milestone } from './task.ts'
import { Skill } from './units.ts'

/** How sure a "no" is: it cannot be (`bound`, `exhausted`), or nothing was found (`none-found`). */
export const Proof = z.enum(['bound', 'exhausted', 'none-found'])
export type Proof = z.infer<typeof Proof>

/** Which turn of the request: the one that prepares it, or the one that prepares what comes next. */
export const TurnSide = z.enum(['before', 'after'])
export type TurnSide = z.infer<typeof TurnSide>
/** Nothing says how a device gets from how it is left to how the layout needs it, or it cannot be so at all. */
export const StateUnreachable = z.object({
  code: z.literal('state-unreachable'),
  turnId: TurnId,
  side: TurnSide,
  equipmentId: EquipmentId,
  from: z.string(),
  to: z.string(),
})
/** A store or a passage is closed in the gap; the turn would be ready if it were open. */
export const WayClosed = z.object({
  code: z.literal('way-closed'),
  turnId: TurnId,
  side: TurnSide,
  closureId: ClosureId,
  storagePlaceIds: z.array(StoragePlaceId),
  passageIds: z.array(PassageId),
  fromAt: Instant,
  toAt: Instant,
  why: z.string(),
  closedSeconds: z
    .int()
    .nullable()
    .default(null)
    .meta({ description: 'For so long between clear and doors; null: not told' }),
  doorsAt: Instant.nullable().default(null),
  readyAt: Instant.nullable()
    .default(null)
    .meta({ description: 'By the best plan found with it closed; null: none was found' }),
})
/** The site owns some for this work, and none of them is there at the time. */
export const ToolMissing = z.object({
  code: z.literal('tool-missing'),
  turnId: TurnId,
  side: TurnSide,
  toolId: ToolId,
})
/** No hand with the skill is free for long enough in the turn's window. */
export const SkillMissing = z.object({
  code: z.literal('skill-missing'),
  turnId: TurnId,
  side: TurnSide,
  skill: Skill.or(z.literal('adult')),
  fromAt: Instant,
  toAt: Instant,
  proof: Proof,
})
const heldFor = z
  .array(BookingId)
  .default([])
  .meta({ description: 'For whom the others are at work, those for whom most first' })
/** Not enough of the crew is there for the event itself, beside the work of the turns. */
export const CrewDemandShort = z.object({
  code: z.literal('crew-demand-short'),
  bookingId: BookingId,
  what: z.string(),
  fromAt: Instant,
  toAt: Instant,
  handsNeeded: z.int(),
  skill: Skill.nullable(),
  handsOnDuty: z
    .int()
    .nullable()
    .default(null)
    .meta({ description: 'On duty for all of that time, with the skill; null: not told' }),
  handsFree: z.int().nullable().default(null).meta({ description: 'So many of those are at no other work' }),
  heldFor,
  paidSecondsMost: z.int().nullable().default(null).meta({
    description: 'Enough are free, but no more than this is paid for; null: that is not what is short',
  }),
})
/** A device that others still have, or quiet that they need: no hands can go on before. */
export const HeldBack = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('device'),
    equipmentId: EquipmentId,
    bookingId: BookingId.nullable().meta({ description: 'Who has it; null: not told' }),
    untilAt: Instant,
  }),
  z.object({ kind: z.literal('quiet'), roomId: RoomId, bookingId: BookingId, untilAt: Instant }),
])
export type HeldBack = z.infer<typeof HeldBack>
const turnNumbers = {
  turnId: TurnId,
  side: TurnSide,
  toLayoutId: LayoutId,
  neededSeconds: z.int().nullable().meta({
    description: 'The time in which something is being done, by the best plan found; null: no plan at all',
  }),
  availableSeconds: z.int().meta({ description: 'Staffed time between clear and doors' }),
  shortSeconds: z
    .int()
    .nullable()
    .meta({ description: 'From doors until ready by the best plan found; null: no plan at all' }),
  readyAt: Instant.nullable(),
  doorsAt: Instant,
  handsOnDuty: z.int().meta({ description: 'The most hands on duty at one time between clear and doors' }),
  handsHeld: z
    .int()
    .default(0)
    .meta({ description: 'The most of them at work for other turns and events at one time' }),
  heldFor,
  heldBack: z
    .array(HeldBack)
    .default([])
    .meta({ description: 'Without these the hands there are would do; empty: it is not these' }),
  helpers: z.int().default(0).meta({ description: 'Hands of the group that was there, counted beside' }),
  guestsOutAt: Instant.nullable()
    .default(null)
    .meta({ description: 'Those before are only out then, at doors or after; null: by then they are' }),
  proof: Proof,
}
/**
 * Those on duty could do it by doors, if more of their time were paid for in one turn. What would be needed is by the plan
 * that was found without the cap.
 */
export const PaidHoursShort = z.object({
  code: z.literal('paid-hours-short'),
  ...turnNumbers,
  paidSecondsMost: z.int().meta({ description: 'Person-seconds that the policy pays for in one turn' }),
  paidSecondsNeeded: z.int().meta({ description: 'Person-seconds' }),
  unpaidHandsNeeded: z
    .int()
    .nullable()
    .meta({ description: 'So many more that are not paid would do it too; null: none of the numbers tried' }),
})
/** More hands, in the same time, would do it: `handsNeeded` in all. */
export const HandsShort = z.object({
  code: z.literal('hands-short'),
  ...turnNumbers,
  handsNeeded: z.int(),
  unpaid: z
    .boolean()
    .default(false)
    .meta({ description: 'Those who are to come are not paid: what is paid for in one turn is used up' }),
})
/** The turn before the booking does not fit and no number of hands was found that would make it fit. */
export const TurnBeforeTooLong = z.object({
  code: z.literal('turn-before-too-long'),
  ...turnNumbers,
  handsTried: z.int(),
})
/** The same for the turn that prepares the next booking. */
export const TurnAfterTooLong = z.object({
  code: z.literal('turn-after-too-long'),
  ...turnNumbers,
  handsTried: z.int(),
})
/** The room is ready by doors, and something that was to be there earlier is not. */
export const MilestoneMissed = z.object({
  code: z.literal('milestone-missed'),
  turnId: TurnId,
  side: TurnSide,
  milestone: Milestone,
  byAt: Instant,
  reachedAt: Instant.nullable(),
  proof: Proof,
  bookingId: BookingId.nullable().default(null).meta({
    description:
      'Whose it is, where no turn follows that would reach it: nobody does the work; null: one does',
  }),
})
/** It needs quiet, and work that is planned in a room that it hears is not quiet. */
export const NoiseNextDoor = z.object({
  code: z.literal('noise-next-door'),
  bookingId: BookingId,
  fromAt: Instant,
  toAt: Instant,
  noise: z
    .object({
      bookingId: BookingId,
      roomId: RoomId,
      fromAt: Instant,
      toAt: Instant,
      task: z.string(),
    })
    .nullable()
    .default(null)
    .meta({ description: 'The first noisy work in that time, and for whom; null: not told' }),
})
/** What a turn is broken for want of. */
export const TurnLacks = z.enum([
  'hands',
  'paid-hours',
  'skill',
  'tool',
  'way',
  'time',
  'milestone',
  'event-crew',
  'quiet',
])
export type TurnLacks = z.infer<typeof TurnLacks>
/** A turn that is neither right before nor right after the request would no longer be ready. */
export const AnotherTurnBroken = z.object({
  code: z.literal('another-turn-broken'),
  turnId: TurnId,
  bookingId: BookingId,
  doorsAt: Instant,
  readyAt: Instant.nullable(),
  proof: Proof,
  lacks: TurnLacks.nullable().default(null).meta({
    description: 'What would be missing there; null: not told, or what its device is to do cannot be',
  }),
})
/** It is ready by doors, with less to spare than the policy wants. */
export const SlackUnderPolicy = z.object({
  code: z.literal('slack-under-policy'),
  turnId: TurnId,
  side: TurnSide,
  slackSeconds: z.int(),
  slackWantedSeconds: z.int(),
})

/** It rests on hands that nobody has promised. */
export const HandsAssumed = z.object({
  code: z.literal('hands-assumed'),
  turnId: TurnId,
  side: TurnSide,
  handsAssumed: z.int(),
  fromAt: Instant,
  toAt: Instant,
})
