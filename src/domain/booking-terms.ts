/** What a booking may ask for or bring along beside its room, time and layout. */
import { z } from 'zod'
import { ActorId } from './ids.ts'
import { Instant } from './instant.ts'
import { Reason } from './reason.ts'
import { Milestone } from './task.ts'
import { Hands, Skill, TextLine } from './units.ts'

/** Crew is asked for this long before doors at most, and this long after clear. */
export const CREW_BEFORE_DOORS_MOST_SECONDS = 48 * 3600
export const CREW_AFTER_CLEAR_MOST_SECONDS = 24 * 3600
/** One demand of crew lasts a day at most. */
export const CREW_LONGEST_SECONDS = 24 * 3600
/** A milestone lies this long before doors at most, or after clear: a turn begins no earlier (TURN_LONGEST_SECONDS). */
export const MILESTONE_AWAY_MOST_SECONDS = 48 * 3600
/** A hold ends this long from now at most: as far ahead as a yearly event is asked for. */
export const HOLD_LONGEST_SECONDS = 366 * 86_400

/** People of the crew at the event itself: desk, ushers, kitchen. */
export const CrewDemand = z.object({
  what: TextLine(60).meta({ examples: ['ushers', 'kitchen'] }),
  fromAt: Instant,
  toAt: Instant,
  hands: Hands.max(20),
  skill: Skill.nullable().default(null).meta({ description: 'Each of them must have it; null: anybody' }),
})
export type CrewDemand = z.infer<typeof CrewDemand>

/** Before doors it speaks of the turn that prepares the booking, after clear of the one that follows it. */
export const BookingMilestone = z.object({ milestone: Milestone, byAt: Instant })
export type BookingMilestone = z.infer<typeof BookingMilestone>

/** A group helps with chairs and tables only, not for long, and not with more than can be looked after. */
export const OwnHelp = z.object({
  hands: z.int().min(1).max(10).meta({ description: 'Six at most for each of the crew who leads them' }),
  seconds: z.int().min(300).max(1_200).meta({ description: 'From clear on' }),
})
export type OwnHelp = z.infer<typeof OwnHelp>

/** How many helpers one of the crew can lead: common practice, no source. */
export const HELPERS_PER_LEAD = 6

export const AcceptedRisk = z.object({
  actorId: ActorId.meta({ description: 'Who answers for it' }),
  why: TextLine(400),
  acceptedAt: Instant,
  reasons: z
    .array(Reason)
    .default([])
    .meta({ description: 'What spoke against it then: for the booking itself, and for those around it' }),
})
export type AcceptedRisk = z.infer<typeof AcceptedRisk>
