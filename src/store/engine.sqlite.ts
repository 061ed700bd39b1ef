/** The engine over one SQLite file. */
import type Database from 'better-sqlite3'
import { getTableName, sql } from 'drizzle-orm'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import type { Engine, Step } from './engine.ts'
import { migrationsFolder, newestMigrationKnown } from './migrations-folder.ts'
import { newestMigrationIn, openSqliteDatabase, type SqliteFile } from './open-sqlite-database.ts'
import * as tables from './schema.sqlite.ts'
import { withStatementsKept } from './statements-kept.ts'
import { Conflict, ReferenceMissing } from './store.ts'
import { SECTION_OVERLAP } from './triggers.sqlite.ts'

/** @throws DatabaseUnusable */
export function sqliteEngine(options: SqliteFile): Engine {
  const raw = openSqliteDatabase(options)
  const db = drizzle(withStatementsKept(raw), { casing: 'snake_case' })
  const inTransaction = raw.transaction((work: () => readonly (readonly unknown[])[]) => work())
  return {
    tables,
    db,
    // Where SQLite itself keeps the highest number it has given: that of a row which is gone is not given again.
    nextSequence: (table) =>
      sql`(select coalesce(max(seq), 0) + 1 from sqlite_sequence where name = ${sql.raw(`'${getTableName(table)}'`)})`,
    // The promise is for other databases: here everything has happened when the call returns.
    async write(steps) {
      try {
        return inTransaction.immediate(() => steps(db).map(rowsOf))
      } catch (error) {
        throw meant(error)
      }
    },
    async isReady() {
      return raw.open && newestMigrationIn(raw) === newestMigrationKnown(migrationsFolder('sqlite'))
    },
    close: () => {
      close(raw)
    },
  }
}

function rowsOf({ run, rows: expected }: Step): readonly unknown[] {
  if (!('all' in run) || typeof run.all !== 'function')
    throw new Error('A step must be a statement that returns rows')
  const rows: unknown = run.all()
  if (!Array.isArray(rows)) throw new Error('A step must be a statement that returns rows')
  if (expected && rows.length !== expected.exactly) throw new Conflict(expected.otherwise)
  return rows
}

/** What a refusal of the database means to the store. drizzle may put the driver's error in `cause`. */
function meant(error: unknown): unknown {
  for (let inner = error; inner instanceof Error; inner = inner.cause) {
    const code = 'code' in inner ? String(inner.code) : ''
    if (code === 'SQLITE_CONSTRAINT_TRIGGER' && inner.message.includes(SECTION_OVERLAP)) {
      return new Conflict('A section is already taken at that time', { cause: error })
    }
    if (code === 'SQLITE_CONSTRAINT_UNIQUE' || code === 'SQLITE_CONSTRAINT_PRIMARYKEY') {
      return new Conflict(`Already stored: ${inner.message}`, { cause: error })
    }
    if (code === 'SQLITE_CONSTRAINT_FOREIGNKEY') {
      return new ReferenceMissing('A row names something that is not there in this site', { cause: error })
    }
    if (code.startsWith('SQLITE_BUSY')) return new Conflict('Another process is writing', { cause: error })
  }
  return error
}

function close(raw: Database.Database): void {
  if (raw.open) raw.close()
}
