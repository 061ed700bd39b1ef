/** Opens the file, brings it up to date, and says in plain words what to do when that cannot be done. */
import { existsSync, mkdirSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import Database from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { linkEntries, teachAuditHash } from './audit-chain.sqlite.ts'
import { migrationsFolder, newestMigrationKnown } from './migrations-folder.ts'
import { AUDIT_KEEPS_VALUES, triggerStatements } from './triggers.sqlite.ts'

/** The file cannot be used; the message says why and what to do. */
export class DatabaseUnusable extends Error {
  override name = 'DatabaseUnusable'
}

export interface SqliteFile {
  /** A path, or `:memory:` for a database that ends with the process. */
  readonly file: string
  /** Never writes, and needs a file that is up to date. Default: false. */
  readonly readOnly?: boolean
  /** Bring the tables up to date first. Default: unless read-only. */
  readonly migrate?: boolean
  /** The folder with the migrations. Default: the program's own. */
  readonly migrations?: string
}

/** How long a statement waits for another process that is writing. */
const BUSY_MILLISECONDS = 5_000
const MAPPED_BYTES_MOST = 256 * 1024 * 1024
const LINKED_AT_ONCE_MOST = 1_000

/** @throws DatabaseUnusable */
export function openSqliteDatabase(options: SqliteFile): Database.Database {
  const readOnly = options.readOnly ?? false
  const migrations = options.migrations ?? migrationsFolder('sqlite')
  const raw = openFile(options.file, readOnly)
  try {
    raw.pragma('foreign_keys = OFF')
    teachAuditHash(raw)
    // A connection forgets its pages when another one has written; mapped, they are not copied anew each time.
    raw.pragma(`mmap_size = ${MAPPED_BYTES_MOST}`)
    if (!readOnly) {
      raw.pragma('journal_mode = WAL')
      raw.pragma('synchronous = FULL')
      // What is erased is overwritten where it stood: it costs no more pages than are written anyway.
      raw.pragma('secure_delete = FAST')
    }
    refuseForeignOrNewer(raw, options.file, migrations)
    if (!readOnly && (options.migrate ?? true)) bringUpToDate(raw, options.file, migrations)
    if (newestMigrationIn(raw) < newestMigrationKnown(migrations)) {
      throw new DatabaseUnusable(
        `${options.file} is not up to date. Start the service once, which migrates it, and try again.`,
      )
    }
    raw.pragma('foreign_keys = ON')
    return raw
  } catch (error) {
    raw.close()
    throw unusable(error, options.file)
  }
}

/**
 * Makes the folder that the file shall lie in, and those above it, where they are not there yet.
 * @throws DatabaseUnusable
 */
export function makeFolderFor(file: string): void {
  const folder = dirname(resolve(file))
  try {
    // One by one: where the system answers ENOENT for a folder that is there (/proc), `recursive` never comes back.
    for (const missing of foldersMissing(folder)) makeFolder(missing)
  } catch (error) {
    const code = systemCode(error)
    if (code === null) throw error
    const why = folderRefusedBecause(code)
    throw new DatabaseUnusable(
      `The folder ${folder} for the database cannot be made: ${why}. Name another database file.`,
      { cause: error },
    )
  }
}

/** From the outermost in. */
function foldersMissing(folder: string): string[] {
  const parent = dirname(folder)
  return existsSync(folder) || parent === folder ? [] : [...foldersMissing(parent), folder]
}

/** Another process that starts at the same time may have been faster. */
function makeFolder(folder: string): void {
  try {
    mkdirSync(folder)
  } catch (error) {
    if (systemCode(error) !== 'EEXIST' || !existsSync(folder)) throw error
  }
}

function folderRefusedBecause(code: string): string {
  if (code === 'ENOTDIR' || code === 'EEXIST') return 'a part of it is a file and no folder'
  if (code === 'EACCES' || code === 'EPERM') return 'this user may not make it'
  if (code === 'ENAMETOOLONG') return 'its name is too long'
  if (code === 'EROFS') return 'the disk is read-only'
  if (code === 'ENOSPC') return 'the disk is full'
  return `the system refuses it (${code})`
}

/** The code of an error of the operating system, such as ENOENT; null: it is another kind of error. */
const systemCode = (error: unknown): string | null =>
  error instanceof Error && 'code' in error && 'syscall' in error ? String(error.code) : null

/** When the newest migration that the file has seen was written; 0 for an empty file. */
export function newestMigrationIn(raw: Database.Database): number {
  const isMigrated = raw.prepare(`SELECT 1 FROM sqlite_master WHERE name = '__drizzle_migrations'`).get()
  if (!isMigrated) return 0
  return Number(raw.prepare('SELECT coalesce(max(created_at), 0) FROM __drizzle_migrations').pluck().get())
}

/** Opens it and looks at nothing in it. @throws DatabaseUnusable */
export function openFile(file: string, readOnly: boolean): Database.Database {
  if (file !== ':memory:') {
    const folder = dirname(resolve(file))
    if (!existsSync(folder)) {
      throw new DatabaseUnusable(
        `The folder ${folder} does not exist. Create it, or name another database file.`,
      )
    }
    refuseNoFile(file)
    if (readOnly && !existsSync(file)) {
      throw new DatabaseUnusable(
        `${file} does not exist. Start the service once, which creates it, and try again.`,
      )
    }
  }
  try {
    return new Database(file, { readonly: readOnly, timeout: BUSY_MILLISECONDS })
  } catch (error) {
    throw unusable(error, file)
  }
}

/**
 * A device, a pipe or a folder is no place for a database, even where the system lets it be opened.
 * @throws DatabaseUnusable
 */
export function refuseNoFile(file: string): void {
  try {
    const found = statSync(file, { throwIfNoEntry: false })
    if (!found || found.isFile()) return
  } catch (error) {
    if (systemCode(error) === null) throw error
    throw new DatabaseUnusable(`${file} ${cannotBeOpened}`, { cause: error })
  }
  throw new DatabaseUnusable(`${file} ${cannotBeOpened}`)
}

const cannotBeOpened =
  'cannot be opened. See that it is a file and that this user may read and write it and its folder.'

function refuseForeignOrNewer(raw: Database.Database, file: string, migrations: string): void {
  const tables = Number(raw.prepare(`SELECT count(*) FROM sqlite_master WHERE type = 'table'`).pluck().get())
  const newest = newestMigrationIn(raw)
  if (tables > 0 && newest === 0) {
    throw new DatabaseUnusable(`${file} belongs to another program. Name another database file.`)
  }
  if (newest > newestMigrationKnown(migrations)) {
    throw new DatabaseUnusable(
      `${file} was written by a newer version of this program. Install that version, or restore a backup from before.`,
    )
  }
}

/**
 * Foreign keys are off around the migration (the caller turned them off): a rebuild of a table drops it, and the drop
 * would cascade. The pragma does nothing inside the transaction that drizzle opens, so it has to be done out here.
 */
function bringUpToDate(raw: Database.Database, file: string, migrations: string): void {
  migrate(drizzle(raw, { casing: 'snake_case' }), { migrationsFolder: migrations })
  // Reading every row takes its time, so the file remembers up to which migration its references were found whole.
  const migrationsSeen = Number(raw.prepare('SELECT count(*) FROM __drizzle_migrations').pluck().get())
  if (raw.pragma('user_version', { simple: true }) !== migrationsSeen) {
    refuseDangling(raw, file)
    chainAudit(raw)
    raw.pragma(`user_version = ${migrationsSeen}`)
  }
  raw.transaction(() => putGuards(raw)).immediate()
}

function putGuards(raw: Database.Database): void {
  for (const statement of triggerStatements) raw.exec(statement)
}

/**
 * In pieces, so that a stop loses no more than one and the log stays short. Nobody sees the audit without its guards, and
 * with the last piece it has the one that keeps whoever writes in the chain.
 */
function chainAudit(raw: Database.Database): void {
  const linkPiece = raw.transaction((afterSequence: number) => {
    raw.exec(`DROP TRIGGER IF EXISTS ${AUDIT_KEEPS_VALUES}`)
    const linkedThrough = linkEntries(raw, afterSequence, LINKED_AT_ONCE_MOST)
    putGuards(raw)
    return linkedThrough
  })
  let linkedThrough: number | null = 0
  while (linkedThrough !== null) linkedThrough = linkPiece.immediate(linkedThrough)
}

function refuseDangling(raw: Database.Database, file: string): void {
  const dangling = raw.pragma('foreign_key_check')
  if (Array.isArray(dangling) && dangling.length > 0) {
    throw new DatabaseUnusable(
      `${file} has ${dangling.length} rows that refer to rows that are not there, for instance ` +
        `${JSON.stringify(dangling[0])}. Restore a backup from before the last upgrade.`,
    )
  }
}

/** @returns what to throw: DatabaseUnusable where whoever calls can mend it, else the error as it is */
export function unusable(error: unknown, file: string): unknown {
  if (error instanceof DatabaseUnusable || !(error instanceof Error)) return error
  const code = 'code' in error ? String(error.code) : ''
  const why = unusableBecause(code)
  return why === null ? error : new DatabaseUnusable(`${file} ${why}`, { cause: error })
}

function unusableBecause(code: string): string | null {
  if (code.startsWith('SQLITE_CANTOPEN')) return cannotBeOpened
  if (code === 'SQLITE_NOTADB') return 'is not a database. Name another database file, or restore a backup.'
  if (code.startsWith('SQLITE_CORRUPT')) return 'is damaged. Restore a backup.'
  if (code.startsWith('SQLITE_READONLY') || code === 'SQLITE_PERM') {
    return 'cannot be written. See that this user may write it and its folder.'
  }
  if (code.startsWith('SQLITE_BUSY')) {
    return 'is locked by another process. Stop the other process that has it open, and start again.'
  }
  if (code === 'SQLITE_FULL') return 'cannot be written: the disk is full.'
  if (code.startsWith('SQLITE_IOERR') || code === 'SQLITE_PROTOCOL' || code === 'SQLITE_NOLFS') {
    return `cannot be read or written there (${code}). Name a database file on a disk of this computer.`
  }
  return null
}
