/**
 * What the store needs of a database. The rules that let one store run on several: every read is awaited; a write is
 * a list of statements that end in `.returning()`, built beforehand and run in one transaction, with nothing read in
 * between; only the engine opens transactions. The database knows a function of the name AUDIT_HASH_FUNCTION.
 */
import type { SQL } from 'drizzle-orm'
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3'
import type { Tables } from './tables.ts'

/** Another database's is seen through SQLite's typings: what both have is what the store uses. */
export type Db = BetterSQLite3Database

/** One statement of a write. */
export interface Step {
  readonly run: PromiseLike<readonly unknown[]>
  /** How many rows must come back; otherwise the whole write is undone with Conflict and `otherwise` as its message. */
  readonly rows?: { readonly exactly: number; readonly otherwise: string }
}

export interface Engine {
  readonly tables: Tables
  readonly db: Db
  /** The number that the next row of the table gets; true only within a write. */
  nextSequence(table: Tables['audit']): SQL
  /**
   * Runs the steps in order in one transaction that holds the write lock from its start.
   * @returns what each step returned
   * @throws Conflict when a step came back with another number of rows, or a guard of the database refused
   * @throws ReferenceMissing when a row names something that is not there
   */
  write(steps: (tx: Db) => readonly Step[]): Promise<readonly (readonly unknown[])[]>
  /** Whether the database answers and is migrated to what this program knows. */
  isReady(): Promise<boolean>
  close(): void
}

/** One row, no more and no fewer; otherwise the commit is a Conflict that says so. */
export const once = (otherwise: string) => ({ exactly: 1, otherwise })
