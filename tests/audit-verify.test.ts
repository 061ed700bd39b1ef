/** What a walk along the audit finds of what hands past the service did, and how the command says it. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import Database from 'better-sqlite3'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { auditHash } from '../src/store/audit-hash.ts'
import { openSqliteStore } from '../src/store/open-sqlite-store.ts'
import { root } from './a-started-service.ts'
import { verified } from './life/verified.ts'
import { aFileOfBefore } from './store/a-file-of-before.ts'
import { renaming } from './store/a-renaming.ts'
import { at } from './store/a-world.ts'
import {
  type AuditRow,
  anAuditOfTwoSites,
  auditColumns,
  auditRows,
  elmId,
  tampered,
  walked,
} from './store/an-audit.ts'

const hall = { folder: '', file: '', head: '' }
const ENTRIES = 7

beforeAll(async () => {
  hall.folder = mkdtempSync(path.join(os.tmpdir(), 'turnwright-audit-'))
  hall.file = path.join(hall.folder, 'hall.sqlite')
  const store = await anAuditOfTwoSites(hall.file)
  store.close()
  hall.head = walked(hall.file).head ?? ''
})
afterAll(() => rmSync(hall.folder, { recursive: true, force: true }))

const faultAfter = (hands: (raw: Database.Database) => void) => walked(tampered(hall.file, hands)).fault

/** Another value of the same kind, other in every way that a column can hold. */
const otherValue = (row: AuditRow, column: keyof AuditRow): string | number => {
  const value = row[column]
  if (column === 'sequence') return Number(value) + 100
  return typeof value === 'number' ? value + 1 : `${value ?? ''} `
}

const set = (raw: Database.Database, sequence: number, column: string, value: unknown) => {
  const { changes } = raw.prepare(`UPDATE audit SET ${column} = ? WHERE sequence = ?`).run(value, sequence)
  expect(changes).toBe(1)
}

const remove = (raw: Database.Database, where: string) => {
  expect(raw.prepare(`DELETE FROM audit WHERE ${where}`).run().changes).toBeGreaterThan(0)
}

/** The hash of the row as it now stands, put where the old one was. */
const hashAnew = (raw: Database.Database, sequence: number) => {
  const row = auditRows(raw).find((found) => found.sequence === sequence)
  if (!row) throw new Error(`there is no entry ${sequence}`)
  const { site_id: siteId, actor_id: actorId, planning_version: planningVersion, ...rest } = row
  const hash = auditHash({ ...rest, siteId, actorId, planningVersion, previousHash: row.previous_hash })
  set(raw, sequence, 'hash', hash)
}

describe('a chain that nobody has laid hands on', () => {
  test('is whole, and the file is left as it is', () => {
    const before = readFileSync(hall.file)
    expect(walked(hall.file)).toEqual({ entries: ENTRIES, head: hall.head, notedSequence: null, fault: null })
    expect(readFileSync(hall.file).equals(before)).toBe(true)
  })

  test('holds every head that was noted on the way', () => {
    const raw = new Database(hall.file, { readonly: true })
    const rows = auditRows(raw)
    raw.close()
    for (const { sequence, hash } of rows)
      expect(walked(hall.file, { noted: hash }).notedSequence).toBe(sequence)
    expect(walked(hall.file, { noted: '0'.repeat(64) }).notedSequence).toBeNull()
  })
})

