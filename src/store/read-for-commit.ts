/** What a commit meets: the rows it replaces and the set-up it goes into, as they stand before it. */
import { eq, sql } from 'drizzle-orm'
import type { TurnId } from '../domain/ids.ts'
import { answersWithoutDetails } from './answers-without-details.ts'
import type { Engine } from './engine.ts'
import { judgedThroughQuery } from './read-judging.ts'
import type { SetupReader, StoredSetup, StoredSite } from './read-setup.ts'
import { type RowsReplaced, readRowsReplaced, setupWritesOf } from './read-setup-rows.ts'
import { Judging } from './recorded-rows.ts'
import type { Commit, IdempotentAnswer } from './store.ts'

export interface StandingRows {
  /** null: the commit founds it. */
  readonly site: StoredSite | null
  readonly setup: StoredSetup | null
  /** The set-up rows that the commit replaces. */
  readonly replaced: RowsReplaced
  /** Kept answers without the personal details that the commit erases. */
  readonly answersErased: readonly IdempotentAnswer[]
  /** null: there is none yet, or the commit does not ask. */
  readonly judging: Judging | null
  /** Of the turns that the commit changes. A plan of an earlier version of the program may have another hash today. */
  readonly planHashes: ReadonlyMap<TurnId, string>
}

export function standingRowsReader(
  engine: Engine,
  setups: SetupReader,
): (commit: Commit) => Promise<StandingRows> {
  const { plan } = engine.tables
  const judgingOfSite = judgedThroughQuery(engine)
  const hashByTurn = engine.db
    .select({ hash: plan.hash })
    .from(plan)
    .where(eq(plan.turnId, sql.placeholder('turnId')))
    .prepare()

  async function judging({ siteId, changes }: Commit): Promise<Judging | null> {
    if (changes?.judgedThroughAt === undefined) return null
    const [row] = await judgingOfSite.execute({ siteId })
    return row ? Judging.parse(row) : null
  }

  async function planHashes({ changes }: Commit): Promise<Map<TurnId, string>> {
    const hashes = new Map<TurnId, string>()
    for (const { before, after } of changes?.turns ?? []) {
      const [row] = before ? await hashByTurn.execute({ turnId: after.id }) : []
      if (row) hashes.set(after.id, row.hash)
    }
    return hashes
  }

  return async (commit) => {
    // First: whatever is read after it can only be newer, which the site's version then tells.
    const site = await setups.site(commit.siteId)
    return {
      site,
      replaced: await readRowsReplaced(engine, commit.siteId, setupWritesOf(commit)),
      answersErased: await answersWithoutDetails(engine, commit.siteId, commit.personDetailsErased ?? []),
      judging: await judging(commit),
      planHashes: await planHashes(commit),
      setup: site && (await setups.setup(site)),
    }
  }
}
