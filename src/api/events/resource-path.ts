/** Where the thing that a change speaks of is read. */
import { type SetupKind, setupKinds } from '../../domain/setup.ts'
import type { ChangeLogEntry } from '../../store/store.ts'

/** The last part of the path of each part of the set-up. */
const setupSegments: { readonly [Kind in SetupKind]: string } = {
  section: 'sections',
  exit: 'exits',
  passage: 'passages',
  room: 'rooms',
  storagePlace: 'storage-places',
  furnishing: 'furnishings',
  tool: 'tools',
  equipment: 'equipment',
  layout: 'layouts',
  person: 'people',
  shift: 'shifts',
  closure: 'closures',
  stockChange: 'stock-changes',
  observation: 'observations',
  rateSet: 'rate-sets',
  policy: 'policies',
}

const segments: ReadonlyMap<string, string> = new Map([
  ...setupKinds.map((kind): [string, string] => [kind, setupSegments[kind]]),
  // Name and contact are read with the person.
  ['personDetails', setupSegments.person],
  ['booking', 'bookings'],
  ['turn', 'turns'],
])

/** @returns null when it is not read by a path of its own */
export function resourcePath({ siteId, resourceKind, resourceId }: ChangeLogEntry): string | null {
  const sitePath = `/v1/sites/${siteId}`
  if (resourceKind === 'site') return sitePath
  const segment = segments.get(resourceKind)
  return segment === undefined ? null : `${sitePath}/${segment}/${resourceId}`
}
