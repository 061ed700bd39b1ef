/** `npm run backup`: what it makes, what it leaves alone, and that others write meanwhile. */
import {
  chmodSync,
  copyFileSync,
  linkSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, test } from 'vitest'
import { copyDatabase } from '../../src/store/copy-database.ts'
import { aFolder } from '../store/a-database-file.ts'
import { ran, running } from './a-command.ts'
import { bookingsOf, bytesBeside, namesBeside, twoStates } from './two-states.ts'

/** Many times as many as a copy of forty megabytes has lots of pages. */
const COMMITS_MOST = 500

const both = ['booking_dinner', 'booking_supper']

describe('a backup', () => {
  test('holds everything that was committed, in one file, and says how large it is', async () => {
    const { database } = await twoStates()
    const file = path.join(aFolder(), 'tuesday.sqlite')
    const { status, stdout, stderr } = ran('backup', [file], { DATABASE_FILE: database })
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    const megabytes = (Math.ceil(statSync(file).size / 100_000) / 10).toFixed(1)
    expect(stdout.replace(/\d+\.\d s/, '… s')).toBe(
      `${file} is a backup of ${database}: ${megabytes} MB, looked through, in … s.\n`,
    )
    expect(namesBeside(file)).toEqual(['tuesday.sqlite'])
    expect(bookingsOf(file)).toEqual(both)
    expect(namesBeside(file)).toEqual(['tuesday.sqlite'])
  })

  test('can be read by those only who can read the database', async () => {
    const { database } = await twoStates()
    chmodSync(database, 0o600)
    const file = path.join(aFolder(), 'tuesday.sqlite')
    expect(ran('backup', [file], { DATABASE_FILE: database }).status).toBe(0)
    expect(statSync(file).mode & 0o777).toBe(0o600)
  })

  test('takes the place of a file that is there only where that is allowed', async () => {
    const { database, backup } = await twoStates()
    const before = readFileSync(backup)
    expect(ran('backup', [backup], { DATABASE_FILE: database })).toEqual({
      status: 2,
      stdout: '',
      stderr: `${backup} is there already. Name another file, or add --overwrite.\n`,
    })
    expect(readFileSync(backup).equals(before)).toBe(true)
    expect(ran('backup', ['--overwrite', backup], { DATABASE_FILE: database }).status).toBe(0)
    expect(bookingsOf(backup)).toEqual(both)
    expect(namesBeside(backup)).toEqual(['monday.sqlite'])
  })

  test('is made too where a file may have one name only', async () => {
    const { database, backup } = await twoStates()
    const file = path.join(aFolder(), 'tuesday.sqlite')
    const settings = { DATABASE_FILE: database, before: 'without-links.mjs' }
    expect(ran('backup', [file], settings).status).toBe(0)
    expect(bookingsOf(file)).toEqual(both)
    expect(namesBeside(file)).toEqual(['tuesday.sqlite'])
    expect(ran('backup', [backup], settings).stderr).toContain('is there already')
  })

  test('is deleted, as far as it has come, when the command is told to stop', async () => {
    const { database, backup } = await twoStates()
    const file = path.join(path.dirname(backup), 'tuesday.sqlite')
    const command = running('backup', [file], { DATABASE_FILE: database, before: 'pause-before-pages.mjs' })
    await command.says('about to copy')
    expect(namesBeside(file)).toContainEqual(expect.stringMatching(/^tuesday\.sqlite\.unfinished-\d+$/))
    command.process.kill('SIGTERM')
    command.process.stdin?.write('\n')
    expect((await command.ended()).status).toBe(143)
    expect(namesBeside(file)).toEqual(['monday.sqlite'])
  })

  test('is of one moment, however often others commit while it is made', async () => {
    const from = path.join(aFolder(), 'long.sqlite')
    const { database } = await twoStates()
    expect(ran('backup', [from], { DATABASE_FILE: database }).status).toBe(0)
    const writer = new Database(from)
    writer.pragma('journal_mode = WAL')
    writer.exec('CREATE TABLE ballast (bytes BLOB)')
    const add = writer.prepare('INSERT INTO ballast VALUES (randomblob(1000000))')
    for (let megabyte = 0; megabyte < 40; megabyte += 1) add.run()
    const to = path.join(aFolder(), 'copy.sqlite')
    let committed = 0
    let isDone = false
    const copying = copyDatabase(from, to).finally(() => {
      isDone = true
    })
    // Begun anew each time, it would not be done before these are.
    while (!isDone && committed < COMMITS_MOST) {
      writer.exec('INSERT INTO ballast VALUES (NULL)')
      committed += 1
      // One commit between any two lots of pages.
      await new Promise(setImmediate)
    }
    expect(await copying).toBeNull()
    expect(committed).toBeGreaterThan(4)
    expect(committed).toBeLessThan(COMMITS_MOST)
    writer.close()
    const copy = new Database(to, { readonly: true })
    expect(copy.prepare('SELECT count(*) FROM ballast WHERE bytes IS NULL').pluck().get()).toBeLessThan(2)
    expect(copy.prepare('SELECT count(*) FROM ballast WHERE bytes IS NOT NULL').pluck().get()).toBe(40)
    copy.close()
  })
})

