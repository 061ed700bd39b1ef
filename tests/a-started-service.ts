/** The program as it ships, in a process of its own on a database of its own; stopped when the test ends. */
import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..')

export interface StartedService {
  readonly url: string
  readonly folder: string
  readonly process: ChildProcess
  /** Everything it has printed so far. */
  output(): string
  /** Waits until it has printed this. */
  says(words: string): Promise<void>
  /** Sends SIGTERM and waits. @returns the exit code, null when it had to be killed */
  stop(): Promise<number | null>
}

/** Makes the first account with the link that was printed. @returns what signs it in */
export async function firstAccountOf({ url, output }: StartedService): Promise<Record<string, string>> {
  const link = /#(turnwright_link_\S+)/.exec(output())?.[1]
  const answer = await fetch(`${url}/v1/first-account`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ link, email: 'ada@example.org', name: 'Ada', password: 'four brown herons wade' }),
  })
  if (answer.status !== 201) throw new Error(`${answer.status}: ${await answer.text()}`)
  const { csrfToken } = Object(await answer.json())
  const [cookie = ''] = (answer.headers.get('set-cookie') ?? '').split(';')
  return { cookie, 'x-csrf-token': String(csrfToken) }
}

/** Waits until it has printed its address; the caller stops it. */
export async function aStartedService(settings: Record<string, string> = {}): Promise<StartedService> {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'turnwright-test-'))
  const child = spawn(process.execPath, [path.join(root, 'dist', 'src', 'main.js')], {
    env: {
      ...process.env,
      PORT: '0',
      DATABASE_FILE: path.join(folder, 'hall.sqlite'),
      LOG_LEVEL: 'error',
      ...settings,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let printed = ''
  const url = await new Promise<string>((resolve, reject) => {
    const take = (chunk: Buffer) => {
      printed += chunk.toString()
      // The last line it prints at start: by then the demo is loaded.
      const address = /answers at (http:\S+)[\s\S]*Stop with/.exec(printed)?.[1]
      if (address) resolve(address)
    }
    child.stdout.on('data', take)
    child.stderr.on('data', take)
    child.on('exit', (code) => reject(new Error(`the service ended with ${code}: ${printed}`)))
  })
  return {
    url,
    folder,
    process: child,
    output: () => printed,
    says: (words) =>
      new Promise((resolve) => {
        const look = () => {
          if (!printed.includes(words)) return
          child.stdout.off('data', look)
          resolve()
        }
        child.stdout.on('data', look)
        look()
      }),
    stop: () =>
      new Promise((resolve) => {
        child.on('exit', (code) => {
          rmSync(folder, { recursive: true, force: true })
          resolve(code)
        })
        child.kill('SIGTERM')
      }),
  }
}
