/** `npm start`: everything from a fresh checkout to a running service. */
import { spawn } from 'node:child_process'
import path from 'node:path'
import { buildProgram, installPackages, requireNode, root } from './prepare.mjs'

requireNode()
installPackages()
buildProgram()

const service = spawn(process.execPath, [path.join(root, 'dist', 'src', 'main.js')], {
  cwd: root,
  stdio: 'inherit',
})
// The service stops by itself on these; this process only waits for it.
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => service.kill(signal))
service.on('exit', (code, signal) => process.exit(code ?? (signal ? 1 : 0)))
