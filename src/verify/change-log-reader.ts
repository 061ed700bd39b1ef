/** The change log of a site, read alongside its audit. */
import type { SiteId } from '../domain/ids.ts'
import type { AuditEntry } from '../store/store.ts'
import type { StoredFile, StoredLogEntry } from '../store/stored-file.ts'
import { ROWS_A_PAGE } from './read-columns.ts'
import type { StoredFault } from './stored-fault.ts'

export class ChangeLogReader {
  readonly #siteId: SiteId
  readonly #entries: Iterator<StoredLogEntry>
  #next: StoredLogEntry | null
  #following: StoredLogEntry | null

  constructor(file: StoredFile, siteId: SiteId) {
    this.#siteId = siteId
    this.#entries = storedEntries(file, siteId)
    this.#next = this.#take()
    this.#following = this.#take()
  }

  /**
   * How far the service has got in judging is nothing that listeners are told.
   * @param entry  of the audit, the next one; what the log says until it has come past it is looked at
   */
  *faultsUpTo(entry: AuditEntry): Generator<StoredFault> {
    const toTell = new Set(
      entry.effects.filter(({ table }) => table !== 'judging').map(({ table, id }) => `${table} ${id}`),
    )
    for (let told = this.#next; told && this.#isTime(told, entry); told = this.#next) {
      this.#goOn()
      const what = `${told.resourceKind} ${told.resourceId}`
      if (told.auditSequence !== entry.sequence) yield this.#fault(told, namesNone(told))
      // Personal details never come into the audit.
      else if (!toTell.delete(what) && told.resourceKind !== 'personDetails')
        yield this.#fault(told, `tells of ${what}, of which entry ${entry.sequence} of the audit does not`)
      else if (told.at !== entry.at)
        yield this.#fault(told, `is of another time than entry ${entry.sequence} of the audit`)
    }
    for (const what of toTell) {
      const where = `entry ${entry.sequence} of the audit`
      yield { siteId: this.#siteId, where, what: `the change log does not tell of ${what}` }
    }
  }

  /** What comes after the last entry of the audit. */
  *faultsOfRest(): Generator<StoredFault> {
    for (let told = this.#next; told; told = this.#next) {
      this.#goOn()
      yield this.#fault(told, namesNone(told))
    }
  }

  /** What names a later entry is told of there, unless it stands before what names an earlier one. */
  #isTime(told: StoredLogEntry, { sequence }: AuditEntry): boolean {
    return (
      told.auditSequence <= sequence ||
      (this.#following !== null && this.#following.auditSequence <= sequence)
    )
  }

  #goOn(): void {
    this.#next = this.#following
    this.#following = this.#take()
  }

  #take(): StoredLogEntry | null {
    const next = this.#entries.next()
    return next.done ? null : next.value
  }

  #fault({ sequence }: StoredLogEntry, what: string): StoredFault {
    return { siteId: this.#siteId, where: `entry ${sequence} of the change log`, what }
  }
}

const namesNone = ({ auditSequence }: StoredLogEntry): string =>
  `names entry ${auditSequence} of the audit, which is not of this site or has its place elsewhere`

function* storedEntries(file: StoredFile, siteId: SiteId): Generator<StoredLogEntry> {
  let after = 0
  for (;;) {
    const page = file.changeLog(siteId, after, ROWS_A_PAGE)
    yield* page
    const last = page.at(-1)
    if (!last || page.length < ROWS_A_PAGE) return
    after = last.sequence
  }
}
