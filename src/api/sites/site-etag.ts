import { createHash } from 'node:crypto'
import type { Site } from '../../domain/site.ts'

/**
 * Made from what the site is. Its row has no version of its own, and the planning version moves with every chair and
 * every booking: whoever changes the name must not lose to them.
 */
export function siteEtag({ id, name, zone, units, codeTables }: Site): string {
  const hash = createHash('sha256').update(JSON.stringify([id, name, zone, units, codeTables]))
  return `"${hash.digest('hex').slice(0, 16)}"`
}
