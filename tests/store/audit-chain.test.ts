/** How the audit becomes a chain: commit by commit, for entries of before, and when several write at once. */
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import Database from 'better-sqlite3'
import { describe, expect, onTestFinished, test } from 'vitest'
import { linkEntries, teachAuditHash } from '../../src/store/audit-chain.sqlite.ts'
import { auditHash } from '../../src/store/audit-hash.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { Conflict } from '../../src/store/store.ts'
import { aFolder, aStoreOnFile } from './a-database-file.ts'
import { aFileOfBefore } from './a-file-of-before.ts'
import { renaming } from './a-renaming.ts'
import { aBooking, booked, siteId } from './a-world.ts'
import { type AuditRow, anAuditOfTwoSites, auditRows, elmId, walked } from './an-audit.ts'

const firstPage = { limit: 100, after: null }

/** The hash as the README says that anybody can reckon it. */
function hashByHand(row: AuditRow): string {
  const { sequence, site_id, at, actor_id, action, reason, planning_version, effects, previous_hash } = row
  const line = [sequence, site_id, at, actor_id, action, reason, planning_version, previous_hash]
  return createHash('sha256')
    .update(`${JSON.stringify(line)}\n${effects}`)
    .digest('hex')
}

function rowsOf(file: string): AuditRow[] {
  const raw = new Database(file, { readonly: true })
  try {
    return auditRows(raw)
  } finally {
    raw.close()
  }
}

describe('each entry of the audit', () => {
  test('has the hash of its own text and that of the entry before it, across sites', async () => {
    const file = join(aFolder(), 'hall.sqlite')
    const store = await anAuditOfTwoSites(file)
    const ofOne = (await store.audit(siteId, firstPage)).items
    const ofOther = (await store.audit(elmId, firstPage)).items
    store.close()
    const rows = rowsOf(file)
    expect(rows.map(({ sequence }) => sequence)).toEqual([1, 2, 3, 4, 5, 6, 7])
    expect(rows.map(({ hash }) => hash)).toEqual(rows.map(hashByHand))
    expect(rows.map(({ previous_hash }) => previous_hash)).toEqual([
      null,
      ...rows.slice(0, -1).map(({ hash }) => hash),
    ])
    const told = [...ofOne, ...ofOther].sort((a, b) => a.sequence - b.sequence)
    expect(told.map(({ previousHash, hash }) => [previousHash, hash])).toEqual(
      rows.map(({ previous_hash, hash }) => [previous_hash, hash]),
    )
    const head = rows.at(-1)?.hash
    expect(walked(file)).toEqual({ entries: 7, head, notedSequence: null, fault: null })
    for (const entriesAPage of [1, 2, 6, 7, 8]) expect(walked(file, { entriesAPage }).head).toBe(head)
  })

  test('is hashed the same everywhere, whatever stands in a reason', () => {
    const content = {
      sequence: 1,
      siteId: 'site_elm',
      at: 1_795_262_400_000,
      actorId: 'actor_desk',
      action: 'add-site',
      reason: 'asked "twice", at the dé\u0001sk',
      planningVersion: 1,
      effects: '[]',
      previousHash: null,
    }
    // Reckoned once with another language's SHA-256 over the two lines as they are described.
    expect(auditHash(content)).toBe('a1aa79ef5006e8586950ee1b2b89e0882de3690b46f7fd765b7d74bd625404ef')
  })

  test('keeps its place when a commit is undone: the next one takes it', async () => {
    const { file, store } = await aStoreOnFile()
    await store.commit(booked([aBooking('dinner')]))
    const second = booked([aBooking('late', { doors: 1 })], { planningVersionExpected: 2 })
    await expect(store.commit(second)).rejects.toThrow(Conflict)
    await store.commit(renaming(elmId, 'Elm', null))
    expect(walked(file)).toMatchObject({ entries: 3, fault: null })
  })

  test('is refused by the database when it is not linked, or not to the last one', async () => {
    const { file, raw } = await aStoreOnFile()
    const add = (columns: string, values: string) => () =>
      raw
        .prepare(
          `INSERT INTO audit (site_id, at, actor_id, action, planning_version, effects${columns})
           VALUES ('${siteId}', 1, 'actor_x', 'x', 1, '[]'${values})`,
        )
        .run()
    expect(add('', '')).toThrow('audit_is_chained')
    expect(add(', hash', `, 'ab'`)).toThrow('audit_is_chained')
    expect(add(', hash, previous_hash', `, 'ab', 'cd'`)).toThrow('audit_is_chained')
    expect(walked(file)).toMatchObject({ entries: 1, fault: null })
  })
})

