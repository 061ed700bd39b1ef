/** A database, and a backup of it from before its last booking. */
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs'
import path from 'node:path'
import Database from 'better-sqlite3'
import { backUp } from '../../src/backup/back-up.ts'
import { aFolder } from '../store/a-database-file.ts'
import { aBooking, aStore, booked } from '../store/a-world.ts'

export interface TwoStates {
  /** As a killed service leaves it: the last booking is in the log only. */
  readonly database: string
  readonly backup: string
}

/** @returns both in folders of their own */
export async function twoStates(): Promise<TwoStates> {
  const folder = aFolder()
  const live = path.join(folder, 'live', 'hall.sqlite')
  const backup = path.join(folder, 'backups', 'monday.sqlite')
  for (const file of [live, backup]) mkdirSync(path.dirname(file))
  const store = await aStore({ file: live })
  await store.commit(booked([aBooking('dinner')]))
  await backUp({ database: live, file: backup, overwrite: false })
  await store.commit(booked([aBooking('supper', { doors: 24 })], { planningVersionExpected: 2 }))
  const database = path.join(folder, 'data', 'hall.sqlite')
  copyState(live, database)
  store.close()
  return { database, backup }
}

/** With the log, and without its index: that is made anew from the log. */
export function copyState(from: string, to: string): void {
  mkdirSync(path.dirname(to), { recursive: true })
  for (const ending of ['', '-wal']) if (existsSync(from + ending)) copyFileSync(from + ending, to + ending)
}

/** What somebody finds who opens it now; `null` when it is not there, and what is wrong when it is not whole. */
export function bookingsOf(file: string): readonly unknown[] | string | null {
  if (!existsSync(file)) return null
  const raw = new Database(file)
  try {
    const found = raw.pragma('integrity_check', { simple: true })
    if (found !== 'ok') return String(found)
    return raw.prepare('SELECT id FROM booking ORDER BY id').pluck().all()
  } finally {
    raw.close()
  }
}

/**
 * Everything in the folder of a file, byte for byte. Of what is taken only the size: whoever opens a file and closes it
 * again loses every lock that his process has on it.
 */
export const bytesBeside = (file: string): ReadonlyMap<string, string> =>
  new Map(
    namesBeside(file).map((name) => {
      const beside = path.join(path.dirname(file), name)
      return [
        name,
        name.endsWith('.in-use') ? `${statSync(beside).size} bytes` : readFileSync(beside, 'base64'),
      ]
    }),
  )

export const namesBeside = (file: string): readonly string[] => readdirSync(path.dirname(file)).sort()
