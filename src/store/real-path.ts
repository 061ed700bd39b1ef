/** Where a file really lies: the database engine puts its own files beside that, not beside a link to it. */
import { readlinkSync, realpathSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'

/**
 * @param file  need not be there; its folder must
 * @throws the error of the system when it cannot be followed
 */
export function realPathOf(file: string): string {
  const found = orNull(() => realpathSync(file), 'ENOENT')
  if (found !== null) return found
  // A link to what is not there yet. Links in a circle are told apart above: they are ELOOP.
  const target = orNull(() => readlinkSync(file), 'ENOENT', 'EINVAL')
  if (target !== null) return realPathOf(resolve(dirname(file), target))
  return join(realpathSync(dirname(resolve(file))), basename(file))
}

function orNull(path: () => string, ...codes: readonly string[]): string | null {
  try {
    return path()
  } catch (error) {
    if (error instanceof Error && 'code' in error && codes.includes(String(error.code))) return null
    throw error
  }
}
