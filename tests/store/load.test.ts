import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Booking, heldUntilAt } from '../../src/domain/booking.ts'
import { type HalfOpenInterval, overlaps } from '../../src/domain/half-open-interval.ts'
import { homeTurnId } from '../../src/domain/home-turn-id.ts'
import { type Instant, instantPlusSeconds } from '../../src/domain/instant.ts'
import type { Turn } from '../../src/domain/turn.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { snapshotQueries } from '../../src/store/snapshot-queries.ts'
import { aStoreOnFile } from './a-database-file.ts'
import {
  aBooking,
  aCommit,
  added,
  addition,
  aPlanWithDuty,
  aStore,
  aTurn,
  at,
  booked,
  changes,
  hours,
  retirement,
  siteId,
} from './a-world.ts'
import { anObservation } from './one-of-each.ts'
import { querySteps } from './query-steps.ts'

const ids = (rows: readonly { id: string }[]) => rows.map(({ id }) => id)
const words = (rows: readonly { id: string }[]) => ids(rows).map((id) => id.replace(/^[a-z]+_/, ''))

const sectionsOf = (booking: Booking): string[] =>
  booking.roomId === 'room_whole' ? ['east', 'west'] : [booking.roomId.replace('room_', '')]
const span = ({ doorsAt, clearAt }: Booking): HalfOpenInterval => ({ fromAt: doorsAt, toAt: clearAt })
const taken = (booking: Booking): HalfOpenInterval => ({
  fromAt: booking.doorsAt,
  toAt: heldUntilAt(booking),
})

/** When the last of its crew is free, or when it is due where nobody stays. */
const dutyEndsAt = ({ plan, dueAt }: Turn): number =>
  Math.max(dueAt, ...(plan?.tasks ?? []).map(({ endsAt }) => endsAt))

