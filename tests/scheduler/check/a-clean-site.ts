/**
 * A small hall with nothing to find in it: plain data, so that every default of the domain fills in. A test says what
 * is other by row: some fields of it, a row that is not there yet, or null for one that is gone.
 */
import type { z } from 'zod'
import { Booking } from '../../../src/domain/booking.ts'
import { Closure } from '../../../src/domain/closure.ts'
import { Equipment } from '../../../src/domain/equipment.ts'
import { Exit } from '../../../src/domain/exit.ts'
import { Furnishing } from '../../../src/domain/furnishing.ts'
import { PersonId } from '../../../src/domain/ids.ts'
import { Instant } from '../../../src/domain/instant.ts'
import { Layout } from '../../../src/domain/layout.ts'
import { Passage } from '../../../src/domain/passage.ts'
import { Person } from '../../../src/domain/person.ts'
import { Policy } from '../../../src/domain/policy.ts'
import { RateSet } from '../../../src/domain/rate-set.ts'
import { Room } from '../../../src/domain/room.ts'
import { Section } from '../../../src/domain/section.ts'
import { Shift } from '../../../src/domain/shift.ts'
import { Site } from '../../../src/domain/site.ts'
import { StockChange } from '../../../src/domain/stock-change.ts'
import { StoragePlace } from '../../../src/domain/storage-place.ts'
import { Tool } from '../../../src/domain/tool.ts'
import type { SetupToCheck } from '../../../src/scheduler/check/index.ts'

/** Monday 23 November 2026, 09:00 in Chicago. */
export const NOW = Instant.parse(Date.UTC(2026, 10, 23, 15))

export type Row = Readonly<Record<string, unknown>>
export type Rows = Readonly<Record<string, Row>>

const everyDay = [1, 2, 3, 4, 5, 6, 7]

export const pieces = (counts: Readonly<Record<string, number>>) =>
  Object.entries(counts).map(([name, count]) => ({ furnishingId: `furnishing_${name}`, count }))
export const states = (settings: Readonly<Record<string, string>>) =>
  Object.entries(settings).map(([name, state]) => ({
    equipmentId: `equipment_${name}`,
    setting: { kind: 'state', state },
  }))
export const step = (from: string, to: string, more: Row = {}) => ({
  from,
  to,
  seconds: 60,
  hands: 1,
  skill: null,
  needsFloorClear: false,
  ...more,
})
export const statesControl = (names: readonly string[], transitions: readonly Row[]) => ({
  kind: 'states',
  states: names,
  homeState: names[0],
  transitions,
})
export const weekly = (more: Row = {}) => ({
  kind: 'weekly',
  weekdays: everyDay,
  startsLocal: '07:00',
  endsLocal: '23:00',
  firstDate: '2026-01-01',
  lastDate: null,
  ...more,
})
export const hands = (count: number, more: Row = {}) => ({
  kind: 'hands',
  hands: count,
  skills: [],
  adults: true,
  ...more,
})
/** Days count from NOW; whole minutes. */
export const inDays = (days: number): number => NOW + Math.round(days * 1440) * 60_000
/** From doors to clear in days from NOW. */
export const booking = (title: string, room: string, layout: string, doors: number, clear: number) => ({
  title,
  roomId: `room_${room}`,
  layoutId: `layout_${layout}`,
  headcount: 40,
  doorsAt: inDays(doors),
  startsAt: inDays(doors),
  endsAt: inDays(clear),
  clearAt: inDays(clear),
  foodServed: false,
  floorWet: false,
  status: 'CONFIRMED',
  version: 1,
  turnId: `turn_${layout}`,
})

/** Corners of a strip of the main hall, from one depth to another. */
export function strip(from: number, to: number) {
  return [
    { xMetres: 0, yMetres: from },
    { xMetres: 18, yMetres: from },
    { xMetres: 18, yMetres: to },
    { xMetres: 0, yMetres: to },
  ]
}

