/** The one store, over whatever engine. */
import { z } from 'zod'
import { sqlAccountStore } from './accounts/sql-account-store.ts'
import { commitListeners } from './commit-listeners.ts'
import { commitStatements } from './commit-statements.ts'
import { commitSteps, keepFirstAnswer } from './commit-steps.ts'
import type { Engine } from './engine.ts'
import { snapshotLoader } from './load-snapshot.ts'
import { pendingWrite } from './pending-write.ts'
import { changeReader } from './read-changes.ts'
import { standingRowsReader } from './read-for-commit.ts'
import { holdReader } from './read-holds.ts'
import { judgingReader } from './read-judging.ts'
import { readLists } from './read-lists.ts'
import { setupReader } from './read-setup.ts'
import { turnReader } from './read-turns.ts'
import { warningReader } from './read-warnings.ts'
import { recordedState } from './recorded-state.ts'
import type { Commit, Store } from './store.ts'

const VersionMoved = z.object({ planningVersion: z.int() })

/** @param faultsOf  what is wrong with a commit, as sentences: a commit with faults is a bug and is not written */
export function sqlStore(engine: Engine, faultsOf: (commit: Commit) => readonly string[] = () => []): Store {
  const setups = setupReader(engine)
  const turns = turnReader(engine)
  const standingRows = standingRowsReader(engine, setups)
  const statements = commitStatements(engine)
  const listeners = commitListeners()

  return {
    ...readLists(engine, turns),
    ...warningReader(engine, turns),
    ...holdReader(engine),
    ...judgingReader(engine),
    ...changeReader(engine),
    accounts: sqlAccountStore(engine, statements),
    onCommit: listeners.onCommit,
    load: snapshotLoader(engine, setups),

    async commit(commit) {
      const faults = faultsOf(commit)
      if (faults.length > 0) throw new Error(`A commit that does not hold: ${faults.join('; ')}`)
      const write = pendingWrite(commit, await standingRows(commit))
      const [versionRows] = await engine.write((tx) => commitSteps(tx, engine.tables, statements, write))
      listeners.tell()
      return VersionMoved.parse(versionRows?.[0]).planningVersion
    },

    async keepAnswer(answer, at) {
      await engine.write((tx) => [keepFirstAnswer(tx, engine.tables, answer, at)])
    },

    site: async (siteId) => (await setups.site(siteId))?.site ?? null,
    planningVersion: async (siteId) => (await setups.site(siteId))?.planningVersion ?? null,
    async setup(siteId) {
      const stored = await setups.site(siteId)
      return stored && (await setups.setup(stored)).setup
    },
    recordedState: async (siteId) => recordedState(engine, siteId, await setups.site(siteId)),
    isReady: engine.isReady,
    close: engine.close,
  }
}
