/** A database file of its own for a test, gone when the test ends. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type Database from 'better-sqlite3'
import { onTestFinished } from 'vitest'
import { openSqliteDatabase } from '../../src/store/open-sqlite-database.ts'
import type { Store } from '../../src/store/store.ts'
import { aStore } from './a-world.ts'

/** An empty folder. */
export function aFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'turnwright-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** The hall in a file, with a second connection past the store: what another program could do to it. */
export async function aStoreOnFile(): Promise<{ file: string; store: Store; raw: Database.Database }> {
  const file = join(aFolder(), 'hall.sqlite')
  const store = await aStore({ file })
  const raw = openSqliteDatabase({ file, migrate: false })
  onTestFinished(() => {
    raw.close()
    store.close()
  })
  return { file, store, raw }
}
