/**
 * The clean site with closures, stock changes and bookings, then with rows taken out and values put in that somebody may well
 * enter: another number, another id of the same kind, nothing. What would make a row that the domain refuses is not put in.
 */
import fc from 'fast-check'
import type { SetupToCheck } from '../../../src/scheduler/check/index.ts'
import {
  aCleanSite,
  booking,
  cleanRows,
  inDays,
  isValidRow,
  type Row,
  strip,
  type Table,
} from './a-clean-site.ts'

type Key = string | number
type Path = readonly Key[]

const rows = {
  ...cleanRows,
  people: {
    ...cleanRows.people,
    person_rae: {
      adult: true,
      skills: ['sound', 'rigging'],
      skillDates: [{ skill: 'sound', firstDate: '2020-01-01', lastDate: '2027-01-01' }],
    },
  },
  stockChanges: {
    stockchange_tables: {
      of: { kind: 'furnishing', furnishingId: 'furnishing_table', count: 2 },
      why: 'out-of-service',
      fromAt: inDays(-2),
      toAt: inDays(5),
    },
    stockchange_mops: {
      of: { kind: 'tool', toolId: 'tool_mop', count: 2 },
      why: 'lent-out',
      fromAt: inDays(1),
      toAt: inDays(4),
    },
    stockchange_projector: {
      of: { kind: 'equipment', equipmentId: 'equipment_projector' },
      why: 'lent-out',
      fromAt: inDays(3),
      toAt: null,
    },
  },
  closures: {
    closure_store: {
      sectionIds: [],
      storagePlaceIds: ['storage_north'],
      passageIds: ['passage_lift'],
      fromAt: inDays(0),
      toAt: inDays(5),
      reason: 'rewiring',
    },
    closure_side: {
      sectionIds: [],
      exitIds: ['exit_side'],
      fromAt: inDays(-1),
      toAt: inDays(4),
      reason: 'paving',
    },
    closure_yard: {
      sectionIds: ['section_main'],
      exitIds: ['exit_yard'],
      fromAt: inDays(2),
      toAt: inDays(6),
      reason: 'fence',
    },
  },
  exits: {
    ...cleanRows.exits,
    exit_east: { ...cleanRows.exits.exit_east, position: { xMetres: 18, yMetres: 6 } },
  },
  rooms: {
    ...cleanRows.rooms,
    room_main: {
      ...cleanRows.rooms.room_main,
      zones: [
        { name: 'front', corners: strip(0, 6) },
        { name: 'back', corners: strip(6, 12) },
      ],
    },
  },
  layouts: {
    ...cleanRows.layouts,
    layout_banquet: {
      ...cleanRows.layouts.layout_banquet,
      placements: [
        { furnishingId: 'furnishing_table', xMetres: 3, yMetres: 3 },
        { furnishingId: 'furnishing_table', xMetres: 7, yMetres: 3 },
        { furnishingId: 'furnishing_chair', xMetres: 3, yMetres: 3.9, rotationDegrees: 0 },
      ],
    },
  },
  bookings: {
    booking_games: booking('Games', 'main', 'games', -0.1, 0.1),
    booking_supper: booking('Harvest supper', 'main', 'banquet', 0.4, 0.6),
    booking_service: booking('Service', 'main', 'worship', 3, 3.2),
    booking_circle: booking('Circle', 'side', 'meeting', 3.5, 3.6),
  },
}

const numbers = [0, 1, 2, 3, 7, 12, 50, 120, 5000, 0.1, 0.65, 2.5]
const moments = [-9, -1, 0, 0.2, 3, 30].map(inDays)
const dates = ['2026-11-23', '2026-11-27', '2026-12-20', '2020-02-29', '0001-01-01', '9999-12-31']
const times = ['00:00', '07:00', '12:00', '17:00', '23:59']

interface Place {
  readonly table: Table
  readonly id: string
  /** Within the row. */
  readonly path: Path
  readonly value: unknown
}

