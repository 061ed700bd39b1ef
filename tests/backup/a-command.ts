/** `backup` and `restore` as they ship, each in a process of its own. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { root } from '../a-started-service.ts'

export interface Ran {
  readonly status: number | null
  readonly stdout: string
  readonly stderr: string
}

type Command = 'backup' | 'restore'

export interface CommandSettings {
  readonly DATABASE_FILE: string
  /** A module of this folder that is loaded first. */
  readonly before?: string
  /** What that is told. */
  readonly told?: string
}

const nodeArguments = (command: Command, args: readonly string[], { before }: CommandSettings): string[] => [
  ...(before === undefined ? [] : ['--import', path.join(root, 'tests', 'backup', before)]),
  path.join(root, 'dist', 'src', `${command}.js`),
  ...args,
]

const environment = ({ DATABASE_FILE, told = '' }: CommandSettings) => ({
  ...process.env,
  DATABASE_FILE,
  TOLD: told,
})

export function ran(command: Command, args: readonly string[], settings: CommandSettings): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, nodeArguments(command, args, settings), {
    env: environment(settings),
    encoding: 'utf8',
  })
  return { status, stdout, stderr }
}

export interface Running {
  readonly process: ChildProcess
  /** Waits until it has printed this. */
  says(words: string): Promise<void>
  ended(): Promise<Ran>
}

export function running(command: Command, args: readonly string[], settings: CommandSettings): Running {
  const child = spawn(process.execPath, nodeArguments(command, args, settings), {
    env: environment(settings),
  })
  const ended = once(child, 'close')
  const printed = { stdout: '', stderr: '' }
  for (const stream of ['stdout', 'stderr'] as const)
    child[stream].on('data', (chunk: Buffer) => {
      printed[stream] += chunk.toString()
    })
  return {
    process: child,
    async says(words) {
      while (!printed.stdout.includes(words)) {
        const more = await Promise.race([once(child.stdout, 'data'), ended.then(() => null)])
        if (more === null) throw new Error(`it ended without saying ${words}: ${JSON.stringify(printed)}`)
      }
    },
    async ended() {
      await ended
      return { status: child.exitCode, ...printed }
    },
  }
}
