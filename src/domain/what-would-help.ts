/** What would have one turn ready sooner, and by how much, each found by planning the turn with it. */
import { z } from 'zod'
import { AnswerWork } from './hands-curve.ts'
import { BookingId, FurnishingId, LaneId, LayoutId, TurnId } from './ids.ts'
import { Instant } from './instant.ts'
import { TaskKey } from './task.ts'

/** In the order in which those stand that gain the same. */
export const HelpChange = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('hands'), hands: z.int().min(1) }),
  z.object({ kind: z.literal('thing'), resource: z.string() }),
  z.object({
    kind: z.literal('skill'),
    skill: z.string(),
    laneId: LaneId.meta({ description: 'The one who would have it' }),
  }),
  z.object({ kind: z.literal('staged-at-door'), furnishingIds: z.array(FurnishingId) }),
  z.object({
    kind: z.literal('own-strike'),
    bookingIds: z.array(BookingId),
    hands: z.int().min(1),
    seconds: z.int().min(1),
  }),
  z.object({ kind: z.literal('parked'), furnishingIds: z.array(FurnishingId) }),
  z.object({ kind: z.literal('other-layout'), layoutId: LayoutId }),
  z.object({ kind: z.literal('without-optional'), taskKeys: z.array(TaskKey) }),
])
export type HelpChange = z.infer<typeof HelpChange>

export const Help = z.object({
  change: HelpChange,
  readyAt: Instant.nullable().meta({ description: 'With it; null: it cannot be done even so' }),
  secondsGained: z
    .int()
    .min(0)
    .nullable()
    .meta({ description: 'null: without it the turn cannot be done at all; 0: nothing is gained' }),
  slackSeconds: z.int().nullable().meta({ description: 'From then until doors' }),
  sentence: z.string(),
})
export type Help = z.infer<typeof Help>

export const WhatWouldHelp = z.object({
  turnId: TurnId,
  doorsAt: Instant,
  plannedReadyAt: Instant.nullable().meta({
    description: 'By the plan that stands; null: there is none, or it does not hold any more',
  }),
  readyAt: Instant.nullable().meta({
    description:
      'As things are, as soon as a plan is known for: what is gained counts from here; null: it cannot be done',
  }),
  anew: z
    .string()
    .nullable()
    .meta({ description: 'What planning anew alone brings, in words; null: nothing that was found' }),
  items: z
    .array(Help)
    .meta({ description: 'Most gained first, then in the order of kinds; what gains nothing is last' }),
  work: AnswerWork,
})
export type WhatWouldHelp = z.infer<typeof WhatWouldHelp>
