/** Brings a checkout to where it can run: packages installed, program built. What has not changed is not done again. */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..')

const NODE_MAJOR_LEAST = 20

export function requireNode() {
  const major = Number(process.versions.node.split('.')[0])
  if (major >= NODE_MAJOR_LEAST) return
  console.error(`Turnwright needs Node ${NODE_MAJOR_LEAST} or later; this is ${process.version}.`)
  process.exit(1)
}

/** Installs exactly what package-lock.json says, unless that was done already with this Node. */
export function installPackages() {
  const stamp = path.join(root, 'node_modules', '.turnwright-installed')
  const wanted = hashOf(['package-lock.json'], process.version)
  if (isStamped(stamp, wanted)) return
  console.error('Installing packages (the database is compiled: one to two minutes the first time) …')
  run('npm', ['ci', '--no-fund', '--no-audit', '--loglevel=error'])
  writeFileSync(stamp, wanted)
}

const builtStamp = path.join(root, 'dist', '.turnwright-built')
const builtFrom = () =>
  hashOf(['src', 'seed', 'tsconfig.json', 'tsconfig.build.json', 'package-lock.json'], process.version)

/** Whether dist is from these sources. */
export const isBuilt = () => isStamped(builtStamp, builtFrom())

/** Compiles src and seed into dist, unless dist is from these sources. */
export function buildProgram() {
  if (isBuilt()) return
  const wanted = builtFrom()
  console.error('Building …')
  rmSync(path.join(root, 'dist'), { recursive: true, force: true })
  run(process.execPath, [path.join('node_modules', 'typescript', 'bin', 'tsc'), '-p', 'tsconfig.build.json'])
  mkdirSync(path.join(root, 'dist'), { recursive: true })
  writeFileSync(builtStamp, wanted)
}

function run(command, args) {
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  })
  if (result.status === 0) return
  console.error(
    `\n"${command} ${args.join(' ')}" failed; nothing was started. Mend what it says above and try again.`,
  )
  process.exit(result.status ?? 1)
}

const isStamped = (stamp, wanted) => existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted

function hashOf(entries, ...more) {
  const hash = createHash('sha256')
  for (const file of entries.flatMap((entry) => filesIn(path.join(root, entry))).sort()) {
    hash.update(path.relative(root, file)).update('\0').update(readFileSync(file)).update('\0')
  }
  for (const text of more) hash.update(text)
  return hash.digest('hex')
}

function filesIn(entry) {
  if (!statSync(entry).isDirectory()) return [entry]
  return readdirSync(entry, { withFileTypes: true }).flatMap((child) => filesIn(path.join(entry, child.name)))
}
