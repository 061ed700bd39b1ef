import { execFileSync } from 'node:child_process'
import { cpSync, readdirSync } from 'node:fs'
import { join, relative } from 'node:path'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { setupKinds } from '../../src/domain/setup.ts'
import { CodeTables, UnitSystem } from '../../src/domain/site.ts'
import { migrationsFolder } from '../../src/store/migrations-folder.ts'
import { openSqliteDatabase } from '../../src/store/open-sqlite-database.ts'
import { aFolder } from './a-database-file.ts'

const open = () => openSqliteDatabase({ file: ':memory:' })
const namesOf = (rows: unknown) =>
  z
    .array(z.object({ name: z.string() }))
    .parse(rows)
    .map(({ name }) => name)

/** Our own tables: not SQLite's, nor the migrator's. */
const tablesOf = (raw: ReturnType<typeof open>) =>
  namesOf(raw.pragma('table_list')).filter((name) => !name.startsWith('sqlite_') && !name.startsWith('__'))

describe('the schema', () => {
  test('is what the file says that the migrations add up to', async () => {
    const statements = open()
      .prepare(
        `SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE '\\_\\_%' ESCAPE '\\' AND name NOT LIKE 'sqlite%' ORDER BY tbl_name, type = 'trigger', type = 'index', name`,
      )
      .pluck()
      .all()
    const text = `-- What migrations and triggers add up to. Written by tests/store/schema.test.ts: npx vitest run tests/store/schema.test.ts -u\n${statements.join(';\n')};\n`
    await expect(text).toMatchFileSnapshot('../../migrations/schema.sqlite.sql')
  })

  test('has only strict tables', () => {
    const lists = z.array(z.object({ name: z.string(), strict: z.int() })).parse(open().pragma('table_list'))
    const lax = lists.filter(({ strict }) => strict === 0).map(({ name }) => name)
    expect(lax.filter((name) => !name.startsWith('sqlite_') && !name.startsWith('__'))).toEqual([])
    expect(tablesOf(open())).toHaveLength(34)
  })

  test('enforces references, one of them at the end of the transaction', () => {
    const raw = open()
    expect(raw.pragma('foreign_keys', { simple: true })).toBe(1)
    const room = raw.prepare(`SELECT sql FROM sqlite_master WHERE name = 'room'`).pluck().get()
    expect(room).toContain(
      'REFERENCES `layout`(`room_id`,`id`) ON UPDATE no action ON DELETE no action DEFERRABLE',
    )
  })

  test('counts the versions of every set-up row from one, units and code tables by their words', () => {
    const raw = open()
    const sqlOf = (table: string) =>
      String(raw.prepare('SELECT sql FROM sqlite_master WHERE name = ?').pluck().get(table))
    const tables = setupKinds.map((kind) => kind.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`))
    for (const table of tables) {
      expect(sqlOf(table)).toContain('`version` integer DEFAULT 1 NOT NULL')
      expect(sqlOf(table)).toContain(`"${table}_version" CHECK("version" > 0)`)
    }
    const words = (options: readonly string[]) => options.map((word) => `'${word}'`).join(', ')
    expect(sqlOf('site')).toContain(`"units" in (${words(UnitSystem.options)})`)
    expect(sqlOf('site')).toContain(`"code_tables" in (${words(CodeTables.options)})`)
  })

  test('never deletes what refers to a row that goes', () => {
    const raw = open()
    for (const table of tablesOf(raw)) {
      const keys = z
        .array(z.object({ on_delete: z.string() }))
        .parse(raw.pragma(`foreign_key_list('${table}')`))
      expect(keys.filter((key) => key.on_delete !== 'NO ACTION')).toEqual([])
    }
  })

  test('has its triggers again each time the file is opened', () => {
    const file = join(aFolder(), 'hall.sqlite')
    const first = openSqliteDatabase({ file })
    const triggers = `SELECT name FROM sqlite_master WHERE type = 'trigger' ORDER BY name`
    const names = namesOf(first.prepare(triggers).all())
    expect(names).toContain('section_overlap_insert')
    for (const name of names) first.exec(`DROP TRIGGER ${name}`)
    first.close()
    expect(namesOf(openSqliteDatabase({ file }).prepare(triggers).all())).toEqual(names)
  })

  test('is the one the tables in the code describe: there is no migration to be written', () => {
    const folder = join(aFolder(), 'sqlite')
    cpSync(migrationsFolder('sqlite'), folder, { recursive: true })
    const files = () => readdirSync(folder, { recursive: true }).map(String).sort()
    const before = files()
    const output = execFileSync(
      process.execPath,
      [
        ...['node_modules/drizzle-kit/bin.cjs', 'generate', '--dialect', 'sqlite', '--casing', 'snake_case'],
        ...['--schema', './src/store/schema.sqlite.ts', '--out', relative('.', folder)],
      ],
      { encoding: 'utf8' },
    )
    expect(output).toContain('No schema changes')
    expect(files()).toEqual(before)
  })
})
