/** Whether a change of one row makes another one wrong that was right before. */
import { isDeepStrictEqual } from 'node:util'
import type { Instant } from '../../domain/instant.ts'
import type { SetupKind, SetupRows, SetupWrite } from '../../domain/setup.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { setupAfter } from '../../scheduler/decide/index.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { setupFaults } from './setup-faults.ts'
import { setupWrite } from './setup-write.ts'

type ListedKind = Exclude<SetupKind, 'closure' | 'observation' | 'rateSet' | 'policy'>

/** Whose faults look at rows of a kind. What only names the row cannot go wrong by a change of it. */
const dependentKinds: { readonly [Kind in SetupKind]: readonly ListedKind[] } = {
  section: ['room'],
  exit: [],
  passage: [],
  room: ['exit', 'room', 'layout'],
  storagePlace: [],
  furnishing: ['layout', 'stockChange'],
  tool: ['stockChange'],
  equipment: ['layout'],
  layout: ['room'],
  person: [],
  shift: [],
  closure: [],
  stockChange: ['layout', 'stockChange'],
  observation: [],
  rateSet: [],
  policy: ['person', 'shift'],
}

/** How one of a kind is called in sentences. */
const nounsByKind: { readonly [Kind in ListedKind]: string } = {
  section: 'section',
  exit: 'exit',
  passage: 'passage',
  room: 'room',
  storagePlace: 'storage place',
  furnishing: 'furnishing',
  tool: 'tool',
  equipment: 'equipment',
  layout: 'layout',
  person: 'person',
  shift: 'shift',
  stockChange: 'stock change',
}

/** So many are told; the first few say what is wrong with the change. */
const FAULTS_MOST = 20

/**
 * @param before  null: the row is new, and takes its place beside the others
 * @returns a fault for each thing that is newly wrong elsewhere, at the field whose change alone brings it about, or at
 *          the whole where it takes several
 */
export function breakageFaults<Kind extends SetupKind>(
  kind: Kind,
  before: SetupRows[Kind] | null,
  after: SetupRows[Kind],
  setup: SiteSetup,
  now: Instant,
): Fault[] {
  const kinds = dependentKinds[kind]
  if (kinds.length === 0) return []
  const faultsWith = (row: SetupRows[Kind]) =>
    faultsElsewhere(kinds, row.id, withRow(setup, setupWrite(kind, before, row, false), now), now)
  const wrongBefore = new Set(faultsElsewhere(kinds, after.id, setup, now))
  const newlyWrong = (row: SetupRows[Kind]) => faultsWith(row).filter((message) => !wrongBefore.has(message))
  const messages = newlyWrong(after).slice(0, FAULTS_MOST)
  if (messages.length === 0) return []
  const messagesByField = (before ? changedFields(before, after) : []).map(
    (field) => [field, new Set(newlyWrong({ ...after, ...before, ...onlyField(after, field) }))] as const,
  )
  return messages.map((message) => {
    const field = messagesByField.find(([, brought]) => brought.has(message))?.[0]
    return bodyFault(field === undefined ? '' : `/${field}`, message)
  })
}

/** What is wrong with rows of these kinds other than the one with the id, as sentences that name them. */
const faultsElsewhere = (
  kinds: readonly ListedKind[],
  id: string,
  setup: SiteSetup,
  now: Instant,
): string[] => kinds.flatMap((kind) => faultsOfKind(kind, id, setup, now))

function faultsOfKind<Kind extends ListedKind>(
  kind: Kind,
  id: string,
  setup: SiteSetup,
  now: Instant,
): string[] {
  return rowsOf(setup)[kind].flatMap((row) => {
    if (row.id === id) return []
    const name = 'name' in row ? row.name : row.id
    return setupFaults[kind](row, setup, now).map(({ message }) => `${nounsByKind[kind]} ${name}: ${message}`)
  })
}

const rowsOf = (setup: SiteSetup): { readonly [Kind in ListedKind]: readonly SetupRows[Kind][] } => ({
  section: setup.sections,
  exit: setup.exits,
  passage: setup.passages,
  room: setup.rooms,
  storagePlace: setup.storagePlaces,
  furnishing: setup.furnishings,
  tool: setup.tools,
  equipment: setup.equipment,
  layout: setup.layouts,
  person: setup.people,
  shift: setup.shifts,
  stockChange: setup.stockChanges,
})

function withRow(setup: SiteSetup, write: SetupWrite, now: Instant): SiteSetup {
  // Faults look at the set-up alone: the rest of a snapshot may be empty.
  const empty = { planningVersion: 0, window: { fromAt: now, toAt: now }, closures: [], observations: [] }
  return setupAfter({ ...setup, now, ...empty, bookings: [], turns: [], judgedThroughAt: null }, [write])
}

function changedFields(before: object, after: object): string[] {
  const old = new Map(Object.entries(before))
  return Object.entries(after)
    .filter(([name, value]) => !isDeepStrictEqual(value, old.get(name)))
    .map(([name]) => name)
}

const onlyField = (row: object, field: string) =>
  Object.fromEntries(Object.entries(row).filter(([name]) => name === field))
