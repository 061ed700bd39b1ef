/** Rows that cannot be read, and columns that say something else than the document beside them. */
import { z } from 'zod'
import { Booking } from '../domain/booking.ts'
import type { SiteId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import { PersonDetails } from '../domain/person.ts'
import { type SetupKind, type SetupRows, setupKinds, setupSchemas } from '../domain/setup.ts'
import { Site } from '../domain/site.ts'
import type { StoredColumns, StoredFile } from '../store/stored-file.ts'
import { columnsBeside } from './columns-beside.ts'
import { readColumns, storedRows, TurnAlone } from './read-columns.ts'
import { type StoredFault, whyUnreadable } from './stored-fault.ts'

const StoredSite = Site.extend({ planningVersion: z.int().min(1), setupVersion: z.int().min(1) })
const SetupColumns = z.object({
  id: z.string(),
  siteId: z.string(),
  version: z.int().min(1),
  retiredAt: Instant.nullable(),
  document: z.looseObject({ id: z.string(), siteId: z.string() }),
})

export function* rowFaults(file: StoredFile, siteId: SiteId): Generator<StoredFault> {
  const told = (where: string, faults: readonly string[]) => faults.map((what) => ({ siteId, where, what }))

  yield* told('site', unreadable(StoredSite, file.site(siteId) ?? {}))
  const madeOf = new Map<string, string[]>()
  for (const { roomId, sectionId } of file.roomSections(siteId))
    madeOf.set(roomId, [...(madeOf.get(roomId) ?? []), sectionId])
  for (const kind of setupKinds) {
    for (const columns of storedRows(file, kind, siteId)) {
      const where = `${kind} ${columns.id}`
      const faults = setupFaults(kind, columns)
      yield* told(where, faults)
      if (kind !== 'room' || faults.length > 0) continue
      const { id, sectionIds } = setupSchemas.room.parse(readColumns(columns).document)
      if ([...sectionIds].sort().join() !== (madeOf.get(id) ?? []).sort().join())
        yield { siteId, where, what: 'room_section does not say of which sections it is made' }
    }
  }
  for (const columns of storedRows(file, 'booking', siteId))
    yield* told(`booking ${columns.id}`, unreadable(Booking, columns))
  for (const columns of storedRows(file, 'turn', siteId))
    yield* told(`turn ${columns.id}`, turnColumnFaults(columns))
  for (const columns of file.personDetails(siteId))
    yield* told(`details of ${columns.personId}`, unreadable(PersonDetails, columns))
}

function unreadable(schema: z.ZodType, columns: StoredColumns): string[] {
  try {
    schema.parse(readColumns(columns))
    return []
  } catch (error) {
    return [`cannot be read: ${whyUnreadable(error)}`]
  }
}

/** Its columns that say when it was warned of and gone over stand in its judgement too. */
function turnColumnFaults(columns: StoredColumns): string[] {
  const faults = unreadable(TurnAlone, columns)
  if (faults.length > 0) return faults
  const { warnedSince, polishedAt } = TurnAlone.parse(readColumns(columns)).judgement
  return Object.entries({ warnedSince, polishedAt })
    .filter(([name, value]) => columns[name] !== value)
    .map(([name, value]) => `its column ${name} says ${columns[name]}, its judgement ${value}`)
}

function setupFaults<Kind extends SetupKind>(kind: Kind, columns: StoredColumns): string[] {
  let row: SetupRows[Kind]
  let document: z.infer<typeof SetupColumns>['document']
  try {
    document = SetupColumns.parse(readColumns(columns)).document
    row = setupSchemas[kind].parse(document)
  } catch (error) {
    return [`cannot be read: ${whyUnreadable(error)}`]
  }
  const expected = { id: document.id, siteId: document.siteId, ...columnsBeside[kind](row) }
  return Object.entries(expected)
    .filter(([name, value]) => columns[name] !== value)
    .map(([name, value]) => `its column ${name} says ${columns[name]}, its document ${value}`)
}