describe('what is loaded for a decision', () => {
  test('is the whole set-up, and the version it belongs to', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('dinner')]))
    const snapshot = await store.load(siteId, hours(0, 1), at(-2))
    expect(snapshot).toMatchObject({ planningVersion: 2, now: at(-2), window: hours(0, 1) })
    expect(snapshot).toMatchObject(Object(await store.setup(siteId)))
  })

  test('holds for each section the last booking before the window and the first after it', async () => {
    const store = await aStore()
    await store.commit(
      booked([
        aBooking('long-ago', { doors: -200 }),
        aBooking('before', { doors: -100 }),
        aBooking('before-west', { room: 'west', doors: -300 }),
        aBooking('within', { doors: 10 }),
        aBooking('after', { doors: 200 }),
        aBooking('long-after', { doors: 300 }),
        aBooking('after-west', { room: 'west', doors: 400 }),
      ]),
    )
    const snapshot = await store.load(siteId, hours(0, 48), at(0))
    expect(words(snapshot?.bookings ?? [])).toEqual([
      'before-west',
      'before',
      'within',
      'after',
      'after-west',
    ])
  })

  test('holds a booking that began before the window and ends in it, and none that ends as it begins', async () => {
    const store = await aStore()
    await store.commit(
      booked([
        aBooking('at-the-edge', { doors: -5, clear: 0 }),
        aBooking('over', { room: 'west', doors: -24 * 20, clear: 1 }),
      ]),
    )
    const touching = await store.load(siteId, hours(0, 48), at(0))
    expect(words(touching?.bookings ?? [])).toEqual(['over', 'at-the-edge'])
    expect(words((await store.load(siteId, hours(-6, -5), at(0)))?.bookings ?? [])).toEqual([
      'over',
      'at-the-edge',
    ])
  })

  test('leaves out cancelled bookings and dropped turns', async () => {
    const store = await aStore()
    const gone = aBooking('gone', { doors: 10, status: 'CANCELLED' })
    const turn = aTurn(gone, { status: 'dropped', plan: null })
    await store.commit(aCommit({ changes: changes({ bookings: [added(gone)], turns: [added(turn)] }) }))
    const snapshot = await store.load(siteId, hours(0, 48), at(0))
    expect(snapshot).toMatchObject({ bookings: [], turns: [] })
  })

  test('holds the closures of the window, and of the time in which the next booking is prepared', async () => {
    const store = await aStore()
    const closure = (word: string, from: number, to: number) =>
      addition('closure', {
        id: `closure_${word}`,
        sectionIds: ['section_west'],
        ...hours(from, to),
        reason: 'Works',
      })
    await store.commit(
      aCommit({
        action: 'close',
        setup: [
          closure('old', -90, 0),
          closure('around', -99, 99),
          closure('later', 72, 84),
          closure('next', 160, 161),
        ],
        changes: changes({ bookings: [added(aBooking('after', { doors: 200 }))], turns: [] }),
      }),
    )
    expect(words((await store.load(siteId, hours(0, 48), at(0)))?.closures ?? [])).toEqual(['around', 'next'])
  })

  test('holds what was seen last in each room before the window, and what was seen within it, in order', async () => {
    const store = await aStore()
    await store.commit(
      aCommit({
        action: 'add-observation',
        setup: [
          anObservation('east-long-ago', -300),
          anObservation('b-east', -100),
          anObservation('a-east', -100),
          anObservation('west', -400, 'west'),
          anObservation('within', 10),
          anObservation('at-the-start', 0, 'whole'),
          anObservation('next-month', 700),
        ],
      }),
    )
    const seen = async () => words((await store.load(siteId, hours(0, 48), at(0)))?.observations ?? [])
    expect(await seen()).toEqual(['west', 'b-east', 'at-the-start', 'within'])
    const stored = await store.setupRow(siteId, 'observation', 'observation_b-east')
    await store.commit(
      aCommit({ planningVersionExpected: 2, setup: [retirement('observation', stored!.row)] }),
    )
    expect(await seen()).toEqual(['west', 'a-east', 'at-the-start', 'within'])
  })

  test('holds what was seen after the window and before the next booking, which is perhaps prepared anew', async () => {
    const store = await aStore()
    await store.commit(
      aCommit({
        setup: [
          anObservation('before', -10),
          anObservation('too-early', 90),
          anObservation('between', 100),
          anObservation('later', 300),
        ],
        changes: changes({ bookings: [added(aBooking('after', { doors: 200 }))], turns: [] }),
      }),
    )
    const snapshot = await store.load(siteId, hours(0, 48), at(110))
    expect(words(snapshot?.observations ?? [])).toEqual(['before', 'between'])
  })

  test('does not hold another set-up when it is changed by somebody who was handed it', async () => {
    const store = await aStore()
    const snapshot = await store.load(siteId, hours(0, 48), at(0))
    expect(() => Object.assign(Object(snapshot?.rooms[0]), { name: 'Mine' })).toThrow(TypeError)
  })

  test('is of one version, although somebody commits meanwhile', async () => {
    const { file, store } = await aStoreOnFile()
    const reader = await openSqliteStore({ file, readOnly: true })
    for (let version = 1; version <= 10; version++) {
      const booking = aBooking(`b${version}`, { doors: version * 10 })
      const [, snapshot] = await Promise.all([
        store.commit(booked([booking], { planningVersionExpected: version })),
        reader.load(siteId, hours(0, 200), at(0)),
      ])
      expect(snapshot?.bookings).toHaveLength((snapshot?.planningVersion ?? 0) - 1)
      expect(snapshot?.turns).toHaveLength((snapshot?.planningVersion ?? 0) - 1)
    }
    reader.close()
  })

  test('is looked up, and never walked for through all bookings and turns', () => {
    const lookUps = querySteps(snapshotQueries).filter((step) => /^(SCAN|SEARCH) /.test(step))
    expect(lookUps.filter((detail) => !/^SEARCH (section|room) /.test(detail))).toEqual([
      'SEARCH booking USING COVERING INDEX sqlite_autoindex_booking_1 (id=?)',
      'SEARCH section_occupancy USING INDEX section_occupancy_blocking (section_id=? AND from_at>? AND from_at<?)',
      'SEARCH section_occupancy USING INDEX section_occupancy_blocking (section_id=? AND from_at<?)',
      'SEARCH section_occupancy USING INDEX section_occupancy_blocking (section_id=? AND from_at>?)',
      'SEARCH closure USING INDEX closure_site_to (site_id=? AND to_at>?)',
      'SEARCH observation USING INDEX sqlite_autoindex_observation_1 (id=?)',
      'SEARCH observation USING INDEX observation_room_seen (room_id=? AND seen_at>? AND seen_at<?)',
      'SEARCH observation USING INDEX observation_room_seen (room_id=? AND seen_at<?)',
      'SEARCH turn USING INDEX turn_site_due (site_id=? AND due_at>? AND due_at<?)',
      'SEARCH booking USING INDEX sqlite_autoindex_booking_1 (id=?)',
      'SEARCH turn USING INDEX turn_held (site_id=? AND held_until_at>?)',
      'SEARCH judging USING INDEX sqlite_autoindex_judging_1 (site_id=?)',
    ])
  })

  test('holds what a later booking of the whole room stands on, also where that is in neither of the gaps looked at', async () => {
    const store = await aStore()
    const bookings = [
      aBooking('east-soon', { room: 'east', doors: 60 }),
      aBooking('east-later', { room: 'east', doors: 100 }),
      aBooking('whole', { room: 'whole', doors: 200 }),
    ]
    const turns = bookings.map((booking, index) =>
      aTurn(booking, index === 2 ? { predecessorBookingIds: [bookings[1]!.id] } : {}),
    )
    await store.commit(
      aCommit({ changes: changes({ bookings: bookings.map(added), turns: turns.map(added) }) }),
    )
    const snapshot = await store.load(siteId, hours(0, 48), at(0))
    expect(words(snapshot?.bookings ?? [])).toEqual(['east-soon', 'east-later', 'whole'])
  })

  test('holds turns whose crew is away into the window, also where doors were days before', async () => {
    const store = await aStore()
    const concert = aBooking('concert', { doors: -90, clear: -80 })
    const between = aBooking('between', { doors: -50 })
    const turns = [aTurn(concert, { plan: aPlanWithDuty(concert, 90) }), aTurn(between)]
    await store.commit(
      aCommit({ changes: changes({ bookings: [concert, between].map(added), turns: turns.map(added) }) }),
    )
    const turnsIn = async (from: number, to: number) =>
      words((await store.load(siteId, hours(from, to), at(0)))?.turns ?? [])
    expect(await turnsIn(0, 15)).toEqual(['between'])
    expect(await turnsIn(-1, 15)).toEqual(['concert', 'between'])
  })

  test('holds the turn that puts the room back after a booking, once it is dropped too: it may be wanted again', async () => {
    const store = await aStore()
    const long = aBooking('long', { doors: -300 })
    const home = aTurn(long, {
      id: homeTurnId(long.turnId),
      purpose: 'return-home',
      predecessorBookingIds: [long.id],
      releaseAt: long.clearAt,
      dueAt: at(-280),
    })
    const loaded = async () => words((await store.load(siteId, hours(0, 48), at(0)))?.turns ?? [])
    await store.commit(booked([long]))
    expect(await loaded()).toEqual(['long'])
    // It was looked for before it was there.
    const add = changes({ turns: [added(home)] })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: add }))
    expect(await loaded()).toEqual(['long', 'long-home'])
    expect((await store.load(siteId, hours(0, 48), at(0)))?.turns[1]).toEqual(home)
    const dropped = changes({ turns: [{ before: home, after: { ...home, status: 'dropped', plan: null } }] })
    await store.commit(aCommit({ planningVersionExpected: 3, changes: dropped }))
    expect(await loaded()).toEqual(['long', 'long-home'])
    expect((await store.load(siteId, hours(0, 48), at(0)))?.turns[1]?.status).toBe('dropped')
  })

  test('says from when on turns are yet to be looked at, and that none are where nothing was ever put off', async () => {
    const store = await aStore()
    const judgedThroughAt = async () => (await store.load(siteId, hours(0, 48), at(0)))?.judgedThroughAt
    expect(await judgedThroughAt()).toBeNull()
    await store.commit(aCommit({ changes: changes({ judgedThroughAt: at(40) }) }))
    expect(await judgedThroughAt()).toBe(at(40))
    const done = changes({ judgedThroughAt: null })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: done }))
    expect(await judgedThroughAt()).toBeNull()
  })

  test('shows what another connection has written since it was read last', async () => {
    const { file, store } = await aStoreOnFile()
    await store.commit(booked([aBooking('dinner', { doors: 10 })]))
    const other = await openSqliteStore({ file, readOnly: true })
    const read = async () => (await other.load(siteId, hours(0, 48), at(0)))?.bookings ?? []
    expect((await read()).map((booking) => booking.headcount)).toEqual([aBooking('dinner').headcount])
    const before = aBooking('dinner', { doors: 10 })
    const after = { ...before, headcount: before.headcount + 1, version: before.version + 1 }
    await store.commit(
      aCommit({
        planningVersionExpected: null,
        changes: changes({ bookings: [{ before, after }], turns: [] }),
      }),
    )
    expect((await read()).map((booking) => booking.headcount)).toEqual([after.headcount])
    other.close()
  })

  test('is the same as looking through everything', async () => {
    const request = fc.record({
      room: fc.constantFrom('east', 'west', 'whole'),
      doors: fc.integer({ min: -900, max: 900 }),
      length: fc.oneof(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 12, max: 744 })),
      turnHours: fc.integer({ min: 0, max: 48 }),
      dutyHours: fc.constantFrom(0, 0, 2, 200),
      keptHours: fc.constantFrom(0, 0, 30),
      status: fc.constantFrom('CONFIRMED', 'CONFIRMED', 'TENTATIVE', 'CANCELLED'),
    })
    const windows = fc.array(
      fc.tuple(fc.integer({ min: -999, max: 999 }), fc.integer({ min: 0, max: 300 })),
      {
        minLength: 4,
        maxLength: 4,
      },
    )
    const property = fc.asyncProperty(
      fc.array(request, { maxLength: 40 }),
      windows,
      async (requests, spans) => {
        const store = await aStore()
        const bookings: Booking[] = []
        const asked = new Map<string, (typeof requests)[number]>()
        for (const [index, wish] of requests.entries()) {
          const { room, doors, length, status } = wish
          const keptHours = Math.min(wish.keptHours, 744 - length)
          const one = aBooking(`b${index}`, {
            room,
            doors,
            clear: doors + length,
            status,
            holdExpiresAt: status === 'TENTATIVE' ? at(doors) : null,
            keptUntilAt: keptHours === 0 ? null : at(doors + length + keptHours),
          })
          const meets = (other: Booking) =>
            overlaps(taken(one), taken(other)) &&
            sectionsOf(one).some((section) => sectionsOf(other).includes(section))
          if (
            status !== 'CANCELLED' &&
            bookings.some((other) => other.status !== 'CANCELLED' && meets(other))
          )
            continue
          bookings.push(one)
          asked.set(one.id, wish)
        }
        const turns = bookings.map((booking) =>
          aTurn(booking, {
            releaseAt: booking.doorsAt - (asked.get(booking.id)?.turnHours ?? 0) * 3_600_000,
            plan: aPlanWithDuty(booking, asked.get(booking.id)?.dutyHours ?? 0),
            ...(booking.status === 'CANCELLED' ? { status: 'dropped', plan: null } : {}),
          }),
        )
        await store.commit(
          aCommit({ changes: changes({ bookings: bookings.map(added), turns: turns.map(added) }) }),
        )

        for (const [from, length] of spans) {
          const window = hours(from, from + length)
          const snapshot = await store.load(siteId, window, at(0))
          const live = bookings
            .filter((booking) => booking.status !== 'CANCELLED')
            .sort((a, b) => a.doorsAt - b.doorsAt)
          const wanted = new Set(live.filter((booking) => overlaps(span(booking), window)))
          const starts = live.filter(({ doorsAt }) => window.fromAt <= doorsAt && doorsAt < window.toAt)
          for (const booking of starts) wanted.add(booking)
          const later = (instant: Instant, hoursOn: number) => instantPlusSeconds(instant, hoursOn * 3600)
          const spansWanted: HalfOpenInterval[] = [{ fromAt: window.fromAt, toAt: later(window.toAt, 24) }]
          for (const section of ['east', 'west']) {
            const there = live.filter((booking) => sectionsOf(booking).includes(section))
            const last = there.filter((booking) => booking.doorsAt < window.fromAt).at(-1)
            const first = there.find((booking) => booking.doorsAt >= window.toAt)
            if (last) wanted.add(last)
            if (first) wanted.add(first)
            if (first) spansWanted.push({ fromAt: later(first.doorsAt, -48), toAt: later(first.doorsAt, 24) })
          }
          const turnsWanted = turns.filter(
            (turn) =>
              turn.status !== 'dropped' &&
              (bookings.some((booking) => booking.id === turn.bookingId && wanted.has(booking)) ||
                spansWanted.some(
                  (one) =>
                    (turn.releaseAt < one.toAt && one.fromAt < turn.dueAt && one.fromAt < one.toAt) ||
                    (turn.dueAt < one.toAt && one.fromAt < dutyEndsAt(turn)),
                )),
          )
          expect(new Set(ids(snapshot?.bookings ?? []))).toEqual(new Set(ids([...wanted])))
          expect(new Set(ids(snapshot?.turns ?? []))).toEqual(new Set(ids(turnsWanted)))
          for (const turn of snapshot?.turns ?? [])
            expect(turn).toEqual(turns.find(({ id }) => id === turn.id))
        }
        store.close()
      },
    )
    await fc.assert(property, { seed: 20261125, numRuns: 25 })
  })
})