describe('no backup is made, and nothing is left behind,', () => {
  const refused = (status: unknown, stderr: unknown) => ({ status, stdout: '', stderr })

  test('where the database is not there', () => {
    const folder = aFolder()
    const database = path.join(folder, 'hall.sqlite')
    expect(ran('backup', [path.join(folder, 'copy.sqlite')], { DATABASE_FILE: database })).toEqual(
      refused(2, `${database} does not exist. Start the service once, which creates it, and try again.\n`),
    )
    expect(namesBeside(database)).toEqual([])
  })

  test.each([
    ['is damaged: ', (bytes: Buffer) => bytes.fill(0xff, 3 * 4096, 8 * 4096)],
    ['is damaged. ', (bytes: Buffer) => bytes.subarray(0, 5 * 4096)],
    ['is not a database. ', (bytes: Buffer) => bytes.fill('x', 0, 100)],
  ])('where the database %s', async (said, damage) => {
    const { backup } = await twoStates()
    const database = path.join(aFolder(), 'hall.sqlite')
    writeFileSync(database, damage(readFileSync(backup)))
    const file = path.join(aFolder(), 'copy.sqlite')
    const { status, stdout, stderr } = ran('backup', [file], { DATABASE_FILE: database })
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
    expect(stderr.startsWith(`${database} ${said}`)).toBe(true)
    expect(stderr).toMatch(/No backup was made\.\n$/)
    expect(namesBeside(file)).toEqual([])
  })

  test('where rows refer to rows that are not there, or it belongs to another program', async () => {
    const { backup } = await twoStates()
    const database = path.join(aFolder(), 'hall.sqlite')
    copyFileSync(backup, database)
    const raw = new Database(database)
    raw.pragma('foreign_keys = OFF')
    raw.exec(`DELETE FROM section WHERE id = 'section_west'`)
    raw.close()
    const other = path.join(aFolder(), 'recipes.sqlite')
    new Database(other).exec('CREATE TABLE recipe (id INTEGER PRIMARY KEY)').close()
    const file = path.join(aFolder(), 'copy.sqlite')
    expect(ran('backup', [file], { DATABASE_FILE: database })).toEqual(
      refused(2, `${database} has 2 rows that refer to rows that are not there. No backup was made.\n`),
    )
    expect(ran('backup', [file], { DATABASE_FILE: other })).toEqual(
      refused(2, `${other} belongs to another program. No backup was made.\n`),
    )
    expect(namesBeside(file)).toEqual([])
  })

  test('over the database or its log, by whichever name, even where it may overwrite', async () => {
    const { database } = await twoStates()
    const before = bytesBeside(database)
    const link = path.join(aFolder(), 'link.sqlite')
    symlinkSync(database, link)
    for (const file of [database, `${database}-wal`, `${database}.in-use`, link])
      expect(ran('backup', [file, '--overwrite'], { DATABASE_FILE: database })).toEqual(
        refused(2, `${file} belongs to the database itself. Name another file.\n`),
      )
    expect(bytesBeside(database)).toEqual(before)
  })

  test('over another database that is open, into a folder, or where there is no folder', async () => {
    const { database, backup } = await twoStates()
    linkSync(`${database}-wal`, `${backup}-wal`)
    expect(ran('backup', [backup, '--overwrite'], { DATABASE_FILE: database })).toEqual(
      refused(
        2,
        `${backup}-wal is there: a database of that name is open, or was never closed. Name another file.\n`,
      ),
    )
    const folder = aFolder()
    expect(ran('backup', [folder], { DATABASE_FILE: database })).toEqual(
      refused(2, `${folder} is no file. Name a file.\n`),
    )
    const nowhere = path.join(folder, 'none')
    expect(ran('backup', [path.join(nowhere, 'copy.sqlite')], { DATABASE_FILE: database })).toEqual(
      refused(2, `The folder ${nowhere} does not exist. Make it, or name another file.\n`),
    )
    expect(namesBeside(nowhere)).toEqual([])
  })

  test('where the command is called wrongly, and help is no fault', () => {
    const settings = { DATABASE_FILE: path.join(aFolder(), 'hall.sqlite') }
    for (const command of ['backup', 'restore'] as const) {
      expect(ran(command, [], settings)).toEqual(
        refused(
          2,
          expect.stringMatching(new RegExp(`^The file is missing. Call it so: npm run ${command} -- FILE`)),
        ),
      )
      expect(ran(command, ['a', 'b'], settings).stderr).toMatch(/^One file at a time\. Call it so/)
      expect(ran(command, ['--fast', 'a'], settings).stderr).toMatch(/^Unknown option '--fast'.*Call it so/)
      expect(ran(command, ['--help'], settings)).toEqual({
        status: 0,
        stdout: expect.stringMatching(new RegExp(`^Call it so: npm run ${command} -- FILE`)),
        stderr: '',
      })
    }
  })
})
