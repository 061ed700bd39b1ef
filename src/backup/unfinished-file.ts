/** A file that is written beside its place and moved there when it is whole. */
import { chmodSync, chownSync, rmSync, statSync } from 'node:fs'
import { sideFileEndings } from '../store/side-files.ts'
import { flushFile } from './flush.ts'

export interface UnfinishedFile {
  readonly path: string
  /** Gives it the rights, and where possible the owner, of another file, and sees that it is on the disk. */
  finish(like: string): void
  /** Deletes it with what the engine has put beside it; nothing once it was moved. */
  discard(): void
}

/** Ctrl+C, and what a system sends that shuts down. */
const signals = ['SIGINT', 'SIGTERM'] as const
/** What a shell says of a program that a signal has ended, less the number of the signal. */
const ENDED_BY_SIGNAL = 128
const numberOf = { SIGINT: 2, SIGTERM: 15 } as const

/**
 * A signal deletes it and ends the process; only SIGKILL leaves it, under its name.
 * @param path  nobody else's; what is there is deleted: an earlier process was killed
 */
export function unfinishedFile(path: string): UnfinishedFile {
  const remove = () => {
    for (const ending of ['', ...sideFileEndings]) rmSync(path + ending, { force: true })
  }
  const onSignal = (signal: (typeof signals)[number]) => {
    remove()
    process.exit(ENDED_BY_SIGNAL + numberOf[signal])
  }
  remove()
  for (const signal of signals) process.on(signal, onSignal)
  return {
    path,
    finish: (like) => finish(path, like),
    discard: () => {
      remove()
      for (const signal of signals) process.off(signal, onSignal)
    },
  }
}

function finish(path: string, like: string): void {
  const model = statSync(like, { throwIfNoEntry: false })
  if (model) {
    chmodSync(path, model.mode & 0o777)
    // Only an administrator may give files away; anybody else has made it as himself.
    if (process.getuid?.() === 0) chownSync(path, model.uid, model.gid)
  }
  flushFile(path)
}
