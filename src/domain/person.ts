/** Somebody of the crew. Name and contact are personal and kept apart, so that they can be erased. */
import { z } from 'zod'
import { PersonId, SiteId } from './ids.ts'
import { Name, Skill } from './units.ts'

export const Person = z.object({
  id: PersonId,
  siteId: SiteId,
  adult: z.boolean(),
  skills: z.array(Skill).max(40),
})
export type Person = z.infer<typeof Person>

export const PersonDetails = z.object({
  personId: PersonId,
  name: Name,
  email: z.email().max(254).nullable(),
  phone: z.string().trim().min(3).max(40).nullable(),
})
export type PersonDetails = z.infer<typeof PersonDetails>
