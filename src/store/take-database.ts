/**
 * Who takes a database has it for himself: a service as long as it runs, a restore while it swaps the files. What is
 * held is an exclusive transaction on an empty file beside the database. The system ends it with the process, however
 * that ends, so nothing is left behind to be believed. The empty file stays: if it were deleted, one process could
 * hold the deleted file and another the new one.
 */
import { chownSync, closeSync, existsSync, openSync, readSync, statSync } from 'node:fs'
import Database from 'better-sqlite3'
import { DatabaseUnusable, refuseNoFile, unusable } from './open-sqlite-database.ts'
import { realPathOf } from './real-path.ts'

export interface TakenDatabase {
  release(): void
}

/** Two that try at the same moment can each be in the other's way for an instant. */
const TRY_MILLISECONDS = 1_000

/**
 * To be called before the file is opened: whoever opens first and takes then may have opened what a restore has just
 * put aside.
 * @param file  need not be there; its folder must
 * @param options.alsoDamaged  take it whatever is in it. Default: false
 * @throws DatabaseUnusable when somebody else has it, or it is no database
 */
export function takeDatabase(file: string, options: { readonly alsoDamaged?: boolean } = {}): TakenDatabase {
  refuseNoFile(file)
  if (!options.alsoDamaged) refuseOtherFormats(file)
  const beside = besidePath(file)
  try {
    const isNew = !existsSync(beside)
    const held = new Database(beside, { timeout: TRY_MILLISECONDS })
    if (isNew) giveToOwnerOf(file, beside)
    try {
      // Nothing is ever written, so there is nothing to undo either.
      held.pragma('journal_mode = MEMORY')
      held.exec('BEGIN EXCLUSIVE')
    } catch (error) {
      held.close()
      throw error
    }
    return { release: () => held.close() }
  } catch (error) {
    if (isBusy(error)) throw new DatabaseUnusable(`${file} ${inUse}`, { cause: error })
    throw unusable(error, file)
  }
}

const inUse =
  'is in use: a service runs on it, or a backup is being restored into it. ' +
  'Stop that first, or set DATABASE_FILE to another file.'

const isBusy = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY')

function besidePath(file: string): string {
  try {
    return `${realPathOf(file)}.in-use`
  } catch (error) {
    const why = error instanceof Error ? error.message : ''
    throw new DatabaseUnusable(`${file} cannot be opened: ${why}.`, { cause: error })
  }
}

/** The first bytes of every file of the engine: https://www.sqlite.org/fileformat.html, 1.3.1. */
const MAGIC = Buffer.from('SQLite format 3\0', 'latin1')

/** So that nothing is put beside a file that is no database. Missing and empty ones become databases. */
function refuseOtherFormats(file: string): void {
  if (!existsSync(file) || statSync(file).size === 0) return
  if (!firstBytes(file).equals(MAGIC)) {
    throw new DatabaseUnusable(`${file} is not a database. Name another database file, or restore a backup.`)
  }
}

function firstBytes(file: string): Buffer {
  const bytes = Buffer.alloc(MAGIC.length)
  try {
    const opened = openSync(file, 'r')
    try {
      readSync(opened, bytes, 0, bytes.length, 0)
    } finally {
      closeSync(opened)
    }
  } catch (error) {
    throw new DatabaseUnusable(
      `${file} cannot be opened. See that this user may read and write it and its folder.`,
      { cause: error },
    )
  }
  return bytes
}

/** A restore that an administrator runs must not shut the service out, which runs as another user. */
function giveToOwnerOf(file: string, beside: string): void {
  const owner = statSync(file, { throwIfNoEntry: false })
  if (owner && process.getuid?.() === 0) chownSync(beside, owner.uid, owner.gid)
}
