/**
 * A site with six rooms and three bookings a room a day, as many days as asked for, every day alike: the more bookings
 * are stored, the longer the past and future, the density stays. One day is decided by the real core; the others are
 * that day moved on by whole days (the zone is UTC, so the crew's hours move with it).
 */
import { defaultPolicy } from '../src/api/policies/default-policy.ts'
import { Booking } from '../src/domain/booking.ts'
import type { RowChange } from '../src/domain/decision.ts'
import { Furnishing } from '../src/domain/furnishing.ts'
import { ActorId, PolicyId } from '../src/domain/ids.ts'
import type { Instant } from '../src/domain/instant.ts'
import { Layout } from '../src/domain/layout.ts'
import { Room } from '../src/domain/room.ts'
import { Section } from '../src/domain/section.ts'
import type { SetupWrite } from '../src/domain/setup.ts'
import { Shift } from '../src/domain/shift.ts'
import { Site } from '../src/domain/site.ts'
import type { SiteSnapshot } from '../src/domain/snapshot.ts'
import { StoragePlace } from '../src/domain/storage-place.ts'
import type { Turn } from '../src/domain/turn.ts'
import { decide, setupAfter } from '../src/scheduler/decide/index.ts'
import { openSqliteStore } from '../src/store/open-sqlite-store.ts'

export const SITE = Site.parse({ id: 'site_bench', name: 'Bench Site', zone: 'UTC' })
const siteId = SITE.id
const ROOMS = 6
const rooms = Array.from({ length: ROOMS }, (_, index) => index + 1)
/** What a site is like, every day. */
export interface DayPattern {
  readonly hands: number
  /** By room, from 1: `from-to-layout`. */
  readonly slotsOf: (room: number) => readonly string[]
}

/** Six rooms with three bookings each, and hands enough that no turn waits for another. */
export const BUSY: DayPattern = {
  hands: 20,
  slotsOf: () => ['09:00-11:00-meeting', '13:00-15:00-supper', '18:40-20:30-supper'],
}
/**
 * Few hands, and long gaps that are turned at once: a short gap in room 1 is only to be had when turns elsewhere wait.
 */
export const SHORT_HANDED: DayPattern = {
  hands: 6,
  slotsOf: (room) =>
    room === 1
      ? ['08:00-11:00-meeting', '19:00-21:00-meeting']
      : ['08:00-11:00-meeting', '18:40-20:30-supper'],
}

export const bookingsADay = ({ slotsOf }: DayPattern): number =>
  rooms.reduce((sum, room) => sum + slotsOf(room).length, 0)
const DAY_MS = 86_400_000
/** The first of the days: a fixed moment far enough ahead of any clock this runs by. */
export const FIRST_DAY = '2040-01-02'
const firstDayAt = Date.parse(`${FIRST_DAY}T00:00:00Z`)

