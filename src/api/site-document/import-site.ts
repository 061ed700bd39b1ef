/** A new site from a document: all of it in one commit, or nothing. */
import type { SetupKind } from '../../domain/setup.ts'
import { setupKinds } from '../../domain/setup.ts'
import type { Site } from '../../domain/site.ts'
import { type Commit, Conflict, ReferenceMissing, type Store } from '../../store/store.ts'
import { bodyFault, type Fault, Problem } from '../problems.ts'
import { documentMembers, rowPointer } from './document-parts.ts'
import { everyRow } from './every-row.ts'
import type { DocumentRead } from './read-document.ts'

/** How many of each there are, by member of the document. */
export function countsOf(document: DocumentRead): Record<string, number> {
  const rows = setupKinds.map((kind) => [documentMembers[kind], idsOf(document, kind).length])
  return { ...Object.fromEntries(rows), personDetails: document.personDetails.length }
}

const idsOf = ({ writes }: DocumentRead, kind: SetupKind): string[] =>
  writes.flatMap((write) => (write.kind === kind ? [write.after.id] : []))

/** What is written with the rows of the document. */
export type ImportNotes = Pick<Commit, 'actorId' | 'at' | 'answer'>

/** @throws Problem already-there, conflict */
export async function foundSite(store: Store, document: DocumentRead, notes: ImportNotes): Promise<void> {
  const { site, writes, personDetails } = document
  try {
    await store.commit({
      ...notes,
      siteId: site.id,
      // None: were it there by now, its rows and these would become one site.
      planningVersionExpected: 0,
      action: 'import-site',
      reason: null,
      site,
      setup: writes,
      personDetails,
    })
  } catch (fault) {
    if (fault instanceof Conflict) await refuseWhatIsThere(store, document)
    if (fault instanceof ReferenceMissing) {
      throw new Problem('conflict', 'Something that the document names was not found when it was written.')
    }
    throw fault
  }
}

/** @throws Problem already-there */
export async function refuseKnownSite(store: Store, { id }: Site): Promise<void> {
  if (await store.site(id)) throw alreadyThere([bodyFault('/site/id', `there is a site ${id} already`)])
}

/**
 * Looks through every site, row by row: not for each import, only where it has to be said what is there.
 * @throws Problem already-there
 */
export async function refuseWhatIsThere(store: Store, document: DocumentRead): Promise<void> {
  await refuseKnownSite(store, document.site)
  const places = placesById(document)
  const found: Fault[] = []
  for await (const site of everyRow((page) => store.sites(page))) {
    for (const kind of setupKinds) {
      if (idsOf(document, kind).length === 0) continue
      for await (const { row } of everyRow((page) =>
        store.setupRows(site.id, kind, { retired: true }, page),
      )) {
        const at = places.get(row.id)
        if (at !== undefined) found.push(bodyFault(at, `there is ${row.id} in another site already`))
      }
    }
  }
  if (found.length > 0) throw alreadyThere(found)
}

const placesById = (document: DocumentRead): ReadonlyMap<string, string> =>
  new Map(
    setupKinds.flatMap((kind) =>
      idsOf(document, kind).map((id, index): [string, string] => [id, `${rowPointer(kind, index)}/id`]),
    ),
  )

const NAMED_MOST = 100

/** @param found  at least one */
function alreadyThere(found: readonly Fault[]): Problem {
  const more = found.length > 1 ? ` (and ${found.length - 1} more of the document)` : ''
  return new Problem(
    'already-there',
    `${found[0]?.at}: ${found[0]?.message}${more}. Nothing was overwritten.`,
    { errors: found.slice(0, NAMED_MOST) },
  )
}
