/** Decides in a worker thread, so that the main thread goes on answering meanwhile. */
import { Worker, type WorkerOptions } from 'node:worker_threads'
import type { TimeByHands } from '../scheduler/decide/index.ts'
import type { AroundTurnReply, AroundTurnRequest } from './around-turn.ts'
import {
  type DecideAnswer,
  type DecideRequest,
  type Decider,
  DeciderBusy,
  type EstimateRequest,
  type ReplanReply,
  type ReplanRequest,
} from './decider.ts'
import {
  isThreadReply,
  type Question,
  type QuestionAnswer,
  type ThreadReply,
  type ThreadRequest,
} from './thread-messages.ts'

export interface ThreadDeciderOptions {
  /** The database file; the thread opens it read-only. It must be up to date. */
  readonly file: string
  /** How many requests may be waiting or under way. Default: 200. */
  readonly queueMost?: number
  /** What the thread is called. Default: decide. */
  readonly name?: string
  /** Where the thread begins. Default: `decide-thread` beside this file. */
  readonly entry?: URL
}

/** The thread stopped, or was stopped, while the request waited. Whether it was to blame is not known. */
export class DeciderStopped extends Error {
  override name = 'DeciderStopped'
}

interface Waiting {
  resolve(answer: QuestionAnswer): void
  reject(error: Error): void
}

const QUEUE_MOST = 200
/** A thread that cannot even start is tried again after this, and twice as long each time, up to the most. */
const RESTART_MILLISECONDS = 250
const RESTART_MOST_MILLISECONDS = 30_000

const extension = import.meta.url.endsWith('.ts') ? '.ts' : '.js'
const entryBeside = new URL(`./decide-thread${extension}`, import.meta.url)

/**
 * Starts the thread and waits until it can decide. A thread that stops later is started again; what it was to answer
 * is rejected with DeciderStopped.
 * @throws Error when the thread cannot start
 */
export async function threadDecider(options: ThreadDeciderOptions): Promise<Decider> {
  const decider = new ThreadDecider(options)
  await decider.start()
  return decider
}

class ThreadDecider implements Decider {
  readonly #options: ThreadDeciderOptions
  readonly #waiting = new Map<number, Waiting>()
  #worker: Worker | null = null
  #ready = false
  #closed = false
  #nextId = 1
  #startsFailed = 0
  #restart: NodeJS.Timeout | undefined

  constructor(options: ThreadDeciderOptions) {
    this.#options = options
  }

  /** Resolves when the thread says that it is ready, rejects when it stops before. */
  start(): Promise<void> {
    const entry = this.#options.entry ?? entryBeside
    const worker = workerAt(entry, {
      name: this.#options.name ?? 'decide',
      workerData: { file: this.#options.file },
    })
    this.#worker = worker
    return new Promise((resolve, reject) => {
      let why: unknown
      worker.on('error', (error) => {
        why = error
      })
      worker.on('message', (reply: unknown) => {
        if (!isThreadReply(reply)) return
        if (reply.kind === 'ready') {
          this.#ready = true
          this.#startsFailed = 0
          resolve()
        } else this.#settle(reply)
      })
      worker.on('exit', () => {
        const wasReady = this.#ready
        const because = why instanceof Error ? `: ${why.message}` : ''
        const stopped = new DeciderStopped(`The thread that decides has stopped${because}`, { cause: why })
        this.#onStop(stopped)
        if (!wasReady) reject(stopped)
        else this.#startAgain(0)
      })
    })
  }

  async decide(request: DecideRequest): Promise<DecideAnswer> {
    const { kind, answer } = await this.#ask({ kind: 'decide', request })
    if (kind !== 'decide') throw new Error(`The thread answered ${kind} to a question to decide`)
    return answer
  }

  async estimate(request: EstimateRequest): Promise<readonly TimeByHands[]> {
    const { kind, answer } = await this.#ask({ kind: 'estimate', request })
    if (kind !== 'estimate') throw new Error(`The thread answered ${kind} to a question to estimate`)
    return answer
  }

  async replan(request: ReplanRequest): Promise<ReplanReply> {
    const { kind, answer } = await this.#ask({ kind: 'replan', request })
    if (kind !== 'replan')
      throw new Error(`The thread answered ${kind} to a question to plan a turn from now`)
    return answer
  }

  async aroundTurn(request: AroundTurnRequest): Promise<AroundTurnReply> {
    const { kind, answer } = await this.#ask({ kind: 'around-turn', request })
    if (kind !== 'around-turn') throw new Error(`The thread answered ${kind} to a question around a turn`)
    return answer
  }

  #ask(question: Question): Promise<QuestionAnswer> {
    const worker = this.#worker
    if (this.#closed) return Promise.reject(new DeciderStopped('The service is stopping'))
    if (!worker)
      return Promise.reject(
        new DeciderBusy('The thread that decides is being started. Try again in a moment.'),
      )
    if (this.#waiting.size >= (this.#options.queueMost ?? QUEUE_MOST)) {
      return Promise.reject(new DeciderBusy('Too many requests wait to be decided. Try again in a moment.'))
    }
    const id = this.#nextId++
    return new Promise((resolve, reject) => {
      // First: what cannot be sent throws here, and then nobody waits for it.
      worker.postMessage({ id, question } satisfies ThreadRequest)
      this.#waiting.set(id, { resolve, reject })
    })
  }

  isReady(): boolean {
    return this.#ready
  }

  async close(): Promise<void> {
    this.#closed = true
    clearTimeout(this.#restart)
    await this.#worker?.terminate()
  }

  #settle(reply: Exclude<ThreadReply, { kind: 'ready' }>): void {
    const waiting = this.#waiting.get(reply.id)
    this.#waiting.delete(reply.id)
    if (reply.kind === 'answer') waiting?.resolve(reply.answer)
    else waiting?.reject(reply.busy ? new DeciderBusy(reply.error.message) : reply.error)
  }

  #onStop(stopped: DeciderStopped): void {
    this.#worker = null
    this.#ready = false
    const waiting = [...this.#waiting.values()]
    this.#waiting.clear()
    for (const { reject } of waiting) reject(stopped)
  }

  #startAgain(afterMilliseconds: number): void {
    if (this.#closed) return
    this.#restart = setTimeout(() => {
      this.start().catch(() => {
        const wait = RESTART_MILLISECONDS * 2 ** this.#startsFailed++
        this.#startAgain(Math.min(wait, RESTART_MOST_MILLISECONDS))
      })
    }, afterMilliseconds)
  }
}

/**
 * Compiled, the thread begins at its file. From source tsx must be there first: `--import tsx` does that in the main
 * thread only (tsx 4.23 on Node 20), so the thread begins with a line that registers it and goes on to the file.
 * It finds tsx from the working directory, which in development is the repository.
 */
function workerAt(entry: URL, options: WorkerOptions): Worker {
  if (!entry.pathname.endsWith('.ts')) return new Worker(entry, { ...options, execArgv: [] })
  const begin = `import('tsx/esm/api').then((tsx) => { tsx.register(); return import(${JSON.stringify(entry.href)}) })`
  return new Worker(begin, { ...options, execArgv: [], eval: true })
}
