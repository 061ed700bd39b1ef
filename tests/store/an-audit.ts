/** An audit of two sites that take turns, and what hands past the service can do to it. */
import { copyFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { z } from 'zod'
import { SiteId } from '../../src/domain/ids.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Store } from '../../src/store/store.ts'
import { openStoredFile } from '../../src/store/stored-file.sqlite.ts'
import { type AuditChain, type AuditWalk, walkAuditChain } from '../../src/verify/walk-audit-chain.ts'
import { aFolder } from './a-database-file.ts'
import { renaming } from './a-renaming.ts'
import { aBooking, booked, founding } from './a-world.ts'

export const elmId = SiteId.parse('site_elm')

/** The row as the database has it, by the names of its columns. */
const Row = z.strictObject({
  sequence: z.number(),
  site_id: z.string(),
  at: z.number(),
  actor_id: z.string(),
  action: z.string(),
  reason: z.string().nullable(),
  planning_version: z.number(),
  effects: z.string(),
  previous_hash: z.string().nullable(),
  hash: z.string().nullable(),
})
export type AuditRow = z.infer<typeof Row>
export const auditColumns = Row.keyof().options

/** Seven entries, by turns of one site and the other. */
export async function anAuditOfTwoSites(file: string): Promise<Store> {
  const store = await openSqliteStore({ file })
  await store.commit(founding)
  await store.commit(renaming(elmId, 'Elm', null))
  await store.commit(booked([aBooking('dinner')]))
  await store.commit(renaming(elmId, 'Elm Row', 1))
  await store.commit(booked([aBooking('supper', { doors: 9 })], { planningVersionExpected: 2 }))
  await store.commit(renaming(elmId, 'Elm Street', 2))
  await store.commit(renaming(elmId, 'Elm Yard', 3))
  return store
}

/** A copy of a closed file with its guards taken off and something done to it. */
export function tampered(file: string, hands: (raw: Database.Database) => void): string {
  const copy = join(aFolder(), 'copy.sqlite')
  copyFileSync(file, copy)
  const raw = new Database(copy)
  try {
    raw.pragma('foreign_keys = OFF')
    for (const name of raw.prepare(`SELECT name FROM sqlite_master WHERE type = 'trigger'`).pluck().all())
      raw.exec(`DROP TRIGGER ${name}`)
    hands(raw)
  } finally {
    raw.close()
  }
  return copy
}

/** All rows, oldest first. */
export const auditRows = (raw: Database.Database): AuditRow[] =>
  z.array(Row).parse(raw.prepare('SELECT * FROM audit ORDER BY sequence').all())

export function walked(file: string, walk: AuditWalk = {}): AuditChain {
  const stored = openStoredFile(file)
  try {
    return walkAuditChain(stored, walk)
  } finally {
    stored.close()
  }
}
