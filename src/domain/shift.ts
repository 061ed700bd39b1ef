/** A person, or a number of hands, on duty: once, or every week by the wall clock of the site. */
import { z } from 'zod'
import { PersonId, ShiftId, SiteId } from './ids.ts'
import { Instant } from './instant.ts'
import { Hands, LocalDate, LocalTime, Name, Skill, Weekday } from './units.ts'

/** One day that is not as the pattern says: no duty at all, or other times. */
export const ShiftException = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('off'), date: LocalDate }),
  z.object({
    kind: z.literal('other-times'),
    date: LocalDate,
    startsLocal: LocalTime,
    endsLocal: LocalTime.meta({ description: 'At or before the start: the next day' }),
  }),
])
export type ShiftException = z.infer<typeof ShiftException>

export const ShiftTimes = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('once'), startsAt: Instant, endsAt: Instant }),
  z.object({
    kind: z.literal('weekly'),
    weekdays: z.array(Weekday).min(1).max(7),
    startsLocal: LocalTime,
    endsLocal: LocalTime.meta({ description: 'At or before the start: the next day' }),
    firstDate: LocalDate,
    lastDate: LocalDate.nullable(),
    exceptions: z
      .array(ShiftException)
      .max(400)
      .default([])
      .meta({ description: 'Days that are other than the pattern, each at most once' }),
  }),
])
export type ShiftTimes = z.infer<typeof ShiftTimes>

export const ShiftCrew = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('person'), personId: PersonId }),
  z.object({ kind: z.literal('hands'), hands: Hands, skills: z.array(Skill).max(40), adults: z.boolean() }),
])
export type ShiftCrew = z.infer<typeof ShiftCrew>

export const Shift = z.object({
  id: ShiftId,
  siteId: SiteId,
  name: Name,
  crew: ShiftCrew,
  times: ShiftTimes,
  paid: z.boolean().default(false).meta({ description: 'Its time counts against a cap of the policy' }),
})
export type Shift = z.infer<typeof Shift>
