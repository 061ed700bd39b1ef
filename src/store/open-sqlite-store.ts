/** The door to the store on SQLite. */
import { sqliteEngine } from './engine.sqlite.ts'
import type { SqliteFile } from './open-sqlite-database.ts'
import { sqlStore } from './sql-store.ts'
import type { Commit, Store } from './store.ts'

export interface SqliteStoreOptions extends SqliteFile {
  /** Looks over a commit before it is written and returns its faults as sentences; any fault is a bug, and is thrown. */
  readonly validateBeforeCommit?: (commit: Commit) => readonly string[]
}

/**
 * Opens the file and, unless it is read-only, brings it up to date.
 * @throws DatabaseUnusable when it cannot be used; the message says what to do
 */
export async function openSqliteStore(options: SqliteStoreOptions): Promise<Store> {
  return sqlStore(sqliteEngine(options), options.validateBeforeCommit)
}
