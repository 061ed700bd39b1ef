/** A nearest yes: what would be accepted instead of what was asked for. */
import { z } from 'zod'
import { LayoutId, RoomId } from './ids.ts'
import { Instant } from './instant.ts'
import { Skill } from './units.ts'
import { Verdict } from './verdict.ts'

/**
 * What would be accepted instead. A *yes* is taken as it is; a *yes if* needs somebody to agree first, and is never
 * said to fit.
 */
export const Alternative = z.discriminatedUnion('kind', [
  /** The same booking, moved as a whole: what it asks of the crew, and by when, moves along. */
  z.object({
    kind: z.literal('other-doors'),
    certainty: z.literal('yes'),
    doorsAt: Instant,
    startsAt: Instant,
    endsAt: Instant,
    clearAt: Instant,
    verdict: Verdict,
    message: z.string(),
  }),
  /** At the same time, in the same room. */
  z.object({
    kind: z.literal('other-layout'),
    certainty: z.literal('yes'),
    layoutId: LayoutId,
    verdict: Verdict,
    message: z.string(),
  }),
  /** At the same time, in another room that seats them. */
  z.object({
    kind: z.literal('other-room'),
    certainty: z.literal('yes'),
    roomId: RoomId,
    layoutId: LayoutId,
    verdict: Verdict,
    message: z.string(),
  }),
  /** As it was asked for, once so many more are on duty from then until then. */
  z.object({
    kind: z.literal('more-hands'),
    certainty: z.literal('yes-if'),
    hands: z.int().min(1).meta({ description: 'Adults, beside those on duty' }),
    handsWithSkills: z.int().min(0).meta({ description: 'So many of them must have all of `skills`' }),
    skills: z.array(Skill).meta({ description: 'Without any, anybody will do' }),
    fromAt: Instant,
    toAt: Instant,
    agreeByAt: Instant.meta({ description: 'Later than this they could not begin in time' }),
    unpaid: z
      .boolean()
      .default(false)
      .meta({ description: 'What is paid for in one turn is used up: they are not paid' }),
    grownUp: z.boolean().default(false).meta({ description: 'That somebody is grown up is what is missing' }),
    isTight: z.boolean().default(false).meta({ description: 'With them it is taken, with little to spare' }),
    message: z.string(),
  }),
])
export type Alternative = z.infer<typeof Alternative>
