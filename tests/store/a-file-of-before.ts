/** Database files as earlier versions of the program left them. */
import { cpSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { migrationsFolder } from '../../src/store/migrations-folder.ts'
import { aFolder } from './a-database-file.ts'

/** What those versions put on the audit, as far as it matters to what came later. */
const GUARD_OF_BEFORE = `CREATE TRIGGER audit_keeps_values BEFORE UPDATE ON audit
  BEGIN SELECT RAISE(ABORT, 'audit_is_append_only'); END`

/** @param tag  the last migration that version knew @returns the file, open; the caller closes it */
export function aFileOfBefore(tag: string): { file: string; raw: Database.Database } {
  const file = join(aFolder(), 'hall.sqlite')
  const raw = new Database(file)
  raw.pragma('journal_mode = WAL')
  migrate(drizzle(raw, { casing: 'snake_case' }), { migrationsFolder: migrationsUpTo(tag) })
  const migrations = Number(raw.prepare('SELECT count(*) FROM __drizzle_migrations').pluck().get())
  raw.pragma(`user_version = ${migrations}`)
  raw.exec(GUARD_OF_BEFORE)
  return { file, raw }
}

/** The program's migrations up to this one. */
function migrationsUpTo(tag: string): string {
  const folder = join(aFolder(), 'sqlite')
  cpSync(migrationsFolder('sqlite'), folder, { recursive: true })
  const journal = join(folder, 'meta', '_journal.json')
  const { entries, ...rest } = JSON.parse(readFileSync(journal, 'utf8'))
  const last = entries.findIndex((entry: { tag: string }) => entry.tag === tag)
  if (last < 0) throw new Error(`there is no migration ${tag}`)
  writeFileSync(journal, JSON.stringify({ ...rest, entries: entries.slice(0, last + 1) }))
  return folder
}