function setup({ hands }: DayPattern): SetupWrite[] {
  const of = { siteId }
  return [
    {
      kind: 'policy',
      before: null,
      retire: false,
      after: defaultPolicy(PolicyId.parse('policy_bench'), siteId),
    },
    ...rooms.map((n) => ({
      kind: 'section' as const,
      before: null,
      retire: false,
      after: Section.parse({
        ...of,
        id: `section_${n}`,
        name: `Section ${n}`,
        areaSquareMetres: 90,
        floorKind: 'vinyl',
      }),
    })),
    ...rooms.map((n) => ({
      kind: 'room' as const,
      before: null,
      retire: false,
      after: Room.parse({
        ...of,
        id: `room_${n}`,
        name: `Room ${n}`,
        sectionIds: [`section_${n}`],
        occupantLimitPosted: 80,
        homeLayoutId: null,
        openingHours: null,
      }),
    })),
    {
      kind: 'storagePlace',
      before: null,
      retire: false,
      after: StoragePlace.parse({
        ...of,
        id: 'storage_one',
        name: 'Store',
        routes: rooms.map((n) => ({ roomId: `room_${n}`, distanceMetres: 15 + 5 * n })),
      }),
    },
    ...[
      {
        id: 'furnishing_chair',
        name: 'chair',
        kind: 'stacking-chair',
        hands: 1,
        owned: 600,
        perTrolley: 25,
        trolleys: 6,
      },
      {
        id: 'furnishing_table',
        name: 'round table',
        kind: 'round-table',
        hands: 2,
        owned: 60,
        perTrolley: 9,
        trolleys: 4,
      },
    ].map((one) => ({
      kind: 'furnishing' as const,
      before: null,
      retire: false,
      after: Furnishing.parse({
        ...of,
        id: one.id,
        name: one.name,
        namePlural: `${one.name}s`,
        kind: one.kind,
        countOwned: one.owned,
        massKilograms: 10,
        storagePlaceId: 'storage_one',
        method: 'trolley',
        handsPerPiece: one.hands,
        setPersonSeconds: null,
        strikePersonSeconds: null,
        trolley: { capacityPieces: one.perTrolley, countOwned: one.trolleys },
      }),
    })),
    ...rooms.flatMap((n) =>
      [
        { name: 'meeting', kind: 'meeting', seats: 40, pieces: { chair: 40 } },
        { name: 'supper', kind: 'banquet', seats: 56, pieces: { table: 7, chair: 56 } },
      ].map((one) => ({
        kind: 'layout' as const,
        before: null,
        retire: false,
        after: Layout.parse({
          ...of,
          id: `layout_${n}-${one.name}`,
          roomId: `room_${n}`,
          name: `${one.name} ${n}`,
          kind: one.kind,
          seats: one.seats,
          furnishings: Object.entries(one.pieces).map(([piece, count]) => ({
            furnishingId: `furnishing_${piece}`,
            count,
          })),
          equipment: [],
        }),
      })),
    ),
    {
      kind: 'shift',
      before: null,
      retire: false,
      after: Shift.parse({
        ...of,
        id: 'shift_crew',
        name: 'Crew',
        crew: { kind: 'hands', hands, skills: [], adults: true },
        times: {
          kind: 'weekly',
          weekdays: [1, 2, 3, 4, 5, 6, 7],
          startsLocal: '06:00',
          endsLocal: '23:00',
          firstDate: '2020-01-01',
          lastDate: null,
        },
      }),
    },
  ]
}

const name = (day: number, room: number, slot: number) => `d${day}-r${room}-s${slot}`

/** Rooms are staggered by ten minutes, so that not all turns of the site begin at one moment. */
export function bookingOn(day: number, room: number, slot: string, id: string): Booking {
  const [from = '', to = '', layout = ''] = slot.split('-')
  const at = (local: string) => Date.parse(`${FIRST_DAY}T${local}:00Z`) + day * DAY_MS + room * 10 * 60_000
  return Booking.parse({
    id: `booking_${id}`,
    turnId: `turn_${id}`,
    siteId,
    title: `Booking ${id}`,
    roomId: `room_${room}`,
    layoutId: `layout_${room}-${layout}`,
    headcount: 30,
    doorsAt: at(from),
    startsAt: at(from) + 10 * 60_000,
    endsAt: at(to) - 10 * 60_000,
    clearAt: at(to),
    foodServed: false,
    floorWet: false,
    status: 'CONFIRMED',
    version: 1,
  })
}

