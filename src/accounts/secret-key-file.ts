/** The key that secrets are hashed under, in a file of its own beside the database: whoever has a copy of one lacks the other. */
import { randomBytes } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'

const KEY_BYTES = 32

/** Its file has more or less than a key in it. */
export class KeyUnusable extends Error {
  override name = 'KeyUnusable'
}

export const keyFileOf = (databaseFile: string): string => `${databaseFile}.key`

/**
 * Made on first use, for its owner alone to read.
 * @throws KeyUnusable when the file does not hold a key
 */
export function secretKeyIn(file: string): Buffer {
  if (!existsSync(file)) {
    // `wx`: when two begin at once, one of them makes it and the other reads it.
    try {
      writeFileSync(file, `${randomBytes(KEY_BYTES).toString('hex')}\n`, { mode: 0o600, flag: 'wx' })
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error
    }
  }
  const text = readFileSync(file, 'utf8').trim()
  if (!/^[0-9a-f]{64}$/.test(text))
    throw new KeyUnusable(
      `${file} does not hold a key of ${KEY_BYTES} bytes. Put the right one back; or remove it, and everybody signs in again and makes new tokens.`,
    )
  return Buffer.from(text, 'hex')
}
