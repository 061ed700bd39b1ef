/** The audit has no hole, and replaying it gives what is stored; the change log tells of the rows of each of its entries. */
import { isDeepStrictEqual } from 'node:util'
import type { SiteId } from '../domain/ids.ts'
import { StoredAuditEntry } from '../store/read-lists.ts'
import { AuditReplay } from '../store/replay.ts'
import type { AuditEntry, RecordedState } from '../store/store.ts'
import type { StoredColumns, StoredFile } from '../store/stored-file.ts'
import { ChangeLogReader } from './change-log-reader.ts'
import { ROWS_A_PAGE, readColumns } from './read-columns.ts'
import type { SectionsOfRooms } from './sections-of-rooms.ts'
import { type StoredFault, whyUnreadable } from './stored-fault.ts'

/** @param sections  is told of every entry on the way */
export async function* auditFaults(
  file: StoredFile,
  siteId: SiteId,
  sections: SectionsOfRooms,
): AsyncGenerator<StoredFault> {
  const replay = new AuditReplay()
  const log = new ChangeLogReader(file, siteId)
  let versionBefore = 0
  for (const columns of storedEntries(file, siteId)) {
    const where = `entry ${columns.sequence} of the audit`
    try {
      const entry = StoredAuditEntry.parse(readColumns(columns))
      sections.take(entry)
      for (const what of [...replay.take(entry), ...versionFaults(entry, versionBefore)])
        yield { siteId, where, what }
      versionBefore = entry.planningVersion
      yield* log.faultsUpTo(entry)
    } catch (error) {
      yield { siteId, where, what: `cannot be read: ${whyUnreadable(error)}` }
    }
  }
  yield* log.faultsOfRest()
  try {
    yield* differences(siteId, replay.state(), await file.recordedState(siteId))
  } catch (error) {
    const what = `cannot be compared with what is stored: ${whyUnreadable(error)}`
    yield { siteId, where: 'what the audit gives', what }
  }
}

/** What touches personal details alone leaves the version. */
const versionFaults = ({ planningVersion, effects }: AuditEntry, before: number): string[] =>
  planningVersion === before + (effects.length > 0 ? 1 : 0)
    ? []
    : [`is at version ${planningVersion}, the one before it at ${before}`]

function* storedEntries(file: StoredFile, siteId: SiteId): Generator<StoredColumns> {
  let after = 0
  for (;;) {
    const page = file.audit(siteId, after, ROWS_A_PAGE)
    yield* page
    const last = page.at(-1)
    if (!last || page.length < ROWS_A_PAGE) return
    after = Number(last.sequence)
  }
}

function* differences(
  siteId: SiteId,
  replayed: RecordedState,
  stored: RecordedState,
): Generator<StoredFault> {
  for (const table of new Set([...replayed.keys(), ...stored.keys()])) {
    const [told, found] = [replayed.get(table), stored.get(table)]
    for (const id of new Set([...(told?.keys() ?? []), ...(found?.keys() ?? [])])) {
      const [as, is] = [told?.get(id), found?.get(id)]
      if (isDeepStrictEqual(as, is)) continue
      const fields = fieldsThatDiffer(as, is)
      const where = table === id ? table : `${table} ${id}`
      if (as === undefined) yield { siteId, where, what: 'is stored, and the audit does not know of it' }
      else if (is === undefined) yield { siteId, where, what: 'is not stored, and the audit tells of it' }
      else yield { siteId, where, what: `is not what the audit says: ${fields.join(', ')}` }
    }
  }
}

function fieldsThatDiffer(a: unknown, b: unknown): string[] {
  const [left, right] = [fieldsOf(a), fieldsOf(b)]
  const names = new Set([...left.keys(), ...right.keys()])
  return [...names].filter((name) => !isDeepStrictEqual(left.get(name), right.get(name))).sort()
}

const fieldsOf = (row: unknown): ReadonlyMap<string, unknown> =>
  new Map(typeof row === 'object' && row !== null ? Object.entries(row) : [])
