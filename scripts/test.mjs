/** `npm test`: everything from a fresh checkout to a tested one. Arguments go to vitest. */
import { spawnSync } from 'node:child_process'
import path from 'node:path'
import { buildProgram, installPackages, requireNode, root } from './prepare.mjs'

requireNode()
installPackages()
// Some tests start the program as it ships.
buildProgram()

const vitest = path.join(root, 'node_modules', 'vitest', 'vitest.mjs')
const result = spawnSync(process.execPath, [vitest, 'run', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
})
process.exit(result.status ?? 1)
