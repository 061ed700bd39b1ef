/**
 * A copy of a backup into the place of the database. The copy is made and looked through first, beside the database;
 * then the database gets a second name, and the copy takes its place in one step. Whenever that is cut off, the place
 * holds either the old database or the new one, whole.
 */
import { existsSync, renameSync, statSync } from 'node:fs'
import type { Instant } from '../domain/instant.ts'
import { InputFault } from '../plan-file/input-fault.ts'
import { bringCopyUpToDate } from '../store/bring-copy-up-to-date.ts'
import { copyDatabase } from '../store/copy-database.ts'
import { makeFolderFor } from '../store/open-sqlite-database.ts'
import { realPathOf } from '../store/real-path.ts'
import { takeDatabase } from '../store/take-database.ts'
import { flushFolderOf } from './flush.ts'
import { putAside } from './put-aside.ts'
import { type UnfinishedFile, unfinishedFile } from './unfinished-file.ts'

export interface RestoreAsked {
  /** The backup; it is only read. */
  readonly file: string
  /** The database of the service, which must not be running; need not be there. */
  readonly database: string
  readonly now: Instant
  /** Told, before the database is replaced, under which name it is kept. */
  onAside(aside: string): void
}

/**
 * @returns how large the database now is
 * @throws InputFault, DatabaseUnusable: the database is as it was
 */
export async function restoreBackup(asked: RestoreAsked): Promise<{ bytes: number }> {
  const { file, database } = asked
  if (!existsSync(file)) throw new InputFault(`${file} does not exist. Name a backup.`)
  makeFolderFor(database)
  const taken = takeDatabase(database, { alsoDamaged: true })
  try {
    const place = realPathOf(database)
    if (realPathOf(file) === place)
      throw new InputFault(`${file} is the database itself. Name a backup of it.`)
    // Whoever has taken the database is the only one to make it.
    const unfinished = unfinishedFile(`${place}.unfinished`)
    try {
      return await replace(place, unfinished, asked)
    } finally {
      unfinished.discard()
    }
  } finally {
    taken.release()
  }
}

async function replace(place: string, unfinished: UnfinishedFile, asked: RestoreAsked) {
  const { file, database, now, onAside } = asked
  const fault = await copyDatabase(file, unfinished.path)
  if (fault !== null) throw new InputFault(`${file} ${fault}. ${database} is as it was.`)
  bringCopyUpToDate(unfinished.path, file)
  unfinished.finish(place)
  const { size: bytes } = statSync(unfinished.path)
  const aside = putAside(place, now)
  if (aside !== null) onAside(aside)
  renameSync(unfinished.path, place)
  flushFolderOf(place)
  return { bytes }
}
