import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, test } from 'vitest'
import { migrationsFolder, newestMigrationKnown } from '../../src/store/migrations-folder.ts'
import { DatabaseUnusable, openSqliteDatabase } from '../../src/store/open-sqlite-database.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { aFolder, aStoreOnFile } from './a-database-file.ts'
import { aBooking, aCommit, anAnswer, aStore, at, booked, siteId, wrensDetails } from './a-world.ts'

/** What is said when the file cannot be used. */
async function refusal(options: Parameters<typeof openSqliteStore>[0]): Promise<string> {
  try {
    await openSqliteStore(options)
  } catch (error) {
    if (error instanceof DatabaseUnusable) return error.message
    throw error
  }
  throw new Error('it was opened')
}

describe('a database file', () => {
  test('is made when it is not there, and keeps what was committed', async () => {
    const file = join(aFolder(), 'hall.sqlite')
    const first = await aStore({ file })
    await first.commit(booked([aBooking('dinner')]))
    first.close()
    const again = await openSqliteStore({ file })
    expect(await again.planningVersion(siteId)).toBe(2)
    expect(await again.isReady()).toBe(true)
    again.close()
    expect(await again.isReady()).toBe(false)
  })

  test('has nothing left, once it is closed, of a name and contact that were erased', async () => {
    const file = join(aFolder(), 'hall.sqlite')
    const store = await aStore({ file })
    const { personId, name, email } = wrensDetails
    await store.keepAnswer(anAnswer({ body: JSON.stringify({ id: personId, name, email }) }), at(0))
    await store.commit(aCommit({ action: 'erase-person-details', personDetailsErased: [personId] }))
    store.close()
    const bytes = readFileSync(file)
    for (const text of [name, email!]) expect(bytes.includes(text), text).toBe(false)
    expect(bytes.includes(personId)).toBe(true)
  })

  test('is written through a log and to the disk', async () => {
    const { raw } = await aStoreOnFile()
    expect(raw.pragma('journal_mode', { simple: true })).toBe('wal')
    expect(raw.pragma('synchronous', { simple: true })).toBe(2)
  })

  test('in a folder that does not exist is refused, and the folder is named', async () => {
    const folder = join(aFolder(), 'none')
    expect(await refusal({ file: join(folder, 'hall.sqlite') })).toBe(
      `The folder ${folder} does not exist. Create it, or name another database file.`,
    )
  })

  test('that is a folder is refused', async () => {
    const file = join(aFolder(), 'hall.sqlite')
    mkdirSync(file)
    expect(await refusal({ file })).toContain('cannot be opened. See that it is a file')
  })

  test('that is no database is refused and left as it is', async () => {
    const file = join(aFolder(), 'notes.txt')
    writeFileSync(file, 'Remember to order new chairs for the east half. '.repeat(100))
    expect(await refusal({ file })).toContain('is not a database. Name another')
  })

  test('of another program is refused', async () => {
    const file = join(aFolder(), 'other.sqlite')
    const other = new Database(file)
    other.exec('CREATE TABLE recipe (id INTEGER PRIMARY KEY)')
    other.close()
    expect(await refusal({ file })).toContain('belongs to another program')
  })

  test('of a newer version is refused, with what to install', async () => {
    const { file, raw } = await aStoreOnFile()
    const later = `INSERT INTO __drizzle_migrations (hash, created_at) SELECT 'x', max(created_at) + 1 FROM __drizzle_migrations`
    raw.exec(later)
    expect(await refusal({ file })).toContain(
      'was written by a newer version of this program. Install that version',
    )
    expect(await refusal({ file, readOnly: true })).toContain('newer version')
  })

  test('that is not up to date is refused where it may not be migrated', async () => {
    const file = join(aFolder(), 'empty.sqlite')
    expect(await refusal({ file, readOnly: true })).toContain('does not exist. Start the service once')
    new Database(file).close()
    expect(await refusal({ file, readOnly: true })).toContain('is not up to date. Start the service once')
    expect(await refusal({ file, migrate: false })).toContain('is not up to date. Start the service once')
  })
})

/** The program's migrations and one more, of this SQL. */
function migrationsAnd(statement: string): string {
  const folder = join(aFolder(), 'sqlite')
  cpSync(migrationsFolder('sqlite'), folder, { recursive: true })
  const journal = join(folder, 'meta', '_journal.json')
  const { entries, ...rest } = JSON.parse(readFileSync(journal, 'utf8'))
  const next = {
    idx: entries.length,
    version: '6',
    when: newestMigrationKnown(folder) + 1,
    tag: '9999_next',
    breakpoints: true,
  }
  writeFileSync(journal, JSON.stringify({ ...rest, entries: [...entries, next] }))
  writeFileSync(join(folder, '9999_next.sql'), statement)
  return folder
}

describe('a migration', () => {
  const rebuilt = [
    'PRAGMA foreign_keys=OFF',
    'CREATE TABLE `__new_audit` (`sequence` integer PRIMARY KEY AUTOINCREMENT NOT NULL, `site_id` text NOT NULL REFERENCES `site`(`id`), `at` integer NOT NULL, `actor_id` text NOT NULL, `action` text NOT NULL, `reason` text, `planning_version` integer NOT NULL, `effects` text NOT NULL, `previous_hash` text, `hash` text) STRICT',
    'INSERT INTO `__new_audit` SELECT * FROM `audit`',
    'DROP TABLE `audit`',
    'ALTER TABLE `__new_audit` RENAME TO `audit`',
    'PRAGMA foreign_keys=ON',
  ].join(';--> statement-breakpoint\n')

  test('that rebuilds a table keeps its rows, those that refer to them, and its triggers', async () => {
    const { file, store, raw } = await aStoreOnFile()
    const before = await store.audit(siteId, { limit: 10, after: null })
    const lines = () => raw.prepare('SELECT count(*) FROM change_log').pluck().get()
    const linesBefore = lines()
    const migrated = openSqliteDatabase({ file, migrations: migrationsAnd(rebuilt) })
    expect(await store.audit(siteId, { limit: 10, after: null })).toEqual(before)
    expect(lines()).toBe(linesBefore)
    expect(() => migrated.prepare('DELETE FROM audit').run()).toThrow('audit_is_append_only')
    expect(migrated.pragma('foreign_keys', { simple: true })).toBe(1)
    migrated.close()
  })

  test('that leaves rows which refer to nothing is not gone on with', async () => {
    const { file } = await aStoreOnFile()
    const migrations = migrationsAnd('DELETE FROM storage_place')
    const open = () => openSqliteDatabase({ file, migrations })
    expect(open).toThrow('has 1 rows that refer to rows that are not there')
    expect(open).toThrow('has 1 rows that refer to rows that are not there')
  })
})
