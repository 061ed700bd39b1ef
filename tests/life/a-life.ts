/** A life at a hall over some weeks: where it is lived, and what whoever lives it knows. */
import { z } from 'zod'
import type { SiteId } from '../../src/domain/ids.ts'
import type { LocalDate } from '../../src/domain/units.ts'
import type { ServiceOverWeeks } from './a-service-over-weeks.ts'
import type { WeeklyHall } from './a-weekly-hall.ts'

export interface WeeksOfLife {
  readonly zone: string
  /** It begins on that morning. */
  readonly firstDate: LocalDate
  readonly days: number
  readonly seed: number
}

/** What is known to whoever lives at the hall. */
export interface Life extends WeeksOfLife {
  readonly service: ServiceOverWeeks
  readonly hall: WeeklyHall
  readonly siteId: SiteId
  /** Those that stand, as they were last answered. */
  readonly bookings: Known[]
  readonly links: string[]
  /** Where each is ended: closures, shifts for once, pieces away. */
  readonly endable: string[]
  /** Days off that were said, by shift. */
  readonly daysOff: Map<string, LocalDate[]>
  /** How often each answer was given, `book 201`. */
  readonly answers: Map<string, number>
  /** How many times the service wrote by itself. */
  ownWrites: number
}

export const Known = z.object({
  id: z.string(),
  turnId: z.string(),
  roomId: z.string(),
  layoutId: z.string(),
  doorsAt: z.string(),
  clearAt: z.string(),
  status: z.enum(['TENTATIVE', 'CONFIRMED', 'CANCELLED']),
  holdExpiresAt: z.string().nullable(),
  overrunsUntilAt: z.string().nullable(),
})
export type Known = z.infer<typeof Known>
