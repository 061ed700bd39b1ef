/** From a document to the rows of a site, with everything that is wrong with it said at once. */
import { setImmediate } from 'node:timers/promises'
import type { z } from 'zod'
import type { Instant } from '../../domain/instant.ts'
import { PersonDetails } from '../../domain/person.ts'
import { type SetupKind, type SetupWrite, setupKinds } from '../../domain/setup.ts'
import type { Site } from '../../domain/site.ts'
import { checkedBy } from '../fault-words.ts'
import { InstantReader } from '../instant-text.ts'
import { bodyFault, type Fault, invalidInput } from '../problems.ts'
import { setupFaults } from '../setup/setup-faults.ts'
import { faultsFrom } from '../zod-requests.ts'
import { documentMembers, listedKinds, rowPointer } from './document-parts.ts'
import { DocumentRows } from './document-rows.ts'
import { FaultsFound } from './faults-found.ts'
import { momentsRead } from './moments-read.ts'
import { overlongLists } from './overlong-lists.ts'
import { type Reference, referencesOf } from './references.ts'
import { isRecord } from './schema-walk.ts'
import {
  DOCUMENT_FORMAT,
  FORMAT_VERSION,
  PersonDetailsForm,
  ROWS_MOST,
  rowForm,
  SiteDocumentFrame,
  SiteForm,
} from './site-document.ts'

/** A document that can be imported, as far as it can be told without the database. */
export interface DocumentRead {
  readonly site: Site
  readonly writes: readonly SetupWrite[]
  readonly personDetails: readonly PersonDetails[]
}

/** Rows whose shape is right. */
interface ShapedRows {
  readonly site: Site
  readonly rowsByKind: ReadonlyMap<SetupKind, readonly object[]>
  readonly personDetails: readonly PersonDetails[]
}

/**
 * First the shape of everything; where that is right, ids that come twice, ids that name nothing, and what contradicts
 * itself or the rest.
 * @param now  nobody can have seen what is later
 * @throws Problem invalid-input
 */
export async function readDocument(body: unknown, now: Instant): Promise<DocumentRead> {
  refuseOtherVersion(body)
  const { site, rowsByKind, personDetails } = shapedRows(body)
  const rows = new DocumentRows(site, rowsByKind)
  const faults = new FaultsFound()
  faults.add(idFaults(rowsByKind, personDetails))
  await addRuleFaults(rows, now, faults)
  faults.refuse()
  return { site, writes: rows.writes(), personDetails }
}

/** Of another version nothing else can be told: what would be wrong in this one may be right in that. */
function refuseOtherVersion(body: unknown): void {
  if (!isRecord(body) || body.format !== DOCUMENT_FORMAT) return
  const { formatVersion: version } = body
  if (typeof version !== 'number' || !Number.isInteger(version) || version === FORMAT_VERSION) return
  const message = `the document is of format version ${version}; this program reads version ${FORMAT_VERSION}`
  throw invalidInput([bodyFault('/formatVersion', message)])
}

/** @throws Problem invalid-input */
function shapedRows(body: unknown): ShapedRows {
  const faults = new FaultsFound()
  const frame = checkedBy(SiteDocumentFrame, body)
  if (!frame.success) faults.add(faultsFrom(frame.error, 'body', body))
  const members = isRecord(body) ? body : {}
  const site = checkedBy(SiteForm, members.site)
  if (!site.success && members.site !== undefined) {
    faults.add(under('/site', faultsFrom(site.error, 'body', members.site)))
  }
  const reader = new InstantReader(site.data?.zone ?? 'UTC', 'body')
  const read = (form: z.ZodType, values: unknown, at: (index: number) => string) =>
    Array.isArray(values) ? shapedList(form, values, at, reader, faults) : []

  const rowsByKind = new Map<SetupKind, readonly object[]>()
  for (const kind of listedKinds) {
    const values = members[documentMembers[kind]]
    rowsByKind.set(
      kind,
      read(rowForm(kind), values, (index) => rowPointer(kind, index)),
    )
  }
  for (const kind of ['rateSet', 'policy'] as const) {
    const value = members[documentMembers[kind]]
    const isThere = value !== undefined && !(kind === 'rateSet' && value === null)
    rowsByKind.set(
      kind,
      read(rowForm(kind), isThere ? [value] : [], (index) => rowPointer(kind, index)),
    )
  }
  const details = read(PersonDetailsForm, members.personDetails, (index) => `/personDetails/${index}`)
  faults.add(reader.faults)
  faults.refuse()
  if (!site.success) throw new Error('a site without faults has a shape')
  return { site: site.data, rowsByKind, personDetails: details.map((one) => PersonDetails.parse(one)) }
}

