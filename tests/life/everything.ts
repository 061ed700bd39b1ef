import type { SiteId } from '../../src/domain/ids.ts'
import { EARLIEST_AT, Instant, LATEST_AT } from '../../src/domain/instant.ts'
import type { SiteSnapshot } from '../../src/domain/snapshot.ts'
import type { Store } from '../../src/store/store.ts'

/** Everything there is at a site, by the same reading that decisions use. @throws Error when there is no such site */
export async function everything(store: Store, siteId: SiteId, now: Instant): Promise<SiteSnapshot> {
  const window = { fromAt: Instant.parse(EARLIEST_AT), toAt: Instant.parse(LATEST_AT) }
  const snapshot = await store.load(siteId, window, now)
  if (!snapshot) throw new Error('the site is gone')
  return snapshot
}
