/** A small valid hall to decide on; a test names only what matters to it. */
import type { z } from 'zod'
import { Booking } from '../../../src/domain/booking.ts'
import type { Closure } from '../../../src/domain/closure.ts'
import type { Changes } from '../../../src/domain/decision.ts'
import { Equipment } from '../../../src/domain/equipment.ts'
import { Furnishing } from '../../../src/domain/furnishing.ts'
import { SiteId } from '../../../src/domain/ids.ts'
import type { Instant } from '../../../src/domain/instant.ts'
import { Layout } from '../../../src/domain/layout.ts'
import { Observation } from '../../../src/domain/observation.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Passage } from '../../../src/domain/passage.ts'
import { Person } from '../../../src/domain/person.ts'
import { Policy } from '../../../src/domain/policy.ts'
import { Room } from '../../../src/domain/room.ts'
import { Section } from '../../../src/domain/section.ts'
import type { SetupWrite } from '../../../src/domain/setup.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { StockChange } from '../../../src/domain/stock-change.ts'
import { StoragePlace } from '../../../src/domain/storage-place.ts'

import { Tool } from '../../../src/domain/tool.ts'
import { setupAfter } from '../../../src/scheduler/decide/index.ts'
import { instantFromLocal } from '../../../src/scheduler/timeline/wall-time.ts'

export const ZONE = 'America/Chicago'
const siteId = SiteId.parse('site_test')

/** A wall-clock time at the site, `2026-06-05T18:00`. */
export const at = (local: string): Instant => instantFromLocal(ZONE, local).instant

export interface HallWishes {
  /** Unnamed adults on duty on 5 and 6 June 2026, from 06:00 until midnight. */
  readonly hands?: number
  readonly shifts?: readonly unknown[]
  readonly people?: readonly unknown[]
  readonly now?: string
  readonly slackWantedSeconds?: number
  readonly occupantLimitPosted?: number | null
  readonly openingHours?: unknown
  readonly soundSkill?: string | null
  readonly closures?: readonly Closure[]
  readonly observations?: readonly unknown[]
  readonly passages?: readonly unknown[]
  readonly tools?: readonly unknown[]
  readonly stockChanges?: readonly unknown[]
  readonly storeRoutePassageIds?: readonly string[]
  /** Over the policy as it is otherwise. */
  readonly policy?: Partial<z.input<typeof Policy>>
  /** By room, as in `{ long: 'worship' }`; a room that is not named has none. */
  readonly homeLayouts?: Readonly<Record<string, string>>
  /** The north half is let singly too, with layouts `north-meeting` and `north-open-day`, which has the wall open. */
  readonly northRoom?: boolean
  /** A wall between the halves: open for layouts of the long room, closed for meetings in its halves. */
  readonly movableWall?: boolean
}

