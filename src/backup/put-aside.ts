/** Keeps the database that a restore is about to replace, under a name that says since when it is no longer used. */
import { existsSync, renameSync } from 'node:fs'
import type { Instant } from '../domain/instant.ts'
import { InputFault } from '../plan-file/input-fault.ts'
import { isoInZone } from '../scheduler/timeline/wall-time.ts'
import { closeLog } from '../store/close-log.ts'
import { sideFilesOf } from '../store/side-files.ts'
import { flushFolderOf } from './flush.ts'
import { putBeside } from './put-beside.ts'

/** Several restores within a second. */
const NAMES_MOST = 100

/**
 * The database stays where it is as well: it is replaced in one step, and until then it is whole. One that is damaged
 * is kept as it is, with what the engine has beside it, which must not be found beside the new one.
 * @param database  where it really lies; taken by the caller
 * @returns under which name it is kept; null: there was none
 * @throws DatabaseUnusable when another program has it open
 */
export function putAside(database: string, now: Instant): string | null {
  const isWhole = closeLog(database)
  const sideFiles = isWhole ? [] : sideFilesOf(database)
  const isThere = existsSync(database)
  if (!isThere && sideFiles.length === 0) return null
  const aside = freeName(database, now, (name) => !isThere || putBeside(database, name))
  for (const ending of sideFiles) renameSync(database + ending, aside + ending)
  flushFolderOf(database)
  return aside
}

/** @param take  false: the name is taken */
function freeName(database: string, now: Instant, take: (name: string) => boolean): string {
  // The basic format of ISO 8601 to the second: not every system takes colons in names.
  const moment = isoInZone(now, 'UTC').replaceAll(/[-:]|\.\d+/g, '')
  for (let number = 1; number <= NAMES_MOST; number += 1) {
    const name = `${database}.before-${moment}${number === 1 ? '' : `-${number}`}`
    if (sideFilesOf(name).length === 0 && take(name)) return name
  }
  throw new InputFault(
    `There are ${NAMES_MOST} files like ${database}.before-${moment}. Try again in a second.`,
  )
}
