/** The doors that are offered are the nearest that are accepted: told apart from trying every five minutes. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Alternative } from '../../../src/domain/alternative.ts'
import type { Booking } from '../../../src/domain/booking.ts'
import { CrewDemand } from '../../../src/domain/booking-terms.ts'
import { Closure } from '../../../src/domain/closure.ts'
import { type Instant, instantPlusSeconds } from '../../../src/domain/instant.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { movedTo } from '../../../src/scheduler/decide/nearest-yes/moved-booking.ts'
import { aCrew, aUse, duty, on5th, withBookings } from './a-crew.ts'
import { aBooking, aHall, aShift, at, snapshotAfter } from './a-hall.ts'

const FIVE_MINUTES_MS = 300_000
const DAY = '2026-06-05'
const rooms = ['long-games', 'long-banquet', 'long-worship', 'south-meeting', 'side-meeting', 'side-supper']

const visit = fc.record({
  layout: fc.constantFrom(...rooms),
  /** In quarters of an hour from 08:00. */
  doors: fc.integer({ min: 0, max: 36 }),
  length: fc.integer({ min: 3, max: 8 }),
})
type Visit = typeof visit extends fc.Arbitrary<infer Value> ? Value : never

const hall = fc.record({
  hands: fc.integer({ min: 1, max: 5 }),
  comesAt: fc.constantFrom('06:00', '09:30', '12:15'),
  /** Of the crew that an event may ask for, in hours from 08:00. */
  ushersFrom: fc.integer({ min: 0, max: 8 }),
  demand: fc.option(fc.constantFrom(null, 'ushering')),
  /** Minutes before doors. */
  milestone: fc.option(fc.constantFrom(10, 45), { freq: 2 }),
})

