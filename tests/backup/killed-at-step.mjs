/**
 * Loaded before `restore`: kills it without warning just before its n-th step from when the copy is whole; n is told.
 * Until then nothing but the copy is written.
 */
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import Database from 'better-sqlite3'

const last = Number(process.env.TOLD)
let steps = 0

function counted(whose, name, isFirst = () => steps > 0) {
  const step = whose[name]
  whose[name] = function counting(...given) {
    if (isFirst()) steps += 1
    if (steps === last) process.kill(process.pid, 'SIGKILL')
    return step.apply(this, given)
  }
}

counted(fs, 'fsyncSync', () => true)
for (const name of ['linkSync', 'renameSync', 'rmSync']) counted(fs, name)
for (const name of ['close', 'pragma']) counted(Database.prototype, name)
syncBuiltinESMExports()
