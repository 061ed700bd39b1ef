/** Loaded before a command: the file system gives a file one name only, as on many a memory stick. */
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

fs.linkSync = () => {
  throw Object.assign(new Error('EPERM: operation not permitted, link'), { code: 'EPERM', syscall: 'link' })
}
syncBuiltinESMExports()
