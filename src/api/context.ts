/** What handlers work with. */
import type { Accounts } from '../accounts/accounts.ts'
import type { Configuration } from '../configuration.ts'
import { SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Site } from '../domain/site.ts'
import type { SiteSetup } from '../domain/snapshot.ts'
import type { Store } from '../store/store.ts'
import type { Decider } from '../worker/decider.ts'
import type { SessionCookie } from './accounts/account-context.ts'
import { type Actor, maySee } from './actor.ts'
import type { EventSettings } from './events/event-settings.ts'
import type { Limits } from './limits.ts'
import { unknownResource } from './problems.ts'
import type { SiteQueue } from './site-queue.ts'

export interface ApiContext {
  readonly store: Store
  readonly decider: Decider
  /** For questions that take their time: nobody who books waits for them. */
  readonly batchDecider: Decider
  readonly clock: () => Instant
  /** A fresh id that begins with the prefix and an underscore. */
  readonly newId: (prefix: string) => string
  readonly queue: SiteQueue
  readonly configuration: Configuration
  readonly accounts: Accounts
  readonly cookie: SessionCookie
  readonly limits: Limits
  /** Where they are to differ from `defaultEventSettings`. */
  readonly eventSettings?: Partial<EventSettings>
}

/** @throws Problem unknown-resource, also when the actor may not see the site */
export async function siteFor(context: ApiContext, actor: Actor, id: string): Promise<Site> {
  const siteId = SiteId.safeParse(id)
  const site = siteId.success && maySee(actor, siteId.data) ? await context.store.site(siteId.data) : null
  if (!site) throw unknownResource('site', id)
  return site
}

/** @throws Problem unknown-resource, also when the actor may not see the site */
export async function setupFor(context: ApiContext, actor: Actor, id: string): Promise<SiteSetup> {
  const site = await siteFor(context, actor, id)
  const setup = await context.store.setup(site.id)
  if (!setup) throw new Error(`the site ${site.id} has no policy`)
  return setup
}
