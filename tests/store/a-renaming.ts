/** The shortest commit that the audit tells of. */
import type { SiteId } from '../../src/domain/ids.ts'
import { Site } from '../../src/domain/site.ts'
import type { Commit } from '../../src/store/store.ts'
import { aCommit, at } from './a-world.ts'

/** Another name for a site that has no hall; `version` is the one it has, null: it is founded. */
export const renaming = (id: SiteId, name: string, version: number | null): Commit =>
  aCommit({
    siteId: id,
    planningVersionExpected: version,
    action: version === null ? 'add-site' : 'rename',
    reason: version === null ? null : `now "${name}"`,
    at: at(version ?? 0),
    site: Site.parse({ id, name, zone: 'Europe/London' }),
  })
