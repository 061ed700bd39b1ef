/** Who asks. Until there are accounts, the header X-Actor says so and everybody on this computer may do everything. */
import { z } from 'zod'
import { ActorId, type SiteId } from '../domain/ids.ts'
import { Problem } from './problems.ts'

export const Role = z.enum(['requester', 'coordinator', 'crew-lead', 'crew', 'administrator'])
export type Role = z.infer<typeof Role>

export interface Actor {
  readonly id: ActorId
  readonly roles: readonly Role[]
  /** null: every site */
  readonly siteIds: readonly SiteId[] | null
}

const LOCAL_ACTOR_ID = ActorId.parse('actor_local')

/** @throws Problem bad-actor */
export function actorFrom(header: string | readonly string[] | undefined): Actor {
  if (header === undefined) return { id: LOCAL_ACTOR_ID, roles: Role.options, siteIds: null }
  const id = ActorId.safeParse(header)
  if (!id.success) {
    throw new Problem(
      'bad-actor',
      'X-Actor must look like actor_ada: actor_, then letters, digits or hyphens.',
    )
  }
  return { id: id.data, roles: Role.options, siteIds: null }
}

export const maySee = (actor: Actor, siteId: SiteId): boolean =>
  actor.siteIds === null || actor.siteIds.includes(siteId)