/** A long room (two halves, also let singly) and a side room, a store with chairs and tables, a sound desk. */
export function aHall(wishes: HallWishes = {}): SiteSnapshot {
  const of = { siteId }
  const room = { ...of, openingHours: wishes.openingHours ?? null }
  const homeLayout = (name: string) => {
    const home = wishes.homeLayouts?.[name]
    return { homeLayoutId: home === undefined ? null : `layout_${name}-${home}` }
  }
  const wall = (state: string) =>
    wishes.movableWall ? [{ equipmentId: 'equipment_wall', setting: { kind: 'state', state } }] : []
  return {
    site: { id: siteId, name: 'Test Hall', zone: ZONE, units: 'metric', codeTables: 'us' },
    now: at(wishes.now ?? '2026-06-01T09:00'),
    planningVersion: 1,
    judgedThroughAt: null,
    window: { fromAt: at('2026-05-20T00:00'), toAt: at('2026-07-01T00:00') },
    sections: [
      { ...of, id: 'section_north', name: 'North half', areaSquareMetres: 107, floorKind: 'sealed-wood' },
      { ...of, id: 'section_south', name: 'South half', areaSquareMetres: 107, floorKind: 'sealed-wood' },
      { ...of, id: 'section_side', name: 'Side room', areaSquareMetres: 80, floorKind: 'vinyl' },
    ].map((row) => Section.parse(row)),
    rooms: [
      {
        ...room,
        ...homeLayout('long'),
        id: 'room_long',
        name: 'Long Room',
        sectionIds: ['section_north', 'section_south'],
        occupantLimitPosted: wishes.occupantLimitPosted === undefined ? 220 : wishes.occupantLimitPosted,
      },
      {
        ...room,
        ...homeLayout('south'),
        id: 'room_south',
        name: 'South Room',
        sectionIds: ['section_south'],
        occupantLimitPosted: 100,
      },
      {
        ...room,
        ...homeLayout('side'),
        id: 'room_side',
        name: 'Side Room',
        sectionIds: ['section_side'],
        occupantLimitPosted: 60,
      },
      ...(wishes.northRoom
        ? [
            {
              ...room,
              ...homeLayout('north'),
              id: 'room_north',
              name: 'North Room',
              sectionIds: ['section_north'],
              occupantLimitPosted: 100,
            },
          ]
        : []),
    ].map((row) => Room.parse(row)),
    layouts: [
      layout('long', 'games', 'games', null, { 'post-pair': 2, chair: 20 }, wall('open')),
      layout('long', 'banquet', 'banquet', 120, { 'round-table': 15, chair: 120, cloth: 15 }, [
        { equipmentId: 'equipment_sound', setting: { kind: 'state', state: 'speech' } },
        ...wall('open'),
      ]),
      layout('long', 'worship', 'worship', 150, { chair: 150 }, wall('open')),
      layout('south', 'meeting', 'meeting', 40, { chair: 40 }, wall('closed')),
      ...(wishes.northRoom
        ? [
            layout('north', 'meeting', 'meeting', 50, { chair: 50 }, wall('closed')),
            layout('north', 'open-day', 'other', 30, { chair: 30 }, wall('open')),
          ]
        : []),
      layout('side', 'meeting', 'meeting', 30, { chair: 30 }, []),
      layout('side', 'supper', 'banquet', 80, { 'round-table': 9, chair: 80, cloth: 9 }, []),
    ].map((row) => Layout.parse(row)),
    furnishings: [
      furnishing('chair', 'stacking-chair', 320, 6, 1, { capacityPieces: 25, countOwned: 4 }),
      furnishing('round-table', 'round-table', 24, 27, 2, { capacityPieces: 9, countOwned: 2 }),
      furnishing('cloth', 'table-cloth', 40, 0.6, 1, null),
      furnishing('post-pair', 'post-pair', 2, 36, 2, null),
    ].map((row) => Furnishing.parse(row)),
    storagePlaces: [
      StoragePlace.parse({
        ...of,
        id: 'storage_north',
        name: 'North store',
        routes: [
          { roomId: 'room_long', distanceMetres: 25, passageIds: wishes.storeRoutePassageIds ?? [] },
          { roomId: 'room_south', distanceMetres: 30 },
          { roomId: 'room_side', distanceMetres: 40 },
          ...(wishes.northRoom ? [{ roomId: 'room_north', distanceMetres: 25 }] : []),
        ],
      }),
    ],
    equipment: [
      Equipment.parse({
        ...of,
        id: 'equipment_sound',
        name: 'Sound desk',
        sectionIds: ['section_north', 'section_south'],
        control: {
          kind: 'states',
          states: ['off', 'speech'],
          homeState: 'off',
          transitions: [
            {
              from: 'off',
              to: 'speech',
              seconds: 300,
              hands: 1,
              skill: wishes.soundSkill ?? null,
              needsFloorClear: false,
            },
            { from: 'speech', to: 'off', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
          ],
        },
      }),
      ...(wishes.movableWall ? [Equipment.parse(movableWall)] : []),
    ],
    people: (wishes.people ?? []).map((row) => Person.parse({ ...of, ...Object(row) })),
    shifts: (
      wishes.shifts ?? [aShift('crew', wishes.hands ?? 4, '2026-06-05T06:00', '2026-06-06T23:59')]
    ).map((row) => Shift.parse({ ...of, ...Object(row) })),
    policy: Policy.parse({
      ...of,
      id: 'policy_test',
      boundaries: Object.fromEntries(
        ['worship', 'banquet', 'games', 'overflow', 'meeting', 'other'].map((kind) => [
          kind,
          { doorsBeforeStartSeconds: 1800, clearAfterEndSeconds: 1800 },
        ]),
      ),
      paceFactor: 1.5,
      allowanceShare: 0.15,
      effectiveHands: [
        { hands: 2, effective: 2 },
        { hands: 4, effective: 3.7 },
        { hands: 6, effective: 5.2 },
        { hands: 8, effective: 6.4 },
        { hands: 12, effective: 8 },
      ],
      briefingSeconds: 300,
      slackWantedSeconds: wishes.slackWantedSeconds ?? 300,
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
      workMost: 40,
      ...wishes.policy,
    }),
    exits: [],
    passages: (wishes.passages ?? []).map((row) => Passage.parse({ ...of, ...Object(row) })),
    tools: (wishes.tools ?? []).map((row) => Tool.parse({ ...of, ...Object(row) })),
    stockChanges: (wishes.stockChanges ?? []).map((row) => StockChange.parse({ ...of, ...Object(row) })),
    rateSet: null,
    retired: {
      sections: [],
      rooms: [],
      storagePlaces: [],
      furnishings: [],
      equipment: [],
      layouts: [],
      shifts: [],
    },
    closures: wishes.closures ?? [],
    observations: (wishes.observations ?? []).map((row) => Observation.parse({ ...of, ...Object(row) })),
    bookings: [],
    turns: [],
  }
}

const movableWall = {
  siteId,
  id: 'equipment_wall',
  name: 'movable wall',
  sectionIds: ['section_north', 'section_south'],
  kind: 'movable-wall',
  control: {
    kind: 'states',
    states: ['open', 'closed'],
    homeState: 'open',
    transitions: [
      { from: 'open', to: 'closed', seconds: 300, hands: 2, skill: null, needsFloorClear: true },
      { from: 'closed', to: 'open', seconds: 240, hands: 2, skill: null, needsFloorClear: true },
    ],
  },
}

function layout(
  room: string,
  name: string,
  kind: string,
  seats: number | null,
  pieces: Record<string, number>,
  equipment: readonly unknown[],
) {
  return {
    id: `layout_${room}-${name}`,
    siteId,
    roomId: `room_${room}`,
    name: `${room} ${name}`,
    kind,
    seats,
    furnishings: Object.entries(pieces).map(([piece, count]) => ({
      furnishingId: `furnishing_${piece}`,
      count,
    })),
    equipment,
  }
}

function furnishing(
  name: string,
  kind: string,
  countOwned: number,
  massKilograms: number,
  handsPerPiece: number,
  trolley: { capacityPieces: number; countOwned: number } | null,
) {
  return {
    id: `furnishing_${name}`,
    siteId,
    name: name.replace('-', ' '),
    namePlural: `${name.replace('-', ' ')}s`,
    kind,
    countOwned,
    massKilograms,
    storagePlaceId: 'storage_north',
    method: trolley ? 'trolley' : 'carry',
    handsPerPiece,
    setPersonSeconds: null,
    strikePersonSeconds: null,
    trolley,
  }
}

export function aShift(
  name: string,
  hands: number,
  from: string,
  to: string,
  skills: readonly string[] = [],
) {
  return {
    id: `shift_${name}`,
    name,
    crew: { kind: 'hands', hands, skills, adults: true },
    times: { kind: 'once', startsAt: at(from), endsAt: at(to) },
  }
}

export interface BookingWishes {
  readonly name: string
  readonly layout: string
  readonly doors: string
  readonly clear: string
  readonly headcount?: number
  readonly version?: number
  /** What else it asks for or brings along. */
  readonly terms?: Partial<z.input<typeof Booking>>
}

/** `layout: 'long-banquet'` says the room too; start and end are a quarter of an hour inside doors and clear. */
export function aBooking({
  name,
  layout: wanted,
  doors,
  clear,
  headcount = 20,
  version = 1,
  terms = {},
}: BookingWishes): Booking {
  const quarterMs = 15 * 60_000
  return Booking.parse({
    id: `booking_${name}`,
    turnId: `turn_${name}`,
    siteId,
    title: name,
    roomId: `room_${wanted.split('-')[0]}`,
    layoutId: `layout_${wanted}`,
    headcount,
    doorsAt: at(doors),
    startsAt: at(doors) + quarterMs,
    endsAt: at(clear) - quarterMs,
    clearAt: at(clear),
    foodServed: false,
    floorWet: false,
    status: 'CONFIRMED',
    version,
    ...terms,
  })
}

export const book = (wishes: BookingWishes): Operation => ({ kind: 'book', booking: aBooking(wishes) })

/** The same for a while, `2026-06-03T12:00` at the longest. */
export const hold = ({ until, terms, ...wishes }: BookingWishes & { readonly until: string }): Operation => ({
  kind: 'hold',
  booking: aBooking({ ...wishes, terms: { status: 'TENTATIVE', holdExpiresAt: at(until), ...terms } }),
})

/** Sections, or more, are closed. */
export const close = (closure: Closure): Operation => ({
  kind: 'set-up',
  writes: [{ kind: 'closure', before: null, after: closure, retire: false }],
  span: { fromAt: closure.fromAt, toAt: closure.toAt },
  restFromAt: null,
})

/** Somebody is put on duty in June 2026. */
export const addShift = (shift: Shift): Operation =>
  setUp({ kind: 'shift', before: null, after: shift, retire: false })

export const setUp = (...writes: readonly SetupWrite[]): Operation => ({
  kind: 'set-up',
  writes: [...writes],
  span: { fromAt: at('2026-06-01T00:00'), toAt: at('2026-06-30T00:00') },
  restFromAt: null,
})

/** The snapshot with the changes written into it. */
export function snapshotAfter(snapshot: SiteSnapshot, changes: Changes): SiteSnapshot {
  const put = <Row extends { id: string }>(
    rows: readonly Row[],
    changed: readonly { after: Row }[],
  ): Row[] => {
    const byId = new Map(rows.map((row) => [row.id, row]))
    for (const { after } of changed) byId.set(after.id, after)
    return [...byId.values()]
  }
  return {
    ...setupAfter(snapshot, changes.setup),
    planningVersion: snapshot.planningVersion + 1,
    bookings: put(snapshot.bookings, changes.bookings),
    turns: put(snapshot.turns, changes.turns),
    judgedThroughAt:
      changes.judgedThroughAt === undefined ? snapshot.judgedThroughAt : changes.judgedThroughAt,
  }
}
