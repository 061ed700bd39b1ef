/** Who asks, and what they may do where. */
import type { Role } from '../domain/accounts/role.ts'
import { ActorId, type PersonId, SiteId } from '../domain/ids.ts'

export interface Actor {
  readonly id: ActorId
  /** `visitor`: of the demo, without an account; `nobody`: has not signed in. */
  readonly kind: 'account' | 'token' | 'visitor' | 'nobody'
  /** In every site there is; null: only in those below. */
  readonly roleEverywhere: Role | null
  readonly roles: ReadonlyMap<SiteId, Role>
  /** Who of the crew lists they are. */
  readonly people: ReadonlyMap<SiteId, PersonId>
}

export const NOBODY: Actor = {
  id: ActorId.parse('actor_nobody'),
  kind: 'nobody',
  roleEverywhere: null,
  roles: new Map(),
  people: new Map(),
}

export const DEMO_SITE_ID = SiteId.parse('site_harrow-lane')

export const VISITOR: Actor = {
  id: ActorId.parse('actor_visitor'),
  kind: 'visitor',
  roleEverywhere: null,
  roles: new Map([[DEMO_SITE_ID, 'coordinator']]),
  people: new Map(),
}

/** null: it is not theirs, and they are not told that it is there. */
export const roleIn = (actor: Actor, siteId: SiteId): Role | null =>
  actor.roles.get(siteId) ?? actor.roleEverywhere

export const maySee = (actor: Actor, siteId: SiteId): boolean => roleIn(actor, siteId) !== null

/** null: every one */
export const siteIdsOf = ({ roleEverywhere, roles }: Actor): readonly SiteId[] | null =>
  roleEverywhere === null ? [...roles.keys()].sort() : null
