/** `npm run restore`: what it puts in place, what it keeps, and what it refuses. */
import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, test } from 'vitest'
import { migrationsFolder } from '../../src/store/migrations-folder.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { takeDatabase } from '../../src/store/take-database.ts'
import { aFolder } from '../store/a-database-file.ts'
import { siteId } from '../store/a-world.ts'
import { type Ran, ran } from './a-command.ts'
import { bookingsOf, bytesBeside, copyState, namesBeside, twoStates } from './two-states.ts'

const [early, late] = [['booking_dinner'], ['booking_dinner', 'booking_supper']]

/** The file that it says it has kept what was there as. */
const asideIn = ({ stdout }: Ran): string =>
  /^What was there before is kept as (.*)\.$/m.exec(stdout)?.[1] ?? 'nothing'

/** Everything beside the database but the empty file that is taken, which may be new. */
const stateBeside = (database: string) =>
  [...bytesBeside(database)].filter(([name]) => name !== `${path.basename(database)}.in-use`)

describe('a restored backup', () => {
  test('takes the place of the database, which is kept with everything that was in it', async () => {
    const { database, backup } = await twoStates()
    const bytes = readFileSync(backup)
    const run = ran('restore', [backup], { DATABASE_FILE: database })
    expect(run).toMatchObject({ status: 0, stderr: '' })
    const aside = asideIn(run)
    expect(path.basename(aside)).toMatch(/^hall\.sqlite\.before-\d{8}T\d{6}Z$/)
    expect(run.stdout).toMatch(
      new RegExp(`\\n${database} is now what ${backup} holds: 0\\.\\d MB, looked through.\\n$`),
    )
    expect(namesBeside(database)).toEqual(['hall.sqlite', path.basename(aside), 'hall.sqlite.in-use'])
    expect(bookingsOf(database)).toEqual(early)
    expect(bookingsOf(aside)).toEqual(late)
    expect(readFileSync(backup).equals(bytes)).toBe(true)
    expect(namesBeside(backup)).toEqual(['monday.sqlite'])
    const store = await openSqliteStore({ file: database })
    expect(await store.planningVersion(siteId)).toBe(2)
    store.close()
  })

  test('can be undone: what was kept is a backup too', async () => {
    const { database, backup } = await twoStates()
    const settings = { DATABASE_FILE: database }
    const first = asideIn(ran('restore', [backup], settings))
    const second = asideIn(ran('restore', [first], settings))
    expect(bookingsOf(database)).toEqual(late)
    expect(second).not.toBe(first)
    expect([bookingsOf(first), bookingsOf(second)]).toEqual([late, early])
  })

  test('makes a database where there is none, and a folder for it', async () => {
    const { backup } = await twoStates()
    const database = path.join(aFolder(), 'new', 'hall.sqlite')
    const { status, stdout } = ran('restore', [backup], { DATABASE_FILE: database })
    expect(status).toBe(0)
    expect(stdout).not.toContain('kept')
    expect(namesBeside(database)).toEqual(['hall.sqlite', 'hall.sqlite.in-use'])
    expect(bookingsOf(database)).toEqual(early)
  })

  test('lies where a link leads, and the link stays', async () => {
    const { database, backup } = await twoStates()
    const link = path.join(aFolder(), 'hall.sqlite')
    symlinkSync(database, link)
    expect(ran('restore', [backup], { DATABASE_FILE: link }).status).toBe(0)
    expect(realpathSync(link)).toBe(realpathSync(database))
    expect(bookingsOf(database)).toEqual(early)
    rmSync(database)
    expect(ran('restore', [backup], { DATABASE_FILE: link }).status).toBe(0)
    expect(bookingsOf(database)).toEqual(early)
  })

  test('may be read by those only who could read the database', async () => {
    const { database, backup } = await twoStates()
    chmodSync(database, 0o640)
    expect(ran('restore', [backup], { DATABASE_FILE: database }).status).toBe(0)
    expect(statSync(database).mode & 0o777).toBe(0o640)
  })

  test('brings with it what is in the log beside it only', async () => {
    const { database, backup } = await twoStates()
    const place = path.join(aFolder(), 'hall.sqlite')
    copyFileSync(backup, place)
    const before = bytesBeside(database)
    expect(ran('restore', [database], { DATABASE_FILE: place }).status).toBe(0)
    expect(bookingsOf(place)).toEqual(late)
    for (const name of ['hall.sqlite', 'hall.sqlite-wal'])
      expect(bytesBeside(database).get(name)).toBe(before.get(name))
  })

  test('of an older version is brought up to date on the way', async () => {
    const file = path.join(aFolder(), 'old.sqlite')
    ofFirstVersion(file)
    const database = path.join(aFolder(), 'hall.sqlite')
    expect(ran('restore', [file], { DATABASE_FILE: database })).toMatchObject({ status: 0, stderr: '' })
    const store = await openSqliteStore({ file: database, readOnly: true })
    expect(await store.isReady()).toBe(true)
    store.close()
  })

  test('takes the place of a database that is damaged, and that is kept as it is with its log', async () => {
    const { database, backup } = await twoStates()
    const settings = { DATABASE_FILE: database }
    const bytes = readFileSync(database).fill('x', 0, 100)
    writeFileSync(database, bytes)
    // Whole, it has the first page too, and would mend the damage.
    const log = readFileSync(`${database}-wal`).fill('x', 0, 10_000)
    writeFileSync(`${database}-wal`, log)
    const run = ran('restore', [backup], settings)
    expect(run).toMatchObject({ status: 0, stderr: '' })
    const aside = asideIn(run)
    expect(readFileSync(aside).equals(bytes)).toBe(true)
    expect(readFileSync(`${aside}-wal`).equals(log)).toBe(true)
    expect(bookingsOf(database)).toEqual(early)
  })

  test('is put in place too where a file may have one name only', async () => {
    const { database, backup } = await twoStates()
    const run = ran('restore', [backup], { DATABASE_FILE: database, before: 'without-links.mjs' })
    expect(run).toMatchObject({ status: 0, stderr: '' })
    expect(bookingsOf(database)).toEqual(early)
    expect(bookingsOf(asideIn(run))).toEqual(late)
    expect(namesBeside(database)).toHaveLength(3)
  })
})

