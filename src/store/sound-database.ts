/** Whether a database file is whole, and whose it is; faults are words that follow the name of the file. */
import type Database from 'better-sqlite3'
import { z } from 'zod'
import { counted } from '../scheduler/wording/counted.ts'
import { newestMigrationIn } from './open-sqlite-database.ts'

const Found = z.string()

/**
 * Reads all of it, so it takes a while with a large one.
 * @returns the first fault; null: every page and index is as the engine wants it, no row refers to one that is not
 *          there, and it is a database of this program, of whichever version
 * @throws the error of the engine, which can be the fault itself: `damageIn`
 */
export function unsoundBecause(raw: Database.Database): string | null {
  const found = Found.parse(raw.pragma('integrity_check(1)', { simple: true }))
  if (found !== 'ok') return `is damaged: ${found.replaceAll(/\s+/g, ' ')}`
  const dangling = Number(raw.prepare('SELECT count(*) FROM pragma_foreign_key_check()').pluck().get())
  if (dangling > 0) return `has ${counted(dangling, 'row')} that refer to rows that are not there`
  if (newestMigrationIn(raw) > 0) return null
  return isOfAnotherProgram(raw) ? 'belongs to another program' : 'is empty'
}

/** An empty one is nobody's. */
export function isOfAnotherProgram(raw: Database.Database): boolean {
  const tables = Number(raw.prepare(`SELECT count(*) FROM sqlite_master WHERE type = 'table'`).pluck().get())
  return tables > 0 && newestMigrationIn(raw) === 0
}

/** @returns null: the error says nothing against what is in the file */
export function damageIn(error: unknown): string | null {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  if (code === 'SQLITE_NOTADB') return 'is not a database'
  if (code.startsWith('SQLITE_CORRUPT')) return 'is damaged'
  return null
}
