/** A secret that is sent as a link and counts once. */
import { z } from 'zod'
import { ActorId, PersonId, SiteId } from '../ids.ts'
import { Instant } from '../instant.ts'
import { Role } from './role.ts'

export const LinkPurpose = z.enum(['set-up', 'invitation', 'sign-in', 'reset'])
export type LinkPurpose = z.infer<typeof LinkPurpose>

export const OneTimeLink = z.object({
  id: z.string().regex(/^onetime_[a-z0-9][a-z0-9-]{0,59}$/),
  purpose: LinkPurpose,
  /** Whose sign-in or password it is about; null: nobody's yet. */
  accountId: ActorId.nullable(),
  /** Of an invitation. */
  siteId: SiteId.nullable(),
  role: Role.nullable(),
  personId: PersonId.nullable(),
  createdBy: ActorId.nullable(),
  createdAt: Instant,
  expiresAt: Instant,
  usedAt: Instant.nullable(),
  revokedAt: Instant.nullable(),
})
export type OneTimeLink = z.infer<typeof OneTimeLink>
