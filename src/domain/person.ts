/** Somebody of the crew. Name and contact are personal and kept apart, so that they can be erased. */
import { z } from 'zod'
import { PersonId, SiteId } from './ids.ts'
import { LocalDate, Name, Skill, TextLine } from './units.ts'

/** A skill that somebody has from a day on, or until a day, that day included: a licence, a training. */
export const SkillDates = z.object({
  skill: Skill,
  firstDate: LocalDate.nullable().default(null),
  lastDate: LocalDate.nullable().default(null),
})
export type SkillDates = z.infer<typeof SkillDates>

export const Person = z.object({
  id: PersonId,
  siteId: SiteId,
  adult: z.boolean(),
  skills: z.array(Skill).max(40),
  skillDates: z
    .array(SkillDates)
    .max(40)
    .default([])
    .meta({ description: 'From when until when a skill holds; a skill that is not named here always holds' }),
})
export type Person = z.infer<typeof Person>

export const PersonDetails = z.object({
  personId: PersonId,
  name: Name,
  email: z.email().max(254).nullable(),
  phone: TextLine(40).nullable(),
})
export type PersonDetails = z.infer<typeof PersonDetails>
