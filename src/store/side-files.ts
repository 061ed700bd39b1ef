/**
 * The files that the engine keeps beside a database while it is open or after it was killed: without them it may lack
 * the last commits, and beside another database they would be taken for that one's.
 */
import { existsSync } from 'node:fs'

/** Write-ahead log, its index, rollback journal: https://www.sqlite.org/tempfiles.html, 2.1 to 2.3. */
export const sideFileEndings: readonly string[] = ['-wal', '-shm', '-journal']

/** @returns the endings of those that are there */
export const sideFilesOf = (file: string): readonly string[] =>
  sideFileEndings.filter((ending) => existsSync(file + ending))