/** As the first version of the program would have left it. */
function ofFirstVersion(file: string): void {
  const folder = migrationsFolder('sqlite')
  const journal = JSON.parse(readFileSync(path.join(folder, 'meta', '_journal.json'), 'utf8'))
  const [{ tag, when }] = journal.entries
  const raw = new Database(file)
  raw.exec(readFileSync(path.join(folder, `${tag}.sql`), 'utf8'))
  raw.exec(
    'CREATE TABLE __drizzle_migrations (id INTEGER PRIMARY KEY, hash text NOT NULL, created_at numeric)',
  )
  raw.prepare('INSERT INTO __drizzle_migrations (hash, created_at) VALUES (?, ?)').run('first', when)
  raw.close()
}

interface Refusal {
  readonly why: string
  /** Makes of a backup something that is none. */
  spoil(file: string): void
  readonly said: RegExp
}

const bytesOf = (change: (bytes: Buffer) => Uint8Array) => (file: string) =>
  writeFileSync(file, change(readFileSync(file)))
const statement = (sql: string) => (file: string) => {
  const raw = new Database(file)
  raw.pragma('foreign_keys = OFF')
  raw.exec(sql)
  raw.close()
}

const refusals: readonly Refusal[] = [
  {
    why: 'is cut off at the end',
    spoil: bytesOf((bytes) => bytes.subarray(0, bytes.length - 4096)),
    said: /^FILE is damaged\. DATABASE is as it was\.$/,
  },
  {
    why: 'is cut off in the middle of a page',
    spoil: bytesOf((bytes) => bytes.subarray(0, 10_000)),
    said: /^FILE is damaged\. DATABASE is as it was\.$/,
  },
  {
    why: 'has pages overwritten',
    spoil: bytesOf((bytes) => bytes.fill(0xff, 3 * 4096, 8 * 4096)),
    said: /^FILE is damaged: .*\. DATABASE is as it was\.$/,
  },
  {
    why: 'has every bit of a page turned',
    spoil: bytesOf((bytes) => bytes.map((byte, index) => (index >> 12 === 5 ? byte ^ 0xff : byte))),
    said: /^FILE is damaged: .*\. DATABASE is as it was\.$/,
  },
  {
    why: 'is a letter',
    spoil: (file) => writeFileSync(file, 'Dear neighbours, the hall is closed in August. '.repeat(100)),
    said: /^FILE is not a database\. DATABASE is as it was\.$/,
  },
  {
    why: 'has nothing in it',
    spoil: (file) => writeFileSync(file, ''),
    said: /^FILE is empty\. DATABASE is as it was\.$/,
  },
  {
    why: 'is not there',
    spoil: (file) => rmSync(file),
    said: /^FILE does not exist\. Name a backup\.$/,
  },
  {
    why: 'is a folder',
    spoil: (file) => {
      rmSync(file)
      mkdirSync(file)
    },
    said: /^FILE cannot be opened\. See that it is a file/,
  },
  {
    why: 'belongs to another program',
    spoil: (file) => {
      rmSync(file)
      statement('CREATE TABLE recipe (id INTEGER PRIMARY KEY)')(file)
    },
    said: /^FILE belongs to another program\. DATABASE is as it was\.$/,
  },
  {
    why: 'is of a newer version',
    spoil: statement(
      `INSERT INTO __drizzle_migrations (hash, created_at) SELECT 'x', max(created_at) + 1 FROM __drizzle_migrations`,
    ),
    said: /^FILE was written by a newer version of this program\. Install that version, or restore a backup from before\.$/,
  },
  {
    why: 'has a row that refers to one that is not there',
    spoil: statement(`DELETE FROM turn WHERE id = 'turn_dinner'`),
    said: /^FILE has \d+ rows? that refer to rows that are not there\. DATABASE is as it was\.$/,
  },
  {
    why: 'lacks a table',
    spoil: statement('DROP TABLE stock_change'),
    said: /^FILE lacks what this program reads: no such table: (main\.)?stock_change\.$/,
  },
  {
    why: 'lacks a column',
    spoil: statement('ALTER TABLE site DROP COLUMN units'),
    said: /^FILE lacks what this program reads: no such column: "?units"?.*\.$/,
  },
]

