/** Somebody who can sign in, and where they have which role. Name and address are personal and kept apart. */
import { z } from 'zod'
import { ActorId, PersonId, SiteId } from '../ids.ts'
import { Instant } from '../instant.ts'
import { Name } from '../units.ts'
import { Role } from './role.ts'

/** Kept in small letters: nobody has two accounts for one address. */
export const EmailAddress = z
  .string()
  .trim()
  .max(254)
  .transform((text) => text.toLowerCase())
  .pipe(z.email({ error: 'expected an e-mail address such as ada@example.org' }))
  .meta({ description: 'E-mail address', examples: ['ada@example.org'] })

export const Membership = z.object({
  siteId: SiteId,
  role: Role,
  personId: PersonId.nullable().meta({ description: 'Who of the crew list this is; null: nobody' }),
})
export type Membership = z.infer<typeof Membership>

export const AccountDetails = z.object({ name: Name, email: z.string() })
export type AccountDetails = z.infer<typeof AccountDetails>

export const Account = z.object({
  id: ActorId,
  keepsAll: z.boolean().meta({
    description: 'Keeps the whole installation: founds sites, and is administrator of every one',
  }),
  createdAt: Instant,
  removedAt: Instant.nullable(),
  details: AccountDetails.nullable().meta({ description: 'null: removed, and its name and address erased' }),
  memberships: z.array(Membership).meta({ description: 'By site' }),
})
export type Account = z.infer<typeof Account>
