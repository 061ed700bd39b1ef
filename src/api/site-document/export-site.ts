/** A site as it is set up, in one document. */
import type { Instant } from '../../domain/instant.ts'
import type { PersonDetails } from '../../domain/person.ts'
import { type SetupKind, setupKinds } from '../../domain/setup.ts'
import type { Site } from '../../domain/site.ts'
import type { Store } from '../../store/store.ts'
import { Problem } from '../problems.ts'
import { documentMembers, listedKinds } from './document-parts.ts'
import { everyRow } from './every-row.ts'
import { DOCUMENT_FORMAT, FORMAT_VERSION, LEFT_OUT_MOST } from './site-document.ts'
import { type RowWithId, type SettledRows, withoutWhatIsGone } from './without-what-is-gone.ts'

/** So many times somebody may write while the rows are read, before the reader is asked to try again. */
const ROUNDS_MOST = 5

/**
 * Rows in force by id, moments as numbers still. The same set-up gives the same document, `exportedAt` apart.
 * @throws Problem conflict when the site changes each time while it is read
 */
export async function siteDocument(store: Store, site: Site, now: Instant): Promise<object> {
  for (let round = 1; round <= ROUNDS_MOST; round++) {
    const before = await store.planningVersion(site.id)
    const settled = withoutWhatIsGone(await rowsInForce(store, site))
    const details = await store.personDetails(site.id)
    // Rows of two versions of a site, side by side, may contradict one another.
    if (before === (await store.planningVersion(site.id))) return documentFrom(site, settled, details, now)
  }
  throw new Problem('conflict', `Others changed the site ${ROUNDS_MOST} times while it was being read.`)
}

async function rowsInForce(store: Store, site: Site): Promise<ReadonlyMap<SetupKind, readonly RowWithId[]>> {
  const rowsByKind = new Map<SetupKind, readonly RowWithId[]>()
  for (const kind of setupKinds) {
    const rows: RowWithId[] = []
    const read = everyRow((page) => store.setupRows(site.id, kind, { retired: false }, page))
    for await (const { row } of read) rows.push(row)
    rowsByKind.set(kind, rows.sort(byId))
  }
  return rowsByKind
}

function documentFrom(
  site: Site,
  { rowsByKind, leftOut }: SettledRows,
  details: readonly PersonDetails[],
  now: Instant,
): object {
  const rows = (kind: SetupKind) => (rowsByKind.get(kind) ?? []).map(withoutSite)
  const people = new Set((rowsByKind.get('person') ?? []).map(({ id }) => id))
  return {
    format: DOCUMENT_FORMAT,
    formatVersion: FORMAT_VERSION,
    exportedAt: now,
    leftOut: leftOut.slice(0, LEFT_OUT_MOST),
    site,
    ...Object.fromEntries(listedKinds.map((kind) => [documentMembers[kind], rows(kind)])),
    personDetails: details
      .filter(({ personId }) => people.has(personId))
      .map(({ personId, name, email, phone }) => ({ personId, name, email, phone }))
      .sort((a, b) => byCodeUnits(a.personId, b.personId)),
    rateSet: rows('rateSet')[0] ?? null,
    policy: rows('policy')[0] ?? null,
  }
}

function withoutSite(row: object): object {
  const fields = Object.entries(row).filter(([name]) => name !== 'siteId')
  return Object.fromEntries(fields)
}

/** Whatever order the database has. */
const byCodeUnits = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

const byId = (a: RowWithId, b: RowWithId): number => byCodeUnits(a.id, b.id)