describe('the database stays as it is, byte for byte, where the backup', () => {
  test.each(refusals)('$why', async ({ spoil, said }) => {
    const { database, backup } = await twoStates()
    spoil(backup)
    const before = stateBeside(database)
    const { status, stdout, stderr } = ran('restore', [backup], { DATABASE_FILE: database })
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
    expect(stderr.replaceAll(backup, 'FILE').replaceAll(database, 'DATABASE').trimEnd()).toMatch(said)
    expect(stateBeside(database)).toEqual(before)
  })
})

describe('nothing is restored', () => {
  test('into a database that somebody has taken, and then it is restored', async () => {
    const { database, backup } = await twoStates()
    const taken = takeDatabase(database)
    const before = bytesBeside(database)
    const settings = { DATABASE_FILE: database }
    expect(ran('restore', [backup], settings)).toEqual({
      status: 2,
      stdout: '',
      stderr: `${database} is in use: a service runs on it, or a backup is being restored into it. Stop that first, or set DATABASE_FILE to another file.\n`,
    })
    expect(bytesBeside(database)).toEqual(before)
    taken.release()
    expect(ran('restore', [backup], settings).status).toBe(0)
  })

  test('into a database that another program has open', async () => {
    const { database, backup } = await twoStates()
    const raw = new Database(database)
    raw.prepare('SELECT count(*) FROM booking').get()
    const { status, stdout, stderr } = ran('restore', [backup], { DATABASE_FILE: database })
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
    expect(stderr).toBe(`${database} is open in another program. Close it there, and try again.\n`)
    raw.close()
    expect(bookingsOf(database)).toEqual(late)
    expect(namesBeside(database)).toEqual(['hall.sqlite', 'hall.sqlite.in-use'])
  })

  test('into the database of another program, or from the database itself', async () => {
    const { backup } = await twoStates()
    const other = path.join(aFolder(), 'recipes.sqlite')
    statement('CREATE TABLE recipe (id INTEGER PRIMARY KEY)')(other)
    const before = stateBeside(other)
    expect(ran('restore', [backup], { DATABASE_FILE: other }).stderr).toBe(
      `${other} belongs to another program. Name another database file.\n`,
    )
    expect(stateBeside(other)).toEqual(before)
    const link = path.join(aFolder(), 'link.sqlite')
    symlinkSync(backup, link)
    expect(ran('restore', [link], { DATABASE_FILE: backup }).stderr).toBe(
      `${link} is the database itself. Name a backup of it.\n`,
    )
  })

  test('twice at a time: one is refused or comes after the other', async () => {
    const { database, backup } = await twoStates()
    const taken = takeDatabase(database)
    // Its second name: what is taken is where the file lies.
    const link = path.join(aFolder(), 'hall.sqlite')
    symlinkSync(database, link)
    expect(() => takeDatabase(link)).toThrow('is in use')
    taken.release()
    takeDatabase(link).release()
    expect(bookingsOf(backup)).toEqual(early)
  })
})

describe('a restore that is killed', () => {
  /** More than there are: then something is not as it was. */
  const STEPS_MOST = 60

  test('at any step leaves the old database or the new one, whole, and can be begun again', async () => {
    const { database, backup } = await twoStates()
    const places: string[] = []
    for (let step = 1; step <= STEPS_MOST; step += 1) {
      const place = path.join(aFolder(), 'hall.sqlite')
      places.push(place)
      copyState(database, place)
      const settings = { DATABASE_FILE: place, before: 'killed-at-step.mjs', told: String(step) }
      if (ran('restore', [backup], settings).status === 0) break
    }
    expect(places.length).toBeLessThan(STEPS_MOST)
    const found = places.map((place) => bookingsOf(place))
    const firstNew = found.findIndex((bookings) => bookings?.length === early.length)
    expect(firstNew).toBeGreaterThan(5)
    expect(found).toEqual(found.map((_, index) => (index < firstNew ? late : early)))

    const DATABASE_FILE = places[firstNew - 1] ?? ''
    expect(namesBeside(DATABASE_FILE)).toContain('hall.sqlite.unfinished')
    expect(ran('restore', [backup], { DATABASE_FILE }).status).toBe(0)
    expect(namesBeside(DATABASE_FILE)).not.toContain('hall.sqlite.unfinished')
    expect(bookingsOf(DATABASE_FILE)).toEqual(early)
  }, 120_000)
})
