/** Goes along the chain of the audit, over all sites, until it breaks. */
import { auditHash } from '../store/audit-hash.ts'
import type { ChainedEntry, StoredFile } from '../store/stored-file.ts'

export interface AuditChain {
  /** How many entries were found whole, from the first. */
  readonly entries: number
  /** The hash of the last one found whole; null: there is none. */
  readonly head: string | null
  /** Which of those found whole has the hash that was noted; null: none has, or none was noted. */
  readonly notedSequence: number | null
  /** The first thing that is wrong; null: the chain is whole. */
  readonly fault: AuditChainFault | null
}

export interface AuditChainFault {
  /** Of the entry that is wrong, or of the first one that is missing. */
  readonly sequence: number
  /** The end of a sentence that begins with the entry. */
  readonly what: string
}

export interface AuditWalk {
  /** The head of an earlier walk, to be looked for. Default: none. */
  readonly noted?: string | null
  /** So many are held at once; does not change what is found. Few by default, for an entry may be of a whole hall. */
  readonly entriesAPage?: number
}

/** What is gone from the end shows only as long as the database still knows the highest number it gave. */
export function walkAuditChain(
  file: Pick<StoredFile, 'auditChain' | 'auditNumberHighest'>,
  { noted = null, entriesAPage = 100 }: AuditWalk = {},
): AuditChain {
  let entries = 0
  let last: ChainedEntry | null = null
  let notedSequence: number | null = null
  let fault: AuditChainFault | null = null
  for (const entry of entriesOf(file, entriesAPage)) {
    fault = faultOf(entry, last)
    if (fault) break
    entries += 1
    last = entry
    if (entry.hash === noted) notedSequence = entry.sequence
  }
  fault ??= missing((last?.sequence ?? 0) + 1, file.auditNumberHighest())
  return { entries, head: last?.hash ?? null, notedSequence, fault }
}

function* entriesOf(file: Pick<StoredFile, 'auditChain'>, entriesAPage: number): Generator<ChainedEntry> {
  let after = 0
  for (;;) {
    const page = file.auditChain(after, entriesAPage)
    yield* page
    const last = page.at(-1)
    if (!last || page.length < entriesAPage) return
    after = last.sequence
  }
}

function faultOf(entry: ChainedEntry, before: ChainedEntry | null): AuditChainFault | null {
  const { sequence, hash, previousHash } = entry
  const gap = missing((before?.sequence ?? 0) + 1, sequence - 1)
  if (gap) return gap
  if (hash === null) return { sequence, what: 'has no hash' }
  if (hash !== auditHash(entry)) return { sequence, what: 'is not what its hash was taken of' }
  if (previousHash === (before?.hash ?? null)) return null
  const what = before
    ? `does not name the hash of entry ${before.sequence} before it`
    : 'names the hash of an entry before it, and is the first'
  return { sequence, what }
}

/** @returns null when `last` comes before `first` */
function missing(first: number, last: number): AuditChainFault | null {
  if (last < first) return null
  return { sequence: first, what: last === first ? 'is missing' : `is missing, and all up to entry ${last}` }
}
