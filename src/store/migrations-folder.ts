/** The folder with the generated SQL: beside `src` when run from source, above `dist` when compiled. */
import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'

const LEVELS_MOST = 6

const Journal = z.object({ entries: z.array(z.object({ when: z.int(), tag: z.string() })) })

/** @throws Error when no folder above this file has `migrations/<database>` */
export function migrationsFolder(database: 'sqlite'): string {
  let folder = dirname(fileURLToPath(import.meta.url))
  for (let level = 0; level < LEVELS_MOST; level++) {
    const candidate = join(folder, 'migrations', database)
    if (existsSync(join(candidate, 'meta', '_journal.json'))) return candidate
    folder = dirname(folder)
  }
  throw new Error(`The folder migrations/${database} is missing: the program is not completely installed.`)
}

/** When the newest migration this program knows was written: drizzle numbers migrations by that moment. */
export function newestMigrationKnown(folder: string): number {
  const journal = Journal.parse(JSON.parse(readFileSync(join(folder, 'meta', '_journal.json'), 'utf8')))
  return Math.max(0, ...journal.entries.map((entry) => entry.when))
}
