/** The change log, read on from where a listener has come to. */
import { and, asc, eq, gt, sql } from 'drizzle-orm'
import { z } from 'zod'
import { SiteId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import type { Engine } from './engine.ts'
import type { ChangeLogEntry, Store } from './store.ts'

const StoredChange: z.ZodType<ChangeLogEntry> = z.object({
  sequence: z.int(),
  siteId: SiteId,
  auditSequence: z.int(),
  at: Instant,
  resourceKind: z.string(),
  resourceId: z.string(),
  what: z.string(),
  zone: z.string(),
})

/** Entries appear in the order of their sequence, without gaps: who writes holds the write lock until all of it is there. */
export function changeReader(engine: Engine): Pick<Store, 'changesAfter' | 'newestChange'> {
  const { db, tables } = engine
  const { changeLog, site } = tables
  const columns = {
    sequence: changeLog.sequence,
    siteId: changeLog.siteId,
    auditSequence: changeLog.auditSequence,
    at: changeLog.at,
    resourceKind: changeLog.resourceKind,
    resourceId: changeLog.resourceId,
    what: changeLog.what,
    zone: site.zone,
  }
  const isAfter = gt(changeLog.sequence, sql.placeholder('sequence'))
  const isOfSite = eq(changeLog.siteId, sql.placeholder('siteId'))
  // A left join, though the site is always there: it is never walked first, so the log is read in its own order.
  const entries = (where: typeof isAfter | ReturnType<typeof and>) =>
    db
      .select(columns)
      .from(changeLog)
      .leftJoin(site, eq(site.id, changeLog.siteId))
      .where(where)
      .orderBy(asc(changeLog.sequence))
      .limit(sql.placeholder('most'))
      .prepare()
  const ofAllSites = entries(isAfter)
  const ofOneSite = entries(and(isOfSite, isAfter))
  const newest = db
    .select({ sequence: sql<number>`coalesce(max(${changeLog.sequence}), 0)` })
    .from(changeLog)
    .prepare()

  async function ofSite(siteId: SiteId, sequence: number, most: number): Promise<ChangeLogEntry[]> {
    const rows = await ofOneSite.execute({ siteId, sequence, most })
    return rows.map((row) => StoredChange.parse(row))
  }

  return {
    async changesAfter(siteIds, sequence, most) {
      if (siteIds === null) {
        const rows = await ofAllSites.execute({ sequence, most })
        return rows.map((row) => StoredChange.parse(row))
      }
      // One by one: each is found by its index and comes in order, several at once would be sorted first.
      const found = await Promise.all(siteIds.map((siteId) => ofSite(siteId, sequence, most)))
      return found
        .flat()
        .sort((a, b) => a.sequence - b.sequence)
        .slice(0, most)
    },

    async newestChange() {
      const [row] = await newest.execute()
      return z.int().parse(row?.sequence)
    },
  }
}