const clock = (quarters: number) => {
  const minutes = 8 * 60 + quarters * 15
  const two = (number: number) => String(number).padStart(2, '0')
  return `2026-06-05T${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}
const visitor = (name: string, { layout, doors, length }: Visit) =>
  aBooking({ name, layout, doors: clock(doors), clear: clock(doors + length) })

/** Closed before 07:30 and after 21:00 of the day, so that every five minutes of it can be tried. */
function aDay({ hands, comesAt, ushersFrom }: { hands: number; comesAt: string; ushersFrom: number }) {
  const day = aHall({
    now: '2026-06-04T20:00',
    shifts: [
      aShift('crew', hands, `2026-06-05T${comesAt}`, '2026-06-05T22:30'),
      aShift('ushers', 1, clock(4 * ushersFrom), clock(4 * ushersFrom + 12), ['ushering']),
    ],
  })
  const closed = (name: string, from: string, to: string) =>
    Closure.parse({
      id: `closure_${name}`,
      siteId: day.site.id,
      sectionIds: day.sections.map(({ id }) => id),
      fromAt: at(from),
      toAt: at(to),
      reason: 'closed',
    })
  const closures = [
    closed('before', '2026-06-01T00:00', '2026-06-05T06:00'),
    closed('after', '2026-06-05T22:30', '2026-06-09T00:00'),
  ]
  return { ...day, closures }
}

function isAccepted(snapshot: SiteSnapshot, booking: Booking): boolean {
  const operations = [{ kind: 'book' as const, booking }]
  if (operationProblems(snapshot, operations).length > 0) return false
  return decide(snapshot, operations, { withoutAlternatives: true }).changes !== null
}

/** @param untilAt  not tried any more */
function nearestTried(
  snapshot: SiteSnapshot,
  booking: Booking,
  byMs: number,
  untilAt: number,
): Instant | null {
  const onGrid = byMs > 0 ? Math.ceil : Math.floor
  let doorsAt = onGrid(booking.doorsAt / FIVE_MINUTES_MS) * FIVE_MINUTES_MS
  if (doorsAt === booking.doorsAt) doorsAt += byMs
  for (; byMs > 0 ? doorsAt < untilAt : doorsAt > untilAt; doorsAt += byMs) {
    if (isAccepted(snapshot, movedTo(booking, doorsAt as Instant))) return doorsAt as Instant
  }
  return null
}

/** Accepted, and the nearest; or nothing nearer up to where all times were searched. */
function expectAsSaid(
  snapshot: SiteSnapshot,
  asked: Booking,
  offered: Alternative | undefined,
  nearest: Instant | null,
): void {
  if (offered?.kind !== 'other-doors') {
    expect(nearest).toBeNull()
    return
  }
  expect(isAccepted(snapshot, movedTo(asked, offered.doorsAt))).toBe(true)
  const upTo = /All times were searched up to (.+), beyond that only some\.$/.exec(offered.message)?.[1]
  if (upTo === undefined) {
    expect(offered.doorsAt).toBe(nearest)
    return
  }
  const nearestMs = Math.abs(nearest! - asked.doorsAt)
  const searchedMs = Math.abs(at(`${DAY}T${upTo.slice(-5)}`) - asked.doorsAt)
  expect(upTo).toBe(`Fri 5 Jun ${upTo.slice(-5)}`)
  expect(searchedMs).toBeLessThan(nearestMs)
  // Only said where something between was left out.
  expect(searchedMs + FIVE_MINUTES_MS).toBeLessThan(Math.abs(offered.doorsAt - asked.doorsAt))
}

describe('other doors that are offered', () => {
  test('are the nearest at which every five minutes it would be accepted, earlier and later', () => {
    let offeredEarlier = 0
    let offeredLater = 0
    let none = 0
    fc.assert(
      fc.property(
        hall,
        fc.array(visit, { minLength: 2, maxLength: 6 }),
        visit,
        ({ demand, milestone, ...wishes }, visits, wanted) => {
          let snapshot: SiteSnapshot = aDay(wishes)
          for (const [index, one] of visits.entries()) {
            const { changes } = decide(snapshot, [{ kind: 'book', booking: visitor(`b${index}`, one) }], {
              withoutAlternatives: true,
            })
            if (changes) snapshot = snapshotAfter(snapshot, changes)
          }
          const plain = visitor('asked', wanted)
          const { doorsAt: fromAt, clearAt: toAt } = plain
          const booking: Booking = {
            ...plain,
            crewDemands:
              demand === null
                ? []
                : [CrewDemand.parse({ what: 'ushers', fromAt, toAt, hands: 1, skill: demand })],
            milestones:
              milestone === null
                ? []
                : [{ milestone: 'seats-up', byAt: instantPlusSeconds(fromAt, -60 * milestone) }],
          }
          const { changes, alternatives } = decide(snapshot, [{ kind: 'book', booking }])
          if (changes) return
          for (const byMs of [-FIVE_MINUTES_MS, FIVE_MINUTES_MS]) {
            const offered = alternatives.find(
              (one) => one.kind === 'other-doors' && Math.sign(one.doorsAt - fromAt) === Math.sign(byMs),
            )
            const farthest = byMs > 0 ? at('2026-06-05T22:30') : at('2026-06-05T06:00')
            const doorsAt = offered?.kind === 'other-doors' ? offered.doorsAt : null
            const nearest = nearestTried(snapshot, booking, byMs, farthest)
            expectAsSaid(snapshot, booking, offered, nearest)
            if (doorsAt !== nearest) continue
            if (doorsAt === null) none += 1
            else if (byMs < 0) offeredEarlier += 1
            else offeredLater += 1
          }
        },
      ),
      { seed: 20261130, numRuns: 20 },
    )
    // Worth something only if it met each case, often.
    expect(offeredEarlier).toBeGreaterThan(3)
    expect(offeredLater).toBeGreaterThan(8)
    expect(none).toBeGreaterThan(8)
  }, 240_000)

  /** The crew is at an event next door from noon to five, and the room is full until half past twelve. */
  const besideAnEvent = () => {
    const hall = aHall({ shifts: [aShift('crew', 4, '2026-06-05T08:00', '2026-06-05T23:00')] })
    const ushers = [
      CrewDemand.parse({ what: 'ushers', fromAt: at(`${DAY}T12:00`), toAt: at(`${DAY}T17:00`), hands: 4 }),
    ]
    const next = aBooking({
      name: 'next',
      layout: 'side-meeting',
      doors: `${DAY}T12:00`,
      clear: `${DAY}T17:00`,
    })
    const games = aBooking({
      name: 'games',
      layout: 'long-games',
      doors: `${DAY}T08:30`,
      clear: `${DAY}T12:30`,
    })
    return [{ ...next, crewDemands: ushers }, games].reduce((snapshot, booking) => {
      const { changes } = decide(snapshot, [{ kind: 'book', booking }])
      if (!changes) throw new Error(`${booking.id} was refused`)
      return snapshotAfter(snapshot, changes)
    }, hall)
  }
  const supper = () =>
    aBooking({ name: 'supper', layout: 'long-banquet', doors: `${DAY}T13:00`, clear: `${DAY}T15:00` })

  test('are found past an event elsewhere that has all of the crew, and all times up to them are looked at', () => {
    const snapshot = besideAnEvent()
    const { alternatives } = decide(snapshot, [{ kind: 'book', booking: supper() }])
    const [offered] = alternatives.filter(({ kind }) => kind === 'other-doors')
    expect(offered?.message).toBe('With doors at Fri 5 Jun 18:15 it fits, with little to spare.')
    expect(nearestTried(snapshot, supper(), FIVE_MINUTES_MS, at(`${DAY}T18:20`))).toBe(at(`${DAY}T18:15`))
  })

  test('are the nearest where an event in another room has part of the crew that this one asks for', () => {
    const demand = (what: string, hands: number, from: string) =>
      CrewDemand.parse({ what, hands, fromAt: on5th(from), toAt: on5th('11:00') })
    const snapshot = withBookings(
      aCrew({ shifts: [duty('crew', 2, '06:00', '22:00')], now: '2026-06-04T09:00' }),
      aUse('q', 'side-meeting', '10:00', '11:00', { crewDemands: [demand('ushers', 1, '09:30')] }),
    )
    const booking = aUse('a', 'south-meeting', '10:00', '11:00', {
      crewDemands: [demand('desk', 2, '09:50')],
    })
    const messages = decide(snapshot, [{ kind: 'book', booking }]).alternatives.map(({ message }) => message)
    expect(messages.slice(0, 2)).toEqual([
      'With doors at Fri 5 Jun 11:15 it fits. With it: desk from 11:05 to 12:15 instead of 09:50 to 11:00.',
      'With doors at Fri 5 Jun 08:25 it fits. With it: desk from 08:15 to 09:25 instead of 09:50 to 11:00.',
    ])
    expect(nearestTried(snapshot, booking, -FIVE_MINUTES_MS, on5th('08:00'))).toBe(on5th('08:25'))
    expect(nearestTried(snapshot, booking, FIVE_MINUTES_MS, on5th('12:00'))).toBe(on5th('11:15'))
  })

  test('say how far all times were searched where some beyond were left out, and mostly are the nearest all the same', () => {
    let leapt = 0
    let leaptToNearest = 0
    let offeredNearest = 0
    let offeredAtAll = 0
    fc.assert(
      fc.property(
        fc.record({
          hands: fc.integer({ min: 1, max: 4 }),
          ushers: fc.integer({ min: 0, max: 3 }),
          /** In quarters of an hour. */
          from: fc.integer({ min: 8, max: 14 }),
          length: fc.integer({ min: 14, max: 22 }),
          into: fc.integer({ min: -2, max: 4 }),
          layout: fc.constantFrom('south-meeting', 'long-worship'),
          desk: fc.boolean(),
        }),
        ({ hands, ushers, from, length, into, layout, desk }) => {
          const day = aDay({ hands, comesAt: '06:00', ushersFrom: 0 })
          const rooms = day.rooms.map((room) =>
            room.id === 'room_side'
              ? {
                  ...room,
                  acousticallyJoinedRoomIds: day.rooms.map(({ id }) => id).filter((id) => id !== room.id),
                }
              : room,
          )
          const service = visitor('service', { layout: 'side-meeting', doors: from, length })
          const games = visitor('games', { layout: 'long-games', doors: from - 5, length: 8 })
          const [fromAt, toAt] = [service.doorsAt, service.clearAt]
          const crewDemands =
            ushers === 0
              ? []
              : [CrewDemand.parse({ what: 'ushers', fromAt, toAt, hands: Math.min(ushers, hands) })]
          let snapshot: SiteSnapshot = { ...day, rooms }
          for (const booking of [{ ...service, quietNeeded: true, crewDemands }, games]) {
            const { changes } = decide(snapshot, [{ kind: 'book', booking }], { withoutAlternatives: true })
            if (changes) snapshot = snapshotAfter(snapshot, changes)
          }
          const plain = visitor('asked', { layout, doors: from + 4 + into, length: 4 })
          const booking = {
            ...plain,
            crewDemands: desk
              ? [CrewDemand.parse({ what: 'desk', fromAt: plain.doorsAt, toAt: plain.clearAt, hands: 1 })]
              : [],
          }
          const { changes, alternatives } = decide(snapshot, [{ kind: 'book', booking }])
          if (changes) return
          for (const byMs of [-FIVE_MINUTES_MS, FIVE_MINUTES_MS]) {
            const offered = alternatives.find(
              (one) =>
                one.kind === 'other-doors' && Math.sign(one.doorsAt - booking.doorsAt) === Math.sign(byMs),
            )
            if (offered?.kind !== 'other-doors') continue
            const nearest = nearestTried(snapshot, booking, byMs, offered.doorsAt + byMs)
            expectAsSaid(snapshot, booking, offered, nearest)
            offeredAtAll += 1
            if (offered.doorsAt === nearest) offeredNearest += 1
            if (!offered.message.includes('beyond that only some')) continue
            leapt += 1
            if (offered.doorsAt === nearest) leaptToNearest += 1
          }
        },
      ),
      { seed: 20261130, numRuns: 20 },
    )
    expect(leapt).toBeGreaterThan(4)
    expect(leaptToNearest / leapt).toBeGreaterThan(0.8)
    expect(offeredNearest / offeredAtAll).toBeGreaterThan(0.9)
  }, 240_000)

  test('say what moves along: what was to be there before doors, and the crew of the event', () => {
    const fromAt = supper().doorsAt
    const booking: Booking = {
      ...supper(),
      milestones: [{ milestone: 'tables-up', byAt: instantPlusSeconds(fromAt, -900) }],
      crewDemands: [
        CrewDemand.parse({ what: 'kitchen', fromAt, toAt: instantPlusSeconds(fromAt, 3600), hands: 1 }),
      ],
    }
    const { alternatives } = decide(besideAnEvent(), [{ kind: 'book', booking }])
    const [offered] = alternatives.filter(({ kind }) => kind === 'other-doors')
    expect(offered?.message).toContain(
      ' With it: tables up by 18:00 instead of 12:45 and kitchen from 18:15 to 19:15 instead of 13:00 to 14:00.',
    )
  })

  test('have the chance that a request has: neighbours are planned anew with them', () => {
    const hall = aHall({ shifts: [aShift('crew', 2, `${DAY}T09:00`, `${DAY}T14:00`)], now: `${DAY}T08:00` })
    const later = aBooking({
      name: 'later',
      layout: 'south-meeting',
      doors: `${DAY}T12:00`,
      clear: `${DAY}T13:00`,
    })
    const { changes } = decide(hall, [{ kind: 'book', booking: later }])
    const snapshot = snapshotAfter(hall, changes!)
    const early = aBooking({
      name: 'early',
      layout: 'side-meeting',
      doors: `${DAY}T09:10`,
      clear: `${DAY}T11:00`,
    })
    const answer = decide(snapshot, [{ kind: 'book', booking: early }])
    const [offered] = answer.alternatives.filter(({ kind }) => kind === 'other-doors')
    if (offered?.kind !== 'other-doors') throw new Error('no other doors are offered')
    const taken = decide(snapshot, [{ kind: 'book', booking: movedTo(early, offered.doorsAt) }])
    expect(taken.changes).not.toBeNull()
    // The one that has the hands from nine on gives way.
    expect(taken.affected.map(({ turnId }) => turnId)).toEqual(['turn_later'])
  })
})