describe('it is found, with the entry, when', () => {
  const everyPlace = Array.from({ length: ENTRIES }, (_, k) => k + 1)

  test.each(auditColumns)('%s of an entry is another, whichever entry it is', (column) => {
    for (const sequence of everyPlace) {
      const fault = faultAfter((raw) => {
        const row = auditRows(raw)[sequence - 1]
        if (row) set(raw, sequence, column, otherValue(row, column))
      })
      expect(fault?.sequence).toBe(sequence)
    }
  })

  test('an entry has lost its hash or its link', () => {
    expect(faultAfter((raw) => set(raw, 4, 'hash', null))).toEqual({ sequence: 4, what: 'has no hash' })
    expect(faultAfter((raw) => set(raw, 4, 'previous_hash', null))).toEqual({
      sequence: 4,
      what: 'is not what its hash was taken of',
    })
    expect(faultAfter((raw) => set(raw, 4, 'reason', null))).toEqual({
      sequence: 4,
      what: 'is not what its hash was taken of',
    })
  })

  test('one or several are missing at the beginning, in between or at the end', () => {
    const missing = (where: string) => faultAfter((raw) => remove(raw, where))
    expect(missing('sequence = 1')).toEqual({ sequence: 1, what: 'is missing' })
    expect(missing('sequence = 4')).toEqual({ sequence: 4, what: 'is missing' })
    expect(missing('sequence BETWEEN 3 AND 5')).toEqual({
      sequence: 3,
      what: 'is missing, and all up to entry 5',
    })
    expect(missing('sequence >= 6')).toEqual({ sequence: 6, what: 'is missing, and all up to entry 7' })
    expect(missing('true')).toEqual({ sequence: 1, what: 'is missing, and all up to entry 7' })
  })

  test('the others have moved up to where one is missing', () => {
    const fault = faultAfter((raw) => {
      remove(raw, 'sequence = 4')
      for (const sequence of [5, 6, 7]) set(raw, sequence, 'sequence', sequence - 1)
    })
    expect(fault).toEqual({ sequence: 4, what: 'is not what its hash was taken of' })
  })

  test('one was changed and hashed anew: the next one does not follow it', () => {
    const fault = faultAfter((raw) => {
      set(raw, 4, 'actor_id', 'actor_nobody')
      hashAnew(raw, 4)
    })
    expect(fault).toEqual({ sequence: 5, what: 'does not name the hash of entry 4 before it' })
  })

  test('the first one is said to follow another', () => {
    const fault = faultAfter((raw) => {
      set(raw, 1, 'previous_hash', hall.head)
      hashAnew(raw, 1)
    })
    expect(fault).toEqual({ sequence: 1, what: 'names the hash of an entry before it, and is the first' })
  })

  test('the service has gone on after the end was cut off', async () => {
    const file = tampered(hall.file, (raw) => remove(raw, 'sequence IN (6, 7)'))
    const store = await openSqliteStore({ file })
    await store.commit(renaming(elmId, 'Elm Lane', 4))
    store.close()
    expect(walked(file)).toMatchObject({
      entries: 5,
      fault: { sequence: 6, what: 'is missing, and all up to entry 7' },
    })
  })

  test('anything at all was done to any entries: the first that is not as it was is named', () => {
    const place = fc.integer({ min: 1, max: ENTRIES })
    const deed = fc.oneof(
      fc.record({ kind: fc.constant('remove' as const), place }),
      fc.record({ kind: fc.constant('swap' as const), place, other: place }),
      fc.record({
        kind: fc.constant('set' as const),
        place,
        column: fc.constantFrom(...auditColumns.filter((column) => column !== 'sequence')),
        value: fc.oneof(fc.integer(), fc.string(), fc.string({ unit: 'binary' }), fc.constant(null)),
      }),
    )
    let found = 0
    const property = fc.property(fc.array(deed, { minLength: 1, maxLength: 4 }), (deeds) => {
      let firstOther: number | null = null
      const file = tampered(hall.file, (raw) => {
        const before = auditRows(raw)
        for (const one of deeds) {
          if (one.kind === 'remove') raw.prepare('DELETE FROM audit WHERE sequence = ?').run(one.place)
          else if (one.kind === 'swap') {
            raw.prepare('UPDATE audit SET sequence = -1 WHERE sequence = ?').run(one.place)
            raw.prepare('UPDATE audit SET sequence = ? WHERE sequence = ?').run(one.place, one.other)
            raw.prepare('UPDATE audit SET sequence = ? WHERE sequence = -1').run(one.other)
          } else {
            // Some values the table itself refuses, in a column of another kind.
            try {
              raw.prepare(`UPDATE audit SET ${one.column} = ? WHERE sequence = ?`).run(one.value, one.place)
            } catch (error) {
              if (!(error instanceof Database.SqliteError)) throw error
            }
          }
        }
        const after = new Map(auditRows(raw).map((row) => [row.sequence, row]))
        const differs = (row: AuditRow) => JSON.stringify(after.get(row.sequence)) !== JSON.stringify(row)
        firstOther = before.find(differs)?.sequence ?? null
      })
      const { fault } = walked(file)
      rmSync(path.dirname(file), { recursive: true })
      if (firstOther !== null) found += 1
      expect(fault?.sequence ?? null).toBe(firstOther)
    })
    fc.assert(property, { seed: 23, numRuns: 60 })
    expect(found).toBeGreaterThan(40)
  })
})

