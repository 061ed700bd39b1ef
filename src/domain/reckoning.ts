/**
 * How the minutes of one task come about: products of named numbers, added up, times pace and allowance, shared among
 * hands. Every number says where it comes from, so that whoever knows better can change it in the right place.
 */
import { z } from 'zod'
import { RatePath } from './rate-set.ts'

/** `given`: from layouts, bookings and the set-up of the hall; `computed`: from the other numbers beside it. */
export const NumberOrigin = z.enum(['default', 'set', 'learned', 'computed', 'given'])
export type NumberOrigin = z.infer<typeof NumberOrigin>

export const ReckonedUnit = z.enum([
  'pieces',
  'loads',
  'hands',
  'bins',
  'seconds',
  'person-seconds per piece',
  'person-seconds per square metre',
  'square metres',
  'metres',
  'metres per second',
  'factor',
  'share',
])
export type ReckonedUnit = z.infer<typeof ReckonedUnit>

export const ReckonedNumber = z.object({
  name: z.string().meta({ examples: ['handling of one piece', 'loads'] }),
  value: z.number(),
  unit: ReckonedUnit,
  origin: NumberOrigin,
  source: z.string().meta({ description: 'Where it comes from, in words' }),
  ratePath: RatePath.nullable().meta({
    description: 'The number of the rates that it is; null: none of them',
  }),
})
export type ReckonedNumber = z.infer<typeof ReckonedNumber>

/** A product: all of `times` multiplied, divided by all of `dividedBy`. */
export const ReckonedTerm = z.object({
  what: z.string().meta({ examples: ['handling', 'trolley', 'way with the load', 'way back'] }),
  times: z.array(ReckonedNumber).min(1),
  dividedBy: z.array(ReckonedNumber),
  personSeconds: z.number().min(0).meta({ description: 'What it comes to, not rounded' }),
  atPace: z.boolean().meta({
    description:
      'Whether pace and allowance come on top; a lift and a fixed time do not care who waits for them',
  }),
})
export type ReckonedTerm = z.infer<typeof ReckonedTerm>

export const ReckonedMode = z.object({
  hands: z.int().min(0),
  effectiveHands: ReckonedNumber.nullable().meta({
    description: 'What so many hands are worth; null: the time does not follow from the work',
  }),
  seconds: z.int().min(0),
})
export type ReckonedMode = z.infer<typeof ReckonedMode>

/** Work = terms at pace × pace factor × (1 + allowance) + the other terms, rounded up; seconds = work ÷ effective hands. */
export const Reckoning = z.object({
  sentence: z.string().min(1),
  terms: z.array(ReckonedTerm).min(1),
  paceFactor: ReckonedNumber.nullable().meta({ description: 'null: no term is at pace' }),
  allowanceShare: ReckonedNumber.nullable(),
  workPersonSeconds: z.number().min(0).meta({ description: 'As the task says' }),
  modes: z.array(ReckonedMode).min(1),
})
export type Reckoning = z.infer<typeof Reckoning>
