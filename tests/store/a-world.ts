/**
 * A small hall as domain objects: two halves that open into one, games and banquet in each, four hands every day.
 * Each builder makes something valid and takes only what matters to the test.
 */
import { Booking } from '../../src/domain/booking.ts'
import type { Changes, RowChange } from '../../src/domain/decision.ts'
import { ActorId, SiteId } from '../../src/domain/ids.ts'
import { Instant } from '../../src/domain/instant.ts'
import { PersonDetails } from '../../src/domain/person.ts'
import { Plan } from '../../src/domain/plan.ts'
import { type SetupKind, type SetupRows, type SetupWrite, SetupWriteSchema } from '../../src/domain/setup.ts'
import { Site } from '../../src/domain/site.ts'
import { Turn } from '../../src/domain/turn.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Commit, IdempotentAnswer, Store } from '../../src/store/store.ts'

export const siteId = SiteId.parse('site_larch-court')
export const actorId = ActorId.parse('actor_desk')
export const site = Site.parse({ id: siteId, name: 'Larch Court', zone: 'Europe/London' })

/** Noon of a Monday; tests count hours from here. */
const START_AT = Date.UTC(2026, 10, 23, 12)
export const at = (hours: number): Instant => Instant.parse(START_AT + hours * 3_600_000)
export const hours = (from: number, to: number) => ({ fromAt: at(from), toAt: at(to) })
export const everything = hours(-24 * 365, 24 * 365 * 10)

/** A set-up row to be added, through its schema. */
export const addition = (kind: SetupKind, row: object): SetupWrite =>
  SetupWriteSchema.parse({ kind, before: null, after: { siteId, ...row }, retire: false })

/** The same row with something else in it. */
export const change = (kind: SetupKind, before: SetupRows[SetupKind], rest: object): SetupWrite =>
  SetupWriteSchema.parse({ kind, before, after: { ...before, ...rest }, retire: false })

export const retirement = (kind: SetupKind, row: SetupRows[SetupKind]): SetupWrite =>
  SetupWriteSchema.parse({ kind, before: row, after: row, retire: true })

export const aPolicy = (id: string) =>
  addition('policy', {
    id,
    boundaries: ofEachKind({ doorsBeforeStartSeconds: 1_800, clearAfterEndSeconds: 1_800 }),
    paceFactor: 1.5,
    allowanceShare: 0.15,
    effectiveHands: [{ hands: 4, effective: 3.7 }],
    briefingSeconds: 300,
    slackWantedSeconds: 900,
    walkBetweenRoomsSeconds: 60,
    zoneSquareMetres: 100,
    cleaning: ofEachKind(['dust-mop']),
    workMost: 50,
  })

function ofEachKind<Value>(value: Value) {
  return Object.fromEntries(
    ['worship', 'banquet', 'games', 'overflow', 'meeting', 'other'].map((kind) => [kind, value]),
  )
}

const aLayout = (id: string, roomId: string, kind: 'games' | 'banquet') =>
  addition('layout', {
    id,
    roomId,
    name: kind,
    kind,
    seats: 120,
    furnishings: [{ furnishingId: 'furnishing_chair', count: 100 }],
    equipment: [{ equipmentId: 'equipment_lights', setting: { kind: 'state', state: 'on' } }],
  })

const aRoom = (id: string, sectionIds: string[], homeLayoutId: string | null) =>
  addition('room', { id, name: id, sectionIds, occupantLimitPosted: 300, homeLayoutId, openingHours: null })

const lights = (from: string, to: string) => ({
  from,
  to,
  seconds: 30,
  hands: 1,
  skill: null,
  needsFloorClear: false,
})

export const aHall: readonly SetupWrite[] = [
  aPolicy('policy_first'),
  addition('person', { id: 'person_wren', adult: true, skills: ['sound'] }),
  addition('shift', {
    id: 'shift_crew',
    name: 'Crew',
    crew: { kind: 'hands', hands: 4, skills: [], adults: true },
    times: {
      kind: 'weekly',
      weekdays: [1, 2, 3, 4, 5, 6, 7],
      startsLocal: '07:00',
      endsLocal: '23:00',
      firstDate: '2026-01-01',
      lastDate: null,
    },
  }),
  aRoom('room_east', ['section_east'], 'layout_east-games'),
  aRoom('room_west', ['section_west'], null),
  aRoom('room_whole', ['section_east', 'section_west'], null),
  ...['east', 'west'].map((half) =>
    addition('section', {
      id: `section_${half}`,
      name: half,
      areaSquareMetres: 107,
      floorKind: 'sealed-wood',
    }),
  ),
  ...['east', 'west', 'whole'].flatMap((room) => [
    aLayout(`layout_${room}-games`, `room_${room}`, 'games'),
    aLayout(`layout_${room}-banquet`, `room_${room}`, 'banquet'),
  ]),
  addition('storagePlace', {
    id: 'storage_back',
    name: 'Back store',
    routes: [{ roomId: 'room_east', distanceMetres: 25 }],
  }),
  addition('furnishing', {
    id: 'furnishing_chair',
    name: 'chair',
    namePlural: 'chairs',
    kind: 'stacking-chair',
    countOwned: 300,
    massKilograms: 5,
    storagePlaceId: 'storage_back',
    method: 'trolley',
    handsPerPiece: 1,
    setPersonSeconds: null,
    strikePersonSeconds: null,
    trolley: { capacityPieces: 25, countOwned: 4 },
  }),
  addition('equipment', {
    id: 'equipment_lights',
    name: 'Lights',
    sectionIds: ['section_east'],
    control: {
      kind: 'states',
      states: ['on', 'off'],
      homeState: 'off',
      transitions: [lights('off', 'on'), lights('on', 'off')],
    },
  }),
]

