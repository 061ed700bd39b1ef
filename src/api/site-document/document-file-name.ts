/** What a browser saves a document as. */
import type { Instant } from '../../domain/instant.ts'
import type { Site } from '../../domain/site.ts'
import { localDateOf } from '../../scheduler/timeline/wall-time.ts'

const NAME_CHARACTERS_MOST = 60

/**
 * Small letters and digits of ASCII, hyphens and a full stop only, so that it needs no quoting anywhere. A name that
 * has no such letters is left out for the site's id.
 */
export function documentFileName(site: Site, now: Instant): string {
  const plain = site.name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, NAME_CHARACTERS_MOST)
    .replace(/^-+|-+$/g, '')
  const name = plain === '' ? site.id.replace('_', '-') : plain
  return `turnwright-${name}-${localDateOf(now, site.zone)}.json`
}
