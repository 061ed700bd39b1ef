/** How soon one turn is ready by the number of hands, and the fewest that have it ready by given doors. */
import { z } from 'zod'
import { LaneId, TurnId } from './ids.ts'
import { Instant } from './instant.ts'

/** The most hands that can be asked for. */
export const CURVE_HANDS_MOST = 20
/** So many are looked at of every turn. */
export const CURVE_HANDS_USUAL = 12

const AnswerProof = z.enum(['bound', 'none-found'])

/** What so few hands cannot do. */
export const WhyNotReady = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('skill'),
    skill: z.string().meta({ description: 'A skill, or `adult`' }),
    handsNeeded: z.int().min(0),
    handsMost: z.int().min(0).meta({ description: 'The most with it that are free at once' }),
  }),
  z.object({
    kind: z.literal('hands-at-once'),
    handsNeeded: z.int().min(0),
    handsMost: z.int().min(0).meta({ description: 'The most that are free at once' }),
  }),
  z
    .object({ kind: z.literal('thing') })
    .meta({ description: 'A trolley, tool, way or quiet is not to be had' }),
  z.object({ kind: z.literal('paid-time') }).meta({ description: 'What is paid for in one turn is used up' }),
  z
    .object({ kind: z.literal('time') })
    .meta({ description: 'There is not the time within a day after doors' }),
  z
    .object({ kind: z.literal('state-unreachable') })
    .meta({ description: 'No number of hands gets a device into the state that is wanted' }),
  z.object({ kind: z.literal('none-found') }).meta({ description: 'No plan was found; nothing is proven' }),
])
export type WhyNotReady = z.infer<typeof WhyNotReady>

export const CurvePoint = z.object({
  hands: z.int().min(1),
  ofCrew: z.int().min(0).meta({ description: 'So many of them are people of the crew' }),
  added: z.int().min(0).meta({
    description: 'So many are adults without special skills beyond the crew, there whenever any of it is',
  }),
  atWork: z.array(LaneId).meta({
    description:
      'Those of the crew by whom it is ready then, in no order; fewer than `ofCrew` where no more are needed',
  }),
  readyAt: Instant.nullable().meta({ description: 'By the soonest plan found; null: so few cannot do it' }),
  slackSeconds: z.int().nullable().meta({ description: 'From then until the doors asked for' }),
  milestonesReached: z
    .boolean()
    .meta({ description: 'By some plan found, all that was asked for earlier is reached in time too' }),
  proof: AnswerProof.meta({
    description:
      '`bound`: with so many no plan is ready earlier, or none is possible, whichever of the crew they are; else nothing is proven',
  }),
  why: WhyNotReady.nullable().meta({ description: 'What so few cannot do; null: they can' }),
})
export type CurvePoint = z.infer<typeof CurvePoint>

export const FewestHands = z.object({
  hands: z.int().min(1).nullable().meta({ description: 'null: none of the numbers looked at' }),
  readyAt: Instant.nullable(),
  proof: AnswerProof.meta({
    description:
      '`bound`: proven that one fewer cannot, whoever they are; where there is none, that the most looked at cannot',
  }),
})
export type FewestHands = z.infer<typeof FewestHands>

/** Who they must be. */
export const SkillMix = z.object({
  skills: z
    .array(z.object({ skill: z.string(), hands: z.int().min(1) }))
    .meta({ description: 'So many of them with each skill, in alphabetical order' }),
  adults: z.int().min(0),
  readyAt: Instant.meta({ description: 'With no more of any skill than that' }),
  isSearched: z.boolean().meta({
    description:
      'true: one fewer of any of these was looked for and not found; false: the search was cut short',
  }),
})
export type SkillMix = z.infer<typeof SkillMix>

/** How much was looked at: counts, never time. */
export const AnswerWork = z.object({
  searches: z.int().min(0),
  workMost: z.int().min(1).meta({ description: 'Schedules tried at most in each search' }),
  workDone: z.int().min(0).meta({ description: 'Schedules tried in all' }),
  solverVersion: z.string(),
})
export type AnswerWork = z.infer<typeof AnswerWork>

export const HandsCurve = z.object({
  turnId: TurnId,
  releaseAt: Instant,
  doorsAt: Instant.meta({ description: 'Asked for, or those of the turn' }),
  crew: z.int().min(0).meta({
    description:
      'People of the crew with time for it before the doors asked for, and before it is ready; those who come and go counted each',
  }),
  points: z.array(CurvePoint).meta({ description: 'By hands, from 1 on; `readyAt` never rises' }),
  fewest: z.object({
    atAll: FewestHands.meta({ description: 'Ready by doors' }),
    withSlack: FewestHands.meta({ description: 'With the time to spare that the policy wants' }),
  }),
  mix: SkillMix.nullable().meta({ description: 'Of the fewest who have it ready at all; null: none do' }),
  sentences: z.array(z.string()).meta({ description: 'The same in words' }),
  work: AnswerWork,
})
export type HandsCurve = z.infer<typeof HandsCurve>