describe('what the file alone does not show, and a noted head does', () => {
  test('is that the end was cut off by somebody who knows the database', () => {
    const file = tampered(hall.file, (raw) => {
      remove(raw, 'sequence >= 6')
      raw.exec(`UPDATE sqlite_sequence SET seq = 5 WHERE name = 'audit'`)
    })
    expect(walked(file, { noted: hall.head })).toMatchObject({ entries: 5, notedSequence: null, fault: null })
  })

  test('is that everything from a changed entry on was hashed anew', () => {
    const file = tampered(hall.file, (raw) => {
      set(raw, 3, 'actor_id', 'actor_nobody')
      for (let sequence = 3; sequence <= ENTRIES; sequence++) {
        set(raw, sequence, 'previous_hash', auditRows(raw)[sequence - 2]?.hash)
        hashAnew(raw, sequence)
      }
    })
    expect(walked(file, { noted: hall.head })).toMatchObject({
      entries: ENTRIES,
      notedSequence: null,
      fault: null,
    })
  })
})

test('the look over the whole file says it too', async () => {
  const file = tampered(hall.file, (raw) => set(raw, 4, 'actor_id', 'actor_nobody'))
  expect(await verified(file, at(0))).toContain(
    'the file: entry 4 of the audit: is not what its hash was taken of',
  )
  expect((await verified(hall.file, at(0))).filter((line) => line.includes('audit'))).toEqual([])
})

const program = path.join(root, 'dist', 'src', 'audit-verify.js')
const run = (...args: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { encoding: 'utf8' })
  return { status, stdout, stderr }
}

describe('the command', () => {
  const usage =
    'Call it so: npm run audit:verify -- DATABASE_FILE [--noted HASH]; with --noted the head that was noted must be in the chain.'

  test('ends with 0 and prints the head, and whether a noted one is there', () => {
    const whole = `7 entries, chain whole, head ${hall.head}\n`
    expect(run(hall.file)).toEqual({ status: 0, stdout: whole, stderr: '' })
    expect(run(hall.file, '--noted', hall.head.toUpperCase())).toEqual({
      status: 0,
      stdout: `${whole}the noted head is that of entry 7\n`,
      stderr: '',
    })
    const empty = tampered(hall.file, (raw) => {
      remove(raw, 'true')
      raw.exec(`DELETE FROM sqlite_sequence WHERE name = 'audit'`)
    })
    expect(run(empty)).toEqual({ status: 0, stdout: '0 entries, chain whole, no head\n', stderr: '' })
  })

  test('ends with 1 and names the first entry that is wrong, or says that the noted head is gone', () => {
    const file = tampered(hall.file, (raw) => remove(raw, 'sequence = 4'))
    expect(run(file)).toEqual({ status: 1, stdout: 'entry 4 of the audit is missing\n', stderr: '' })
    const noted = '0'.repeat(64)
    expect(run(hall.file, '--noted', noted)).toEqual({
      status: 1,
      stdout: `7 entries, chain whole, head ${hall.head}\nthe noted head is not in the chain: entries are gone from its end, or it was written anew\n`,
      stderr: '',
    })
  })

  test('says how it is called, and does nothing', () => {
    for (const args of [['--help'], ['-h', 'a', 'b']])
      expect(run(...args)).toEqual({ status: 0, stdout: `${usage}\n`, stderr: '' })
  })

  test.each([
    [[], `The database file is missing. ${usage}`],
    [['a', 'b'], `One database file at a time. ${usage}`],
    [['a', '--noted', 'abc'], `--noted abc is no hash of 64 digits, 0-9 and a-f. ${usage}`],
    [['a', '--mend'], /^Unknown option '--mend'.*Call it so: /],
    [
      ['nowhere.sqlite'],
      'nowhere.sqlite does not exist. Start the service once, which creates it, and try again.',
    ],
    [[path.join(root, 'package.json')], /package\.json is not a database\. Name another database file/],
  ])('called with %j ends with 2 and says why in one line', (args, message) => {
    const { status, stdout, stderr } = run(...args)
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
    if (typeof message === 'string') expect(stderr).toBe(`${message}\n`)
    else expect(stderr).toMatch(message)
  })

  test('ends with 2 when the file is of an older version or damaged', () => {
    const { file: older, raw } = aFileOfBefore('0002_the-decision-whole')
    raw.close()
    expect(run(older)).toEqual({
      status: 2,
      stdout: '',
      stderr: `${older} is not up to date. Start the service once, which migrates it, and try again.\n`,
    })
    const damaged = tampered(hall.file, () => {})
    const bytes = readFileSync(damaged)
    const page = 4096 * Math.floor(bytes.indexOf('Elm Street') / 4096)
    bytes.fill(0x5a, page, page + 4096)
    writeFileSync(damaged, bytes)
    expect(run(damaged)).toEqual({
      status: 2,
      stdout: '',
      stderr: `${damaged} is damaged. Restore a backup.\n`,
    })
  })
})