/** The first two days as the core decides them: the second one follows a day like itself, and is the one that is moved. */
function decidedDays(pattern: DayPattern): { bookings: Booking[]; turns: Turn[] } {
  const writes = setup(pattern)
  const policy = writes.flatMap((write) => (write.kind === 'policy' ? [write.after] : []))[0]!
  const bare: SiteSnapshot = {
    site: SITE,
    sections: [],
    exits: [],
    passages: [],
    rooms: [],
    storagePlaces: [],
    furnishings: [],
    tools: [],
    equipment: [],
    layouts: [],
    people: [],
    shifts: [],
    stockChanges: [],
    rateSet: null,
    policy,
    retired: {
      sections: [],
      rooms: [],
      storagePlaces: [],
      furnishings: [],
      equipment: [],
      layouts: [],
      shifts: [],
    },
    now: (firstDayAt - 30 * DAY_MS) as Instant,
    planningVersion: 1,
    window: { fromAt: (firstDayAt - 9 * DAY_MS) as Instant, toAt: (firstDayAt + 9 * DAY_MS) as Instant },
    closures: [],
    observations: [],
    bookings: [],
    turns: [],
    judgedThroughAt: null,
  }
  let snapshot = setupAfter(bare, writes)
  for (const day of [0, 1]) {
    const slots = rooms.flatMap((room) => pattern.slotsOf(room).map((slot, index) => ({ room, slot, index })))
    for (const { room, slot, index: slotIndex } of slots.sort((a, b) => a.index - b.index)) {
      const booking = bookingOn(day, room, slot, name(day, room, slotIndex))
      const decision = decide(snapshot, [{ kind: 'book', booking }])
      if (!decision.changes)
        throw new Error(`the busy site refuses ${booking.id}: ${decision.reasons[0]?.message}`)
      const changed = new Map(decision.changes.turns.map((change) => [change.after.id, change.after]))
      snapshot = {
        ...snapshot,
        bookings: [...snapshot.bookings, booking],
        turns: [...snapshot.turns.filter((turn) => !changed.has(turn.id)), ...changed.values()],
      }
    }
  }
  return { bookings: [...snapshot.bookings], turns: [...snapshot.turns] }
}

/** Everything that names day 1 or a moment, moved by whole days. */
function moved<Value>(value: Value, days: number): Value {
  const text = JSON.stringify(value, (key, inner) =>
    key.endsWith('At') && typeof inner === 'number' ? inner + days * DAY_MS : inner,
  )
  const renamed = text.replaceAll(/_d([01])-r/g, (_, day) => `_d${Number(day) + days}-r`)
  return JSON.parse(renamed) as Value
}

/** @returns how many bookings were stored: the whole days nearest above `bookings` */
export async function fillBusySite(
  file: string,
  bookings: number,
  pattern: DayPattern = BUSY,
): Promise<{ bookings: number; tasksMost: number }> {
  const store = await openSqliteStore({ file })
  const at = (firstDayAt - 30 * DAY_MS) as Instant
  const by = {
    siteId,
    planningVersionExpected: null,
    actorId: ActorId.parse('actor_bench'),
    reason: null,
    at,
  }
  await store.commit({ ...by, action: 'set-up', site: SITE, setup: setup(pattern) })
  const decided = decidedDays(pattern)
  const of = (day: number) => ({
    bookings: decided.bookings.filter((booking) => booking.id.includes(`_d${day}-`)),
    turns: decided.turns.filter((turn) => turn.id.includes(`_d${day}-`)),
  })
  const days = Math.ceil(bookings / bookingsADay(pattern))
  const added = <Row>(row: Row): RowChange<Row> => ({ before: null, after: row })
  const [first, second] = [of(0), of(1)]
  for (let day = 0; day < days; day += 10) {
    const batch = Array.from({ length: Math.min(10, days - day) }, (_, index) =>
      day + index === 0 ? first : moved(second, day + index - 1),
    )
    await store.commit({
      ...by,
      action: 'fill',
      changes: {
        bookings: batch.flatMap((one) => one.bookings.map(added)),
        turns: batch.flatMap((one) => one.turns.map(added)),
        setup: [],
      },
    })
  }
  store.close()
  return {
    bookings: days * bookingsADay(pattern),
    tasksMost: Math.max(...second.turns.map((turn) => turn.plan?.tasks.length ?? 0)),
  }
}
