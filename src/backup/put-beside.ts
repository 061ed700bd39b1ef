/** A second name for a file, never that of another one. */
import { copyFileSync, existsSync, linkSync, renameSync, rmSync } from 'node:fs'
import { flushFile } from './flush.ts'

/** Of file systems and systems on which a file has one name only. */
const noLinks: readonly string[] = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']

/**
 * Where files may have only one name, it is copied; the name is there only once the copy is whole.
 * @returns false: there is a file of that name, and it stays
 */
export function putBeside(file: string, name: string): boolean {
  try {
    linkSync(file, name)
    return true
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code === 'EEXIST') return false
    if (!noLinks.includes(code)) throw error
    return copyBeside(file, name)
  }
}

function copyBeside(file: string, name: string): boolean {
  if (existsSync(name)) return false
  const unfinished = `${name}.unfinished-${process.pid}`
  try {
    copyFileSync(file, unfinished)
    flushFile(unfinished)
    renameSync(unfinished, name)
    return true
  } finally {
    rmSync(unfinished, { force: true })
  }
}