export const wrensDetails = PersonDetails.parse({
  personId: 'person_wren',
  name: 'Wren Alderbeck',
  email: 'wren@alderbeck.example',
  phone: '0100 555 0142',
})

/** A booking named by a word, in the east half for three hours from `doors`, hours from the start. */
export function aBooking(
  word: string,
  {
    room = 'east',
    doors = 0,
    clear = doors + 3,
    ...rest
  }: { room?: string; doors?: number; clear?: number } & Partial<Record<keyof Booking, unknown>> = {},
): Booking {
  return Booking.parse({
    id: `booking_${word}`,
    siteId,
    title: `The ${word}`,
    roomId: `room_${room}`,
    layoutId: `layout_${room}-games`,
    headcount: 60,
    doorsAt: at(doors),
    startsAt: at(doors),
    endsAt: at(clear),
    clearAt: at(clear),
    foodServed: false,
    floorWet: false,
    status: 'CONFIRMED',
    version: 1,
    turnId: `turn_${word}`,
    ...rest,
  })
}

/** A plan of so many tasks in the hour before doors. */
export function aPlan(booking: Booking, tasks = 2): Plan {
  const minute = (n: number) => booking.doorsAt - 3_600_000 + n * 60_000
  return Plan.parse({
    tasks: Array.from({ length: tasks }, (_, k) => ({
      key: `set-chairs-${k + 1}`,
      kind: 'set',
      zone: 1,
      text: 'Set 25 chairs in zone 1 from the back store, one trolley load',
      count: 25,
      furnishingId: 'furnishing_chair',
      equipmentId: null,
      fromPlace: 'Back store',
      toPlace: 'zone 1',
      workPersonSeconds: 240,
      modes: [1, 2, 3, 4].map((hands) => ({ hands, seconds: Math.ceil(240 / hands) })),
      skill: null,
      adultsOnly: false,
      uses: [{ resource: 'trolley:furnishing_chair', amount: 1 }],
      after: k === 0 ? [] : [`set-chairs-${k}`],
      safetyNotes: [],
      hands: 2,
      laneIds: ['shift_crew#1', 'shift_crew#2'],
      startsAt: minute((k * 55) / tasks),
      endsAt: minute(((k + 1) * 55) / tasks),
    })),
    resources: [{ key: 'trolley:furnishing_chair', label: 'chair trolleys', capacity: 4 }],
    startsAt: minute(0),
    readyAt: minute(55),
    criticalTaskKeys: ['set-chairs-1'],
    solverVersion: 'test',
    workDone: 1,
  })
}

/** A plan with crew at the event itself from doors, until so many hours after them. */
export function aPlanWithDuty(booking: Booking, lastHours: number): Plan {
  const plan = aPlan(booking)
  const [first] = plan.tasks
  const duty = {
    ...first,
    key: 'duty-ushers',
    kind: 'duty',
    text: 'Ushers at the doors',
    count: null,
    furnishingId: null,
    uses: [],
    after: [],
    startsAt: booking.doorsAt,
    endsAt: booking.doorsAt + lastHours * 3_600_000,
  }
  return Plan.parse({ ...plan, tasks: [...plan.tasks, duty] })
}

/** The turn that prepares a booking, ready by default. */
export function aTurn(booking: Booking, rest: object = {}): Turn {
  return Turn.parse({
    id: booking.turnId,
    siteId,
    bookingId: booking.id,
    roomId: booking.roomId,
    predecessorBookingIds: [],
    fromLayoutIds: [],
    toLayoutId: booking.layoutId,
    releaseAt: booking.doorsAt - 24 * 3_600_000,
    dueAt: booking.doorsAt,
    inputHash: 'a-hash',
    status: 'ready',
    judgement: {
      verdict: 'fits',
      reasons: [],
      judgedAt: at(-48),
      staffedWindowSeconds: 36_000,
      neededSeconds: 3_300,
      lowerBoundSeconds: 1_800,
      proof: null,
      readyAt: booking.doorsAt - 300_000,
      slackSeconds: 300,
      hands: { needed: 2, onDuty: 4, assumed: 0 },
      policyId: 'policy_first',
    },
    plan: aPlan(booking),
    ...rest,
  })
}

export const added = <Row>(after: Row): RowChange<Row> => ({ before: null, after })

export const changes = (rest: Partial<Changes>): Changes => ({
  bookings: [],
  turns: [],
  setup: [],
  ...rest,
})

/** A commit on top of version 1, which is what founding the hall leaves. */
export const aCommit = (rest: Partial<Commit> = {}): Commit => ({
  siteId,
  planningVersionExpected: 1,
  actorId,
  action: 'book',
  reason: null,
  at: at(-48),
  ...rest,
})

/** New bookings with their turns. */
export const booked = (bookings: readonly Booking[], rest: Partial<Commit> = {}): Commit =>
  aCommit({
    changes: changes({ bookings: bookings.map(added), turns: bookings.map((b) => added(aTurn(b))) }),
    ...rest,
  })

export const founding: Commit = aCommit({
  planningVersionExpected: null,
  action: 'found-site',
  site,
  setup: aHall,
  personDetails: [wrensDetails],
})

/** A store of its own with the hall in it, at version 1. */
export async function aStore(options: { file?: string } = {}): Promise<Store> {
  const store = await openSqliteStore({ file: ':memory:', ...options })
  await store.commit(founding)
  return store
}

export const anAnswer = (rest: Partial<IdempotentAnswer> = {}): IdempotentAnswer => ({
  actorId,
  route: 'POST /v1/sites/site_larch-court/bookings',
  key: 'key-1',
  bodyHash: 'ab12',
  status: 201,
  headers: { location: '/v1/sites/site_larch-court/bookings/booking_dinner' },
  body: '{"ok":true}',
  ...rest,
})