/** A file of the version before there were hashes, with what the version before that one had written. */
function aFileWithoutHashes(tag = '0002_the-decision-whole') {
  const { file, raw } = aFileOfBefore(tag)
  const rows = readFileSync(new URL('rows-of-before-0001.sql', import.meta.url), 'utf8')
  raw.transaction(() => raw.exec(rows)).immediate()
  return { file, raw }
}

describe('a file from before there were hashes', () => {
  test('is linked when it is opened, says the same as before, and is gone on with', async () => {
    const { file, raw } = aFileWithoutHashes()
    const before = raw.prepare('SELECT * FROM audit ORDER BY sequence').all()
    raw.close()
    const store = await openSqliteStore({ file })
    onTestFinished(() => store.close())
    const rows = rowsOf(file)
    expect(rows).toMatchObject(before)
    expect(rows.map(({ hash }) => hash)).toEqual(rows.map(hashByHand))
    expect(walked(file)).toMatchObject({ entries: 8, fault: null })
    const commit = booked([aBooking('late', { doors: 80 })], { planningVersionExpected: 7 })
    await store.commit(commit)
    expect(walked(file)).toMatchObject({ entries: 9, fault: null })
  })

  test('keeps its guards: what was linked cannot be changed', async () => {
    const { file, raw } = aFileWithoutHashes()
    raw.close()
    const store = await openSqliteStore({ file })
    store.close()
    const after = new Database(file)
    onTestFinished(() => {
      after.close()
    })
    expect(() => after.exec(`UPDATE audit SET reason = 'other'`)).toThrow('audit_is_append_only')
  })

  test('is linked in pieces of any size, and gone on with after a stop', async () => {
    const { file: whole, raw: other } = aFileWithoutHashes()
    other.close()
    const atOnce = await openSqliteStore({ file: whole })
    atOnce.close()

    const { file, raw } = aFileWithoutHashes('0004_accounts')
    raw.exec('DROP TRIGGER audit_keeps_values')
    teachAuditHash(raw)
    expect(linkEntries(raw, 0, 2)).toBe(2)
    expect(linkEntries(raw, 2, 3)).toBe(5)
    // Stopped here: the file has not been told that it is linked.
    raw.pragma('user_version = 3')
    raw.close()
    expect(walked(file)).toMatchObject({ entries: 5, fault: { sequence: 6, what: 'has no hash' } })
    const store = await openSqliteStore({ file })
    store.close()
    expect(rowsOf(file)).toEqual(rowsOf(whole))
    expect(walked(file)).toMatchObject({ entries: 8, fault: null })
  })

  test('has nothing to be linked where nothing is waiting', () => {
    const { raw } = aFileWithoutHashes('0003_the-audit-is-a-chain')
    raw.exec('DROP TRIGGER audit_keeps_values')
    teachAuditHash(raw)
    expect(linkEntries(raw, 0, 8)).toBe(8)
    expect(linkEntries(raw, 8, 8)).toBeNull()
    expect(linkEntries(raw, 0, 8)).toBeNull()
    raw.close()
  })
})

describe('two who write at once', () => {
  test('make one chain when their commits lie between each other', async () => {
    const { file, store } = await aStoreOnFile()
    const other = await openSqliteStore({ file })
    onTestFinished(() => other.close())
    await other.commit(renaming(elmId, 'Elm', null))
    for (let version = 1; version <= 20; version++) {
      await Promise.all([
        store.commit(renaming(siteId, `Larch ${version}`, version)),
        other.commit(renaming(elmId, `Elm ${version}`, version)),
      ])
    }
    expect(walked(file)).toMatchObject({ entries: 42, fault: null })
  })

  test('make one chain from two processes', async () => {
    const file = join(aFolder(), 'hall.sqlite')
    const made = await openSqliteStore({ file })
    made.close()
    const script = fileURLToPath(new URL('./an-audit-writer.ts', import.meta.url))
    const writers = ['site_oak', 'site_ash'].map((id) => {
      const writer = spawn(process.execPath, ['--import', 'tsx', script, file, id, '40'], {
        stdio: ['pipe', 'pipe', 'inherit'],
      })
      return { writer, ended: once(writer, 'exit'), ready: once(writer.stdout, 'data') }
    })
    for (const { ready } of writers) expect(String(await ready)).toBe('ready\n')
    for (const { writer } of writers) writer.stdin.end('go\n')
    for (const { ended } of writers) expect(await ended).toEqual([0, null])
    expect(walked(file)).toMatchObject({ entries: 82, fault: null })
  })
})
