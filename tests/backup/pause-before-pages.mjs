/** Loaded before `backup`: it says so when the first page is about to be copied, and goes on once it is told a line. */
import { readSync, writeSync } from 'node:fs'
import Database from 'better-sqlite3'

const { backup } = Database.prototype
Database.prototype.backup = function pausing(file, { progress }) {
  let isFirst = true
  return backup.call(this, file, {
    progress: (pages) => {
      if (isFirst) {
        isFirst = false
        writeSync(1, 'about to copy\n')
        readSync(0, Buffer.alloc(1))
      }
      return progress(pages)
    },
  })
}