const openingHours = [{ weekdays: everyDay, opensLocal: '07:00', closesLocal: '23:30' }]
const noTimes = { setPersonSeconds: null, strikePersonSeconds: null }

const clean = {
  sections: {
    section_main: { name: 'Main', areaSquareMetres: 216, floorKind: 'sealed-wood' },
    section_side: { name: 'Side', areaSquareMetres: 84, floorKind: 'vinyl' },
  },
  exits: {
    exit_east: { name: 'East doors', sectionId: 'section_main', clearWidthMetres: 1.6 },
    exit_west: { name: 'West doors', sectionId: 'section_main', clearWidthMetres: 1.6 },
    exit_side: { name: 'Side door', sectionId: 'section_side', clearWidthMetres: 0.9 },
    exit_yard: { name: 'Yard door', sectionId: 'section_side', clearWidthMetres: 0.9 },
  },
  passages: {
    passage_door: { name: 'store door', kind: 'doorway', clearWidthMetres: 1.4 },
    passage_lift: { name: 'goods lift', kind: 'lift', rideSeconds: 40, loadLimitKilograms: 1000 },
  },
  rooms: {
    room_main: {
      name: 'Main Hall',
      sectionIds: ['section_main'],
      occupantLimitPosted: 220,
      homeLayoutId: 'layout_games',
      openingHours,
      floor: { kind: 'rectangle', widthMetres: 18, depthMetres: 12 },
      acousticallyJoinedRoomIds: ['room_side'],
    },
    room_side: {
      name: 'Side Room',
      sectionIds: ['section_side'],
      occupantLimitPosted: 60,
      homeLayoutId: 'layout_meeting',
      openingHours,
      acousticallyJoinedRoomIds: ['room_main'],
    },
  },
  storagePlaces: {
    storage_north: {
      name: 'north store',
      areaSquareMetres: 30,
      routes: [
        { roomId: 'room_main', distanceMetres: 25, passageIds: ['passage_door'] },
        { roomId: 'room_side', distanceMetres: 40, passageIds: ['passage_door', 'passage_lift'] },
      ],
      limits: [{ furnishingId: 'furnishing_table', countMost: 18 }],
      depthOrder: ['furnishing_chair', 'furnishing_table'],
    },
  },
  furnishings: {
    furnishing_chair: {
      storedAreaSquareMetres: 0.05,
      name: 'stacking chair',
      namePlural: 'stacking chairs',
      kind: 'stacking-chair',
      countOwned: 300,
      massKilograms: 6,
      storagePlaceId: 'storage_north',
      method: 'trolley',
      handsPerPiece: 1,
      trolley: { capacityPieces: 25, countOwned: 4 },
      widthMetres: 0.45,
      depthMetres: 0.5,
      ...noTimes,
    },
    furnishing_table: {
      storedAreaSquareMetres: 0.2,
      name: 'round table',
      namePlural: 'round tables',
      kind: 'round-table',
      countOwned: 18,
      massKilograms: 27,
      storagePlaceId: 'storage_north',
      method: 'trolley',
      handsPerPiece: 2,
      trolley: { capacityPieces: 9, countOwned: 2 },
      widthMetres: 1.52,
      depthMetres: 1.52,
      seatsPerPiece: 8,
      ...noTimes,
    },
    furnishing_cloth: {
      storedAreaSquareMetres: 0.005,
      name: 'table cloth',
      namePlural: 'table cloths',
      kind: 'table-cloth',
      countOwned: 48,
      massKilograms: 0.6,
      storagePlaceId: 'storage_north',
      method: 'carry',
      handsPerPiece: 1,
      trolley: null,
      ...noTimes,
    },
    furnishing_deck: {
      storedAreaSquareMetres: 0.3,
      name: 'stage deck',
      namePlural: 'stage decks',
      kind: 'stage-deck',
      countOwned: 6,
      massKilograms: 55,
      storagePlaceId: 'storage_north',
      method: 'carry',
      handsPerPiece: 2,
      trolley: null,
      ...noTimes,
    },
  },
  tools: {
    tool_mop: { name: 'dust mop', namePlural: 'dust mops', countOwned: 2, cleaningMethods: ['dust-mop'] },
    tool_broom: { name: 'broom', namePlural: 'brooms', countOwned: 3, cleaningMethods: ['sweep'] },
    tool_bucket: {
      name: 'mop and bucket',
      namePlural: 'mops and buckets',
      countOwned: 2,
      cleaningMethods: ['spot-mop', 'wet-mop'],
    },
  },
  equipment: {
    equipment_sound: {
      name: 'sound desk',
      sectionIds: ['section_main'],
      kind: 'sound',
      control: statesControl(
        ['off', 'speech', 'music'],
        [
          step('off', 'speech', { skill: 'sound' }),
          step('off', 'music', { skill: 'sound' }),
          step('speech', 'off'),
          step('music', 'off'),
        ],
      ),
    },
    equipment_projector: {
      name: 'projector',
      sectionIds: ['section_main'],
      kind: 'projection',
      control: statesControl(
        ['off', 'slides', 'game-input'],
        [
          step('off', 'slides'),
          step('slides', 'off'),
          step('slides', 'game-input'),
          step('game-input', 'slides'),
        ],
      ),
    },
    equipment_lights: {
      name: 'house lights',
      sectionIds: ['section_main'],
      kind: 'lighting',
      control: {
        kind: 'level',
        lowestPercent: 10,
        highestPercent: 100,
        canBeOff: true,
        homeSetting: { kind: 'level', levelPercent: 100 },
        setSeconds: 30,
        hands: 1,
        skill: null,
      },
    },
  },
  layouts: {
    layout_games: {
      roomId: 'room_main',
      name: 'games floor',
      kind: 'games',
      seats: null,
      furnishings: pieces({ chair: 20 }),
      equipment: states({ projector: 'game-input' }),
    },
    layout_banquet: {
      roomId: 'room_main',
      name: 'banquet',
      kind: 'banquet',
      seats: 120,
      furnishings: pieces({ table: 15, chair: 120, cloth: 15 }),
      equipment: [
        ...states({ sound: 'speech' }),
        { equipmentId: 'equipment_lights', setting: { kind: 'level', levelPercent: 60 } },
      ],
    },
    layout_worship: {
      roomId: 'room_main',
      name: 'rows',
      kind: 'worship',
      seats: 150,
      furnishings: pieces({ chair: 150, deck: 6 }),
      equipment: states({ sound: 'music', projector: 'slides' }),
    },
    layout_meeting: {
      roomId: 'room_side',
      name: 'circle',
      kind: 'meeting',
      seats: 40,
      furnishings: pieces({ chair: 40 }),
      equipment: [],
    },
  },
  people: {
    person_rae: { adult: true, skills: ['sound'] },
    person_ivo: { adult: true, skills: [] },
  },
  shifts: {
    shift_rae: { name: 'Rae', crew: { kind: 'person', personId: 'person_rae' }, times: weekly() },
    shift_ivo: { name: 'Ivo', crew: { kind: 'person', personId: 'person_ivo' }, times: weekly() },
    shift_crew: { name: 'evening crew', crew: hands(4), times: weekly({ startsLocal: '17:00' }) },
  },
  stockChanges: {},
  closures: {},
  bookings: {},
} satisfies Readonly<Record<string, Rows>>

