/** What starting the service would do to a backup, done to a copy of it first. */
import { is } from 'drizzle-orm'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { SQLiteTable } from 'drizzle-orm/sqlite-core'
import { DatabaseUnusable, openSqliteDatabase } from './open-sqlite-database.ts'
import * as schema from './schema.sqlite.ts'

/**
 * Migrates it and looks whether every table and column is there that the program reads.
 * @param copy  a sound database; it is written
 * @param calledAs  what messages call it
 * @throws DatabaseUnusable when the program cannot use what is in it
 */
export function bringCopyUpToDate(copy: string, calledAs: string): void {
  try {
    const raw = openSqliteDatabase({ file: copy })
    try {
      const db = drizzle(raw, { casing: 'snake_case' })
      for (const table of Object.values(schema)) {
        // No rows: what is in them is for `verify` to judge. Without a table or a column it throws all the same.
        if (is(table, SQLiteTable)) db.select().from(table).limit(0).all()
      }
    } finally {
      raw.close()
    }
  } catch (error) {
    if (error instanceof DatabaseUnusable) {
      throw new DatabaseUnusable(error.message.replaceAll(copy, calledAs), { cause: error })
    }
    const refused = refusalOfEngine(error)
    if (refused === null) throw error
    throw new DatabaseUnusable(`${calledAs} lacks what this program reads: ${refused}.`, { cause: error })
  }
}

/** drizzle puts the error of the engine in `cause`. @returns what the engine says of a statement, or null */
function refusalOfEngine(error: unknown): string | null {
  for (let inner = error; inner instanceof Error; inner = inner.cause) {
    if ('code' in inner && inner.code === 'SQLITE_ERROR') return inner.message
  }
  return null
}
