/** What has been written must be on the disk before the next step relies on it, should the power fail. */
import { closeSync, fsyncSync, openSync } from 'node:fs'
import { dirname } from 'node:path'

export const flushFile = (file: string): void => flush(file, 'r+')

/** That a file was made, moved or deleted is written in its folder. Windows writes that by itself. */
export function flushFolderOf(file: string): void {
  if (process.platform !== 'win32') flush(dirname(file), 'r')
}

function flush(path: string, flags: 'r' | 'r+'): void {
  const opened = openSync(path, flags)
  try {
    fsyncSync(opened)
  } finally {
    closeSync(opened)
  }
}
