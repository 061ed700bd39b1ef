/** Brings everything of a database into its one file, so that it can be moved or replaced in one step. */
import { existsSync } from 'node:fs'
import type Database from 'better-sqlite3'
import { DatabaseUnusable, openFile, unusable } from './open-sqlite-database.ts'
import { sideFilesOf } from './side-files.ts'
import { damageIn, isOfAnotherProgram } from './sound-database.ts'

/**
 * What a killed service left in the log goes into the file, and the log is deleted. Nothing of what is stored changes;
 * cut off, it is done again by whoever opens the file next.
 * @param file  where the database really lies
 * @returns false: that cannot be done, since it is not there or is damaged. Then it is as it was, with its side files
 * @throws DatabaseUnusable when it is that of another program or open in one, or cannot be written
 */
export function closeLog(file: string): boolean {
  if (!existsSync(file)) return false
  try {
    // Opened to write, what is damaged would be written to.
    refuseDamaged(file)
    const raw = openFile(file, false)
    try {
      if (isOfAnotherProgram(raw)) {
        throw new DatabaseUnusable(`${file} belongs to another program. Name another database file.`)
      }
      leaveWriteAheadMode(raw, file)
    } finally {
      raw.close()
    }
  } catch (error) {
    if (damageIn(error) !== null) return false
    throw unusable(error, file)
  }
  // Whoever has just opened it has them open too, and would go on with them beside another file.
  if (sideFilesOf(file).length > 0) throw openElsewhere(file)
  return true
}

/** @throws the error of the engine */
function refuseDamaged(file: string): void {
  const raw = openFile(file, true)
  try {
    raw.prepare('SELECT count(*) FROM sqlite_master').get()
  } catch (error) {
    // Only who may write can undo what a killed process had begun.
    if (codeOf(error) !== 'SQLITE_READONLY_ROLLBACK') throw error
  } finally {
    raw.close()
  }
}

/** The engine leaves this mode only for who has the file alone. https://www.sqlite.org/wal.html, 4. */
function leaveWriteAheadMode(raw: Database.Database, file: string): void {
  try {
    raw.pragma('busy_timeout = 0')
    if (raw.pragma('journal_mode = DELETE', { simple: true }) === 'delete') return
  } catch (error) {
    if (!codeOf(error).startsWith('SQLITE_BUSY')) throw error
  }
  throw openElsewhere(file)
}

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : ''

const openElsewhere = (file: string): DatabaseUnusable =>
  new DatabaseUnusable(`${file} is open in another program. Close it there, and try again.`)
