/** A copy of a database as it is at one moment, also while others write to it: one file that needs none beside it. */
import Database from 'better-sqlite3'
import { openFile, unusable } from './open-sqlite-database.ts'
import { damageIn, unsoundBecause } from './sound-database.ts'

/** Between one lot and the next the process can be told to stop. */
const PAGES_AT_ONCE = 2_000

/**
 * Copies, and then looks all through the copy.
 * @param from  is opened read-only
 * @param to  must not be there; may be there afterwards, whatever comes of it
 * @returns null: all of `from` is in `to`, and that is sound; otherwise what is wrong, in words that follow the name of `from`
 * @throws DatabaseUnusable when one cannot be read or the other cannot be written
 */
export async function copyDatabase(from: string, to: string): Promise<string | null> {
  try {
    await copyPages(from, to)
    return lookThrough(to)
  } catch (error) {
    const damage = damageIn(error)
    if (damage === null) throw unusable(error, to)
    return damage
  }
}

async function copyPages(from: string, to: string): Promise<void> {
  const source = openFile(from, true)
  try {
    beginToRead(source, from)
    await source.backup(to, { progress: () => PAGES_AT_ONCE })
  } finally {
    source.close()
  }
}

/** Kept open, it keeps the moment: otherwise the copy would begin anew each time somebody else commits. */
function beginToRead(source: Database.Database, from: string): void {
  try {
    source.exec('BEGIN')
    source.prepare('SELECT count(*) FROM sqlite_master').get()
  } catch (error) {
    throw damageIn(error) === null ? unusable(error, from) : error
  }
}

function lookThrough(copy: string): string | null {
  const raw = new Database(copy)
  try {
    // In write-ahead mode it could be read only where other files can be made beside it.
    raw.pragma('journal_mode = DELETE')
    return unsoundBecause(raw)
  } finally {
    raw.close()
  }
}
