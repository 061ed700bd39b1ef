/** A service as it ships, in a process of its own, on a database of its own. Build first: it runs what is in dist. */
import { type ChildProcess, spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { createServer } from 'node:net'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { letSignIn } from './signed-in.ts'

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..')

export interface LocalService {
  readonly url: string
  readonly process: ChildProcess
  /** From the start of the process until it said it was ready. */
  readonly readyMilliseconds: number
  /** What the system holds in memory for the process. */
  residentMegabytes(): number
  stop(): Promise<void>
}

export async function localService(databaseFile: string): Promise<LocalService> {
  await letSignIn(databaseFile)
  return started([path.join(root, 'dist', 'src', 'main.js')], '/readyz', {
    DATABASE_FILE: databaseFile,
    DEMO: 'off',
    REQUESTS_PER_MINUTE: '9999999',
  })
}

/** The measure: one fastify handler that validates a small body and inserts a row, with the same database settings. */
export async function bareService(databaseFile: string): Promise<LocalService> {
  return started(['--import', 'tsx', path.join(root, 'bench', 'bare-handler.ts')], '/ready', {
    DATABASE_FILE: databaseFile,
  })
}

async function started(args: readonly string[], readyPath: string, settings: Record<string, string>) {
  const port = await freePort()
  const url = `http://127.0.0.1:${port}`
  const began = performance.now()
  const child = spawn(process.execPath, [...args], {
    cwd: root,
    env: { ...process.env, ...settings, PORT: String(port), LOG_LEVEL: 'error' },
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  for (;;) {
    if (child.exitCode !== null)
      throw new Error(`${args.at(-1)} ended with ${child.exitCode} before it was ready`)
    const answer = await fetch(url + readyPath).catch(() => null)
    await answer?.body?.cancel()
    if (answer?.status === 200) break
    if (performance.now() - began > 60_000) throw new Error(`${args.at(-1)} was not ready within a minute`)
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
  return {
    url,
    process: child,
    readyMilliseconds: performance.now() - began,
    residentMegabytes: () => residentMegabytes(child.pid ?? 0),
    stop: () =>
      new Promise<void>((resolve) => {
        child.on('exit', () => resolve())
        child.kill('SIGTERM')
      }),
  }
}

/** From the kernel (Linux); NaN elsewhere. */
function residentMegabytes(pid: number): number {
  try {
    const kilobytes = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]
    return Number(kilobytes) / 1024
  } catch {
    return Number.NaN
  }
}

const freePort = () =>
  new Promise<number>((resolve, reject) => {
    const server = createServer()
    server.on('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() =>
        address && typeof address === 'object' ? resolve(address.port) : reject(new Error('no port')),
      )
    })
  })
