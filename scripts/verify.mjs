/** `npm run verify -- DATABASE_FILE`: says what in the file is not as it must be. Arguments go to the program. */
import { spawnSync } from 'node:child_process'
import path from 'node:path'
import { buildProgram, installPackages, requireNode, root } from './prepare.mjs'

requireNode()
installPackages()
buildProgram()

const program = path.join(root, 'dist', 'src', 'verify.js')
const result = spawnSync(process.execPath, [program, ...process.argv.slice(2)], {
  // npm goes to the root of the checkout; a path is meant from where the command was called.
  cwd: process.env.INIT_CWD ?? process.cwd(),
  stdio: 'inherit',
})
process.exit(result.status ?? 2)