export type Table = keyof typeof clean
export const cleanRows: Readonly<Record<Table, Rows>> = clean

export type Changes = Readonly<Partial<Record<Table, Readonly<Record<string, Row | null>>>>> & {
  readonly site?: Row
  readonly policy?: Row
  readonly rateSet?: Row
  readonly retired?: Readonly<Partial<Record<Table, Rows>>>
}

export const names = new Map([
  [PersonId.parse('person_rae'), 'Rae Quillfeather'],
  [PersonId.parse('person_ivo'), 'Ivo Tanglewick'],
])

const schemas = {
  sections: Section,
  exits: Exit,
  passages: Passage,
  rooms: Room,
  storagePlaces: StoragePlace,
  furnishings: Furnishing,
  tools: Tool,
  equipment: Equipment,
  layouts: Layout,
  people: Person,
  shifts: Shift,
  stockChanges: StockChange,
  closures: Closure,
  bookings: Booking,
} satisfies Readonly<Record<Table, z.ZodType>>

const siteId = 'site_quarry'

export const isValidRow = (table: Table, id: string, row: Row): boolean =>
  schemas[table].safeParse({ ...row, id, siteId }).success

/** @throws ZodError when the changes make a row that is not valid */
export function aCleanSite(changes: Changes = {}): SetupToCheck {
  const rows = <Schema extends z.ZodType>(schema: Schema, plain: Rows): z.output<Schema>[] =>
    Object.entries(plain)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, row]) => schema.parse({ ...row, id, siteId }))
  const inForce = <Schema extends z.ZodType>(schema: Schema, table: Table) =>
    rows(schema, changed(clean[table], changes[table] ?? {}))
  const gone = <Schema extends z.ZodType>(schema: Schema, table: Table) =>
    rows(schema, changes.retired?.[table] ?? {})
  return {
    site: Site.parse({ id: siteId, name: 'Quarry Row', zone: 'America/Chicago', ...changes.site }),
    sections: inForce(Section, 'sections'),
    exits: inForce(Exit, 'exits'),
    passages: inForce(Passage, 'passages'),
    rooms: inForce(Room, 'rooms'),
    storagePlaces: inForce(StoragePlace, 'storagePlaces'),
    furnishings: inForce(Furnishing, 'furnishings'),
    tools: inForce(Tool, 'tools'),
    equipment: inForce(Equipment, 'equipment'),
    layouts: inForce(Layout, 'layouts'),
    people: inForce(Person, 'people'),
    shifts: inForce(Shift, 'shifts'),
    stockChanges: inForce(StockChange, 'stockChanges'),
    closures: inForce(Closure, 'closures'),
    bookings: inForce(Booking, 'bookings'),
    rateSet: changes.rateSet ? RateSet.parse({ id: 'rateset_one', siteId, ...changes.rateSet }) : null,
    policy: Policy.parse({ ...policy, id: 'policy_one', siteId, ...changes.policy }),
    retired: {
      sections: gone(Section, 'sections'),
      rooms: gone(Room, 'rooms'),
      storagePlaces: gone(StoragePlace, 'storagePlaces'),
      furnishings: gone(Furnishing, 'furnishings'),
      equipment: gone(Equipment, 'equipment'),
      layouts: gone(Layout, 'layouts'),
      shifts: gone(Shift, 'shifts'),
    },
    personNames: names,
  }
}

function changed(plain: Rows, changes: Readonly<Record<string, Row | null>>): Rows {
  const rows: Record<string, Row> = { ...plain }
  for (const [id, row] of Object.entries(changes)) {
    if (row === null) delete rows[id]
    else rows[id] = { ...rows[id], ...row }
  }
  return rows
}

const boundary = { doorsBeforeStartSeconds: 1800, clearAfterEndSeconds: 1200 }
const policy = {
  boundaries: {
    worship: boundary,
    banquet: boundary,
    games: boundary,
    overflow: boundary,
    meeting: boundary,
    other: boundary,
  },
  paceFactor: 1.5,
  allowanceShare: 0.15,
  effectiveHands: [
    { hands: 1, effective: 1 },
    { hands: 4, effective: 3.7 },
  ],
  briefingSeconds: 300,
  slackWantedSeconds: 300,
  walkBetweenRoomsSeconds: 120,
  zoneSquareMetres: 100,
  cleaning: {
    worship: ['dust-mop'],
    banquet: ['sweep', 'spot-mop'],
    games: ['dust-mop'],
    overflow: ['dust-mop'],
    meeting: ['dust-mop'],
    other: ['dust-mop'],
  },
  workMost: 60,
}
