/** Runs a command that is a program of its own, with the arguments that this one was called with. */
import { spawnSync } from 'node:child_process'
import path from 'node:path'
import { buildProgram, installPackages, requireNode, root } from './prepare.mjs'

/** npm goes to the root of the checkout; a path is meant from where the command was called. */
const calledFrom = process.env.INIT_CWD ?? process.cwd()

/** One that ships. @param {string} name  of its file in src, without the ending */
export function runBuilt(name) {
  prepareBuilt()
  run([builtFile(name), ...process.argv.slice(2)], calledFrom)
}

/**
 * One that ships and reads the settings of the service: they are meant from the root, as `npm start` takes them, while
 * the files it is called with are meant from where it was called. None of its options takes a value.
 * @param {string} name  of its file in src, without the ending
 */
export function runBuiltBesideService(name) {
  prepareBuilt()
  const given = process.argv
    .slice(2)
    .map((argument) =>
      argument === '' || argument.startsWith('-') ? argument : path.resolve(calledFrom, argument),
    )
  run([builtFile(name), ...given], root)
}

function prepareBuilt() {
  requireNode()
  installPackages()
  buildProgram()
}

const builtFile = (name) => path.join(root, 'dist', 'src', `${name}.js`)

/** One that is run from its source. @param {string} file  from the root of the checkout */
export function runSource(file) {
  requireNode()
  installPackages()
  run(['--import', import.meta.resolve('tsx'), path.join(root, file), ...process.argv.slice(2)], calledFrom)
}

/** Ends as the program ends; with 2 when it could not be run. */
function run(nodeArguments, folder) {
  const result = spawnSync(process.execPath, nodeArguments, { cwd: folder, stdio: 'inherit' })
  process.exit(result.status ?? 2)
}
