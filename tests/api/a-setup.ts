/** A hall with one of everything and nothing wrong with it, without a service: for rules that look at rows alone. */
import { defaultPolicy } from '../../src/api/policies/default-policy.ts'
import { PolicyId, SiteId } from '../../src/domain/ids.ts'
import { type SetupKind, type SetupRows, setupSchemas } from '../../src/domain/setup.ts'
import { Site } from '../../src/domain/site.ts'
import type { SiteSetup } from '../../src/domain/snapshot.ts'
import { DEFAULT_RATES } from '../../src/scheduler/network/index.ts'

export const siteId = SiteId.parse('site_alder')
/** Monday 23 November 2026, 09:00 in Chicago. */
const now = Date.UTC(2026, 10, 23, 15)
export const hours = (count: number): number => now + count * 3_600_000

const chair = {
  name: 'stacking chair',
  namePlural: 'stacking chairs',
  kind: 'stacking-chair',
  countOwned: 240,
  massKilograms: 6,
  storagePlaceId: 'storage_yard',
  method: 'trolley',
  handsPerPiece: 1,
  setPersonSeconds: null,
  strikePersonSeconds: null,
  trolley: { capacityPieces: 25, countOwned: 4 },
  widthMetres: 0.5,
  depthMetres: 0.6,
}

const transition = { hands: 1, skill: null, needsFloorClear: false }

/** One row of each kind by its fields; ids end in the word that is said here. */
export const plainRows = {
  section: { id: 'section_north', name: 'North', areaSquareMetres: 216, floorKind: 'sealed-wood' },
  exit: { id: 'exit_east', name: 'East door', sectionId: 'section_north', clearWidthMetres: 1.8 },
  passage: { id: 'passage_dock', name: 'Dock door', kind: 'doorway' },
  room: {
    id: 'room_hall',
    name: 'Long Hall',
    sectionIds: ['section_north'],
    occupantLimitPosted: 220,
    homeLayoutId: null,
    openingHours: null,
    floor: { kind: 'rectangle', widthMetres: 18, depthMetres: 12 },
    parking: [{ name: 'Stage front', areaSquareMetres: 20 }],
  },
  storagePlace: {
    id: 'storage_yard',
    name: 'Yard store',
    routes: [{ roomId: 'room_hall', distanceMetres: 25, passageIds: ['passage_dock'] }],
    limits: [{ furnishingId: 'furnishing_chair', countMost: 240 }],
    depthOrder: ['furnishing_table', 'furnishing_chair'],
  },
  furnishing: { id: 'furnishing_chair', ...chair },
  tool: {
    id: 'tool_mop',
    name: 'dust mop',
    namePlural: 'dust mops',
    countOwned: 3,
    cleaningMethods: ['dust-mop'],
    furnishingIds: [],
  },
  equipment: {
    id: 'equipment_screen',
    name: 'Screen',
    kind: 'screen',
    sectionIds: ['section_north'],
    control: {
      kind: 'states',
      states: ['up', 'down'],
      homeState: 'up',
      transitions: [
        { from: 'up', to: 'down', seconds: 60, ...transition },
        { from: 'down', to: 'up', seconds: 60, ...transition },
      ],
    },
    protections: [{ during: ['games'], setting: { kind: 'state', state: 'up' } }],
  },
  layout: {
    id: 'layout_meeting',
    roomId: 'room_hall',
    name: 'Two rows',
    kind: 'meeting',
    seats: 2,
    furnishings: [{ furnishingId: 'furnishing_chair', count: 2 }],
    equipment: [{ equipmentId: 'equipment_screen', setting: { kind: 'state', state: 'down' } }],
    placements: [
      { furnishingId: 'furnishing_chair', xMetres: 4, yMetres: 4, rotationDegrees: 0 },
      { furnishingId: 'furnishing_chair', xMetres: 6, yMetres: 4, rotationDegrees: 90 },
    ],
  },
  person: { id: 'person_reed', adult: true, skills: ['sound', 'lift-operator'] },
  shift: {
    id: 'shift_reed',
    name: 'Reed, evenings',
    crew: { kind: 'person', personId: 'person_reed' },
    times: {
      kind: 'weekly',
      weekdays: [5, 6],
      startsLocal: '17:00',
      endsLocal: '23:00',
      firstDate: '2026-01-01',
      lastDate: null,
      exceptions: [{ kind: 'off', date: '2026-11-27' }],
    },
  },
  closure: {
    id: 'closure_floor',
    sectionIds: ['section_north'],
    fromAt: hours(24),
    toAt: hours(48),
    reason: 'New floor',
  },
  stockChange: {
    id: 'stockchange_lent',
    of: { kind: 'furnishing', furnishingId: 'furnishing_chair', count: 40 },
    why: 'lent-out',
    fromAt: hours(24),
    toAt: hours(72),
  },
  observation: {
    id: 'observation_monday',
    roomId: 'room_hall',
    seenAt: hours(-1),
    pieces: [{ furnishingId: 'furnishing_chair', count: 30 }],
  },
  rateSet: { id: 'rateset_first', number: 1, name: 'First', rates: DEFAULT_RATES, marks: {} },
  policy: defaultPolicy(PolicyId.parse('policy_first'), siteId),
} as const satisfies { readonly [Kind in SetupKind]: object }

/** The plain row of a kind with other fields. */
export const aRow = <Kind extends SetupKind>(kind: Kind, fields: object = {}): SetupRows[Kind] =>
  setupSchemas[kind].parse({ siteId, ...plainRows[kind], ...fields })

const table = aRow('furnishing', {
  id: 'furnishing_table',
  name: 'round table',
  namePlural: 'round tables',
  kind: 'round-table',
  countOwned: 15,
  widthMetres: 1.5,
  depthMetres: 1.5,
})

/** @param lists  rows in the place of those that are there */
export const aSetup = (lists: Partial<SiteSetup> = {}): SiteSetup => ({
  site: Site.parse({ id: siteId, name: 'Alder Row', zone: 'America/Chicago' }),
  sections: [aRow('section')],
  exits: [aRow('exit')],
  passages: [aRow('passage')],
  rooms: [aRow('room')],
  storagePlaces: [aRow('storagePlace')],
  furnishings: [aRow('furnishing'), table],
  tools: [aRow('tool')],
  equipment: [aRow('equipment')],
  layouts: [aRow('layout')],
  people: [aRow('person')],
  shifts: [aRow('shift')],
  stockChanges: [aRow('stockChange')],
  rateSet: aRow('rateSet'),
  policy: aRow('policy'),
  retired: {
    sections: [],
    rooms: [],
    storagePlaces: [],
    furnishings: [],
    equipment: [],
    layouts: [],
    shifts: [],
  },
  ...lists,
})
