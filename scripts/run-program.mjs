/** Runs a command that is a program of its own, with the arguments that this one was called with. */
import { spawnSync } from 'node:child_process'
import path from 'node:path'
import { buildProgram, installPackages, requireNode, root } from './prepare.mjs'

/** One that ships. @param {string} name  of its file in src, without the ending */
export function runBuilt(name) {
  requireNode()
  installPackages()
  buildProgram()
  run([path.join(root, 'dist', 'src', `${name}.js`)])
}

/** One that is run from its source. @param {string} file  from the root of the checkout */
export function runSource(file) {
  requireNode()
  installPackages()
  run(['--import', import.meta.resolve('tsx'), path.join(root, file)])
}

/** Ends as the program ends; with 2 when it could not be run. */
function run(nodeArguments) {
  const result = spawnSync(process.execPath, [...nodeArguments, ...process.argv.slice(2)], {
    // npm goes to the root of the checkout; a path is meant from where the command was called.
    cwd: process.env.INIT_CWD ?? process.cwd(),
    stdio: 'inherit',
  })
  process.exit(result.status ?? 2)
}