/** One by one, so that looking can stop when there are faults enough. */
function shapedList(
  form: z.ZodType,
  values: readonly unknown[],
  at: (index: number) => string,
  reader: InstantReader,
  faults: FaultsFound,
): object[] {
  if (values.length > ROWS_MOST) {
    const list = at(0).replace(/\/0$/, '')
    faults.add([bodyFault(list, `has ${values.length} entries; ${ROWS_MOST} is the most`)])
    return []
  }
  const rows: object[] = []
  for (const [index, value] of values.entries()) {
    if (faults.areEnough) return rows
    const overlong = overlongLists(form, value, at(index))
    const parsed = overlong.length > 0 ? null : checkedBy(form, value)
    faults.add(overlong)
    if (parsed?.error) faults.add(under(at(index), faultsFrom(parsed.error, 'body', value)))
    const row = parsed?.success ? momentsRead(parsed.data, at(index), reader) : null
    if (typeof row === 'object' && row !== null) rows.push(row)
  }
  return rows
}

const under = (at: string, faults: readonly Fault[]): Fault[] =>
  faults.map((fault) => ({ ...fault, at: `${at}${fault.at}` }))

function idFaults(rowsByKind: ShapedRows['rowsByKind'], personDetails: readonly PersonDetails[]): Fault[] {
  const idsByKind = new Map([...rowsByKind].map(([kind, rows]) => [kind, rows.map(idOf)]))
  const known = new Map([...idsByKind].map(([kind, ids]) => [kind, new Set(ids)]))
  const isUnknown = ({ kind, id }: Reference) => !known.get(kind)?.has(id)
  const ofPeople = personDetails.map(({ personId }) => personId)
  return [
    ...setupKinds.flatMap((kind) =>
      repeatedIds(idsByKind.get(kind) ?? [], (index) => `${rowPointer(kind, index)}/id`),
    ),
    ...repeatedIds(ofPeople, (index) => `/personDetails/${index}/personId`),
    ...setupKinds.flatMap((kind) =>
      (rowsByKind.get(kind) ?? []).flatMap((row, index) =>
        under(
          rowPointer(kind, index),
          referencesOf(rowForm(kind), row)
            .filter(isUnknown)
            .map(({ at, noun, id }) => unknownFault(at, noun, id)),
        ),
      ),
    ),
    ...ofPeople.flatMap((id, index) =>
      known.get('person')?.has(id) ? [] : [unknownFault(`/personDetails/${index}/personId`, 'person', id)],
    ),
  ]
}

const idOf = (row: object): string => ('id' in row ? String(row.id) : '')

const unknownFault = (at: string, noun: string, id: string): Fault =>
  bodyFault(at, `there is no ${noun} ${id} in this document`)

function repeatedIds(ids: readonly string[], at: (index: number) => string): Fault[] {
  const firstById = new Map<string, number>()
  return ids.flatMap((id, index) => {
    const first = firstById.get(id)
    if (first === undefined) firstById.set(id, index)
    return first === undefined
      ? []
      : [bodyFault(at(index), `${id} is the id of ${at(first).replace(/\/[A-Za-z]+$/, '')} already`)]
  })
}

async function addRuleFaults(rows: DocumentRows, now: Instant, faults: FaultsFound): Promise<void> {
  const setup = rows.setup()
  const addOfKind = async <Kind extends SetupKind>(kind: Kind) => {
    for (const [index, row] of rows.of(kind).entries()) {
      if (faults.areEnough) return
      faults.add(under(rowPointer(kind, index), setupFaults[kind](row, setup, now)))
      // A rule may look at every other row: whoever else asks for something comes in between.
      await setImmediate()
    }
  }
  for (const kind of setupKinds) await addOfKind(kind)
}
