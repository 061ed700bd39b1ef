/** The members of a site document that hold rows of the set-up, by kind, in the order in which rows can be added. */
import { type SetupKind, setupKinds } from '../../domain/setup.ts'

export const documentMembers = {
  section: 'sections',
  exit: 'exits',
  passage: 'passages',
  room: 'rooms',
  storagePlace: 'storagePlaces',
  furnishing: 'furnishings',
  tool: 'tools',
  equipment: 'equipment',
  layout: 'layouts',
  person: 'people',
  shift: 'shifts',
  closure: 'closures',
  stockChange: 'stockChanges',
  observation: 'observations',
  rateSet: 'rateSet',
  policy: 'policy',
} as const satisfies { readonly [Kind in SetupKind]: string }

/** Of these one row is in force at a time, so the document holds a row, or null, and no list. */
type SingleKind = 'rateSet' | 'policy'
export type ListedKind = Exclude<SetupKind, SingleKind>

const isListed = (kind: SetupKind): kind is ListedKind => kind !== 'rateSet' && kind !== 'policy'

export const listedKinds: readonly ListedKind[] = setupKinds.filter(isListed)

/** JSON pointer of the row at this place among those of its kind. */
export const rowPointer = (kind: SetupKind, index: number): string =>
  isListed(kind) ? `/${documentMembers[kind]}/${index}` : `/${documentMembers[kind]}`