const tableNames = [
  'sections',
  'exits',
  'passages',
  'rooms',
  'storagePlaces',
  'furnishings',
  'tools',
  'equipment',
  'layouts',
  'people',
  'shifts',
  'stockChanges',
  'closures',
  'bookings',
] as const satisfies readonly Table[]
const tables = tableNames.map((table): [Table, Readonly<Record<string, Row>>] => [table, rows[table]])
const rowPlaces = tables.flatMap(([table, byId]) => Object.keys(byId).map((id) => ({ table, id })))
const places = tables.flatMap(([table, byId]) =>
  Object.entries(byId).flatMap(([id, row]) =>
    placesIn(row, []).map((path): Place => ({ table, id, path, value: valueAt(row, path) })),
  ),
)
const texts = [...new Set(places.flatMap(({ value }) => (typeof value === 'string' ? value : [])))]

const damage = fc
  .constantFrom(...places)
  .chain((place) =>
    fc.record({ place: fc.constant(place), put: fc.constantFrom(...valuesLike(place.value)) }),
  )

const policy = fc.record(
  {
    slackWantedSeconds: fc.constantFrom(0, 300),
    paceFactor: fc.constantFrom(0.2, 0.8, 1, 3, 5),
    allowanceShare: fc.constantFrom(0, 0.15, 1),
    minorMassLimitKilograms: fc.constantFrom(1, 10, 25),
    adultOnlySkills: fc.constantFrom([], ['sound'], ['rigging', 'sound']),
  },
  { requiredKeys: [] },
)
const site = fc.record({ units: fc.constantFrom('metric', 'us'), codeTables: fc.constantFrom('us', 'uk') })

export const damagedSite = (): fc.Arbitrary<SetupToCheck> =>
  fc
    .record({
      rowsGone: fc.array(fc.constantFrom(...rowPlaces), { maxLength: 3 }),
      damages: fc.array(damage, { maxLength: 60, size: 'max' }),
      policy,
      site,
    })
    .map(({ rowsGone, damages, ...more }) => {
      const changes: Partial<Record<Table, Record<string, Row | null>>> = structuredClone(rows)
      for (const { place, put } of damages) {
        const byId = changes[place.table]
        const damaged: Row = structuredClone(byId?.[place.id] ?? {})
        putAt(damaged, place.path, put)
        if (byId && isValidRow(place.table, place.id, damaged)) byId[place.id] = damaged
      }
      for (const { table, id } of rowsGone) {
        const byId = changes[table]
        if (byId) byId[id] = null
      }
      return aCleanSite({ ...changes, ...more })
    })

/** What may be entered in the place of a value: mostly something of its kind. Undefined: it is taken out. */
function valuesLike(value: unknown): unknown[] {
  if (typeof value === 'number') return [...(value > 1e9 ? moments : numbers), null]
  if (typeof value === 'boolean') return [true, false, null]
  if (typeof value !== 'string') return [null, 1, 2, '2026-11-20', undefined]
  if (/^\d\d:/.test(value)) return times
  if (/^\d{4}-/.test(value)) return [...dates, null]
  const kind = /^[a-z]+_/.exec(value)?.[0]
  return [...texts.filter((text) => (kind ? text.startsWith(kind) : !/_|\d/.test(text))), null, undefined]
}

function placesIn(node: unknown, path: Path): Path[] {
  if (typeof node !== 'object' || node === null) return [path]
  return Object.entries(node).flatMap(([key, child]) => placesIn(child, [...path, key]))
}

function valueAt(row: Row, path: Path): unknown {
  return path.reduce((node: unknown, key) => childOf(node, key), row)
}

/** Where something above it is gone already, nothing is put. */
function putAt(root: object, path: Path, put: unknown): void {
  const holder = path.slice(0, -1).reduce((node: unknown, key) => childOf(node, key), root)
  const last = path.at(-1)
  if (typeof holder !== 'object' || holder === null || last === undefined) return
  if (put !== undefined) Reflect.set(holder, last, put)
  else if (Array.isArray(holder)) holder.splice(Number(last), 1)
  else Reflect.deleteProperty(holder, last)
}

function childOf(node: unknown, key: Key): unknown {
  return typeof node === 'object' && node !== null ? Reflect.get(node, key) : undefined
}
