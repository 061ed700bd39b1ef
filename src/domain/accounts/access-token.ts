/** What a program signs in with. The secret itself is shown once and kept nowhere. */
import { z } from 'zod'
import { ActorId, SiteId } from '../ids.ts'
import { Instant } from '../instant.ts'
import { Name } from '../units.ts'
import { Role } from './role.ts'

export const AccessToken = z.object({
  id: ActorId.meta({ description: 'Who the audit names as the actor' }),
  siteId: SiteId.nullable().meta({ description: 'null: every site' }),
  role: Role,
  name: Name,
  createdBy: ActorId,
  createdAt: Instant,
  expiresAt: Instant.nullable().meta({ description: 'null: until it is revoked' }),
  lastUsedAt: Instant.nullable().meta({ description: 'To the minute' }),
  revokedAt: Instant.nullable(),
})
export type AccessToken = z.infer<typeof AccessToken>
