/**
 * How long work takes for a practised worker at normal pace, by version. A site's pace factor and allowance come on
 * top; a furnishing's own figures take the place of those of its kind. Each number is a default, set by somebody, or
 * learned from recorded times; `marks` says which and where it comes from.
 */
import { z } from 'zod'
import { CleaningMethod } from './cleaning-method.ts'
import { FurnishingKind } from './furnishing.ts'
import { RateSetId, SiteId } from './ids.ts'
import { FloorKind } from './section.ts'
import { TaskMode } from './task-mode.ts'
import { Name, TextLine } from './units.ts'

/** Said of every number that may not be zero. */
export const RATE_OF_ZERO = 'a rate must be more than 0: nothing is done in no time'

const RatePersonSeconds = z.number().positive({ error: RATE_OF_ZERO }).max(36_000)
const RateSeconds = z.number().positive({ error: RATE_OF_ZERO }).max(86_400)
const MetresPerSecond = z
  .number()
  .min(0.05, { error: 'expected at least 0.05 m/s: slower than that nobody arrives' })
  .max(5)
const FixedModes = z.array(TaskMode).min(1).max(10)

/** Person-seconds for one piece, a carry of up to `shortCarryMetres` included. */
export const PieceRate = z.object({
  setPersonSeconds: RatePersonSeconds,
  strikePersonSeconds: RatePersonSeconds,
})
export type PieceRate = z.infer<typeof PieceRate>

export const Rates = z.object({
  fromTrolley: z
    .record(FurnishingKind, PieceRate)
    .meta({ description: 'Where the pieces go by trolley: it stands beside the work' }),
  byHand: z
    .record(FurnishingKind, PieceRate)
    .meta({ description: 'Where they do not: each piece is carried, rolled or slid' }),
  piecesPerCarry: z
    .record(FurnishingKind, z.int().min(1).max(100))
    .meta({ description: 'How many pieces the people who carry one piece take at a time' }),
  storedAreaSquareMetres: z
    .record(FurnishingKind, z.number().positive().max(50))
    .meta({ description: 'Floor one piece takes in a store or parked, its share of a stack' }),
  cleaningPersonSecondsPerSquareMetre: z.record(CleaningMethod, RatePersonSeconds),
  dryingSeconds: z.record(FloorKind.exclude(['carpet']), RateSeconds).meta({
    description: 'From the last stroke of the mop until the floor may be walked on. Carpet is not mopped',
  }),
  walkingMetresPerSecond: MetresPerSecond,
  carryingMetresPerSecond: MetresPerSecond,
  loadedTrolleyMetresPerSecond: MetresPerSecond,
  trolleyHandlingSeconds: RateSeconds.meta({
    description: 'Per load and pusher: get hold of the trolley, secure the load, doors, park it, brakes',
  }),
  shortCarryMetres: z.number().min(0).max(100).meta({
    description: 'One way; what the handling figures include already',
  }),
  routeUnknownMetres: z.number().min(0).max(2_000).meta({
    description: 'One way, where a store has no route to the room on record',
  }),
  markOutPersonSecondsPerPiece: RatePersonSeconds.meta({
    description: 'Marking where a table, deck or post goes, before it is set',
  }),
  alignPersonSecondsPerChair: RatePersonSeconds.meta({
    description: 'Lining up and counting rows of chairs',
  }),
  wipeTablePersonSeconds: RatePersonSeconds.meta({
    description: 'Wiping one table down after food, the wet contact time of the product not included',
  }),
  binPersonSeconds: RatePersonSeconds.meta({ description: 'Emptying and relining one bin' }),
  walkthroughModes: FixedModes.meta({
    description: 'Fixed times: neither pace nor allowance changes them. Fewest hands first',
  }),
  signOffModes: FixedModes,
})
export type Rates = z.infer<typeof Rates>

export const RateOrigin = z.enum(['default', 'set', 'learned'])
export type RateOrigin = z.infer<typeof RateOrigin>

/** Where one number comes from. */
export const RateMark = z.object({ origin: RateOrigin, source: TextLine(300) })
export type RateMark = z.infer<typeof RateMark>

/** Names one number of the rates: its keys joined by dots, `fromTrolley.stacking-chair.setPersonSeconds`. */
export const RatePath = z
  .string()
  .regex(/^[A-Za-z][A-Za-z-]*(\.[A-Za-z0-9-]+){0,2}$/)
  .max(120)
export type RatePath = z.infer<typeof RatePath>

export const RateSet = z.object({
  id: RateSetId,
  siteId: SiteId,
  number: z.int().min(1).meta({ description: 'Version: one more than the set it takes the place of' }),
  name: Name,
  rates: Rates,
  marks: z
    .record(RatePath, RateMark)
    .meta({ description: 'Of numbers that are not defaults; every other number is a default' }),
})
export type RateSet = z.infer<typeof RateSet>
