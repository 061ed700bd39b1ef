/** The wall between two halves that are let singly: it stands in both, and is one way only. */
import { describe, expect, test } from 'vitest'
import { CrewDemand } from '../../../src/domain/booking-terms.ts'
import { ActorId, BookingId } from '../../../src/domain/ids.ts'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import { aHall, at, book, type HallWishes } from './a-hall.ts'
import { carriedOut, planIn, turnIn } from './carried-out.ts'

const hall = (wishes: HallWishes = {}): SiteSnapshot =>
  aHall({ hands: 6, northRoom: true, movableWall: true, ...wishes })
const day = (time: string) => `2026-06-05T${time}`
const wanted = (name: string, layout: string, doors: string, clear: string) => ({
  name,
  layout,
  doors: day(doors),
  clear: day(clear),
  headcount: 20,
})
/** The wall is open at first, and for games in the whole room. */
const games = wanted('games', 'long-games', '07:00', '08:00')
const closedNorth = wanted('north', 'north-meeting', '10:00', '12:00')
const openNorth = wanted('open-day', 'north-open-day', '10:00', '12:00')
const closedSouth = (doors: string, clear: string) => wanted('south', 'south-meeting', doors, clear)

const riskAccepted = {
  actorId: ActorId.parse('actor_coordinator'),
  why: 'they are content to wait',
  acceptedAt: at('2026-06-01T09:00'),
}

function firmTaken(snapshot: SiteSnapshot, firm: ReturnType<typeof wanted>) {
  const operation = book(firm)
  const isTaken = decide(snapshot, [operation]).changes !== null
  return { snapshot: isTaken ? carriedOut(snapshot, operation) : snapshot, isTaken }
}

const isWall = ({ equipmentId }: PlannedTask) => equipmentId === 'equipment_wall'
const wallMoves = (snapshot: SiteSnapshot, name: string) =>
  planIn(snapshot, name)
    .tasks.filter(isWall)
    .map(({ key }) => key.replace('switch/equipment_wall/', ''))

describe('a wall between two halves', () => {
  test('that was closed for one half is not closed again for the other', () => {
    const turned = carriedOut(hall(), book(games), book(closedNorth), book(closedSouth('14:00', '16:00')))
    expect(wallMoves(turned, 'north')).toEqual(['open/closed'])
    expect(wallMoves(turned, 'south')).toEqual([])
  })

  test('is closed by who comes first, whoever asked first', () => {
    const turned = carriedOut(hall(), book(games), book(closedSouth('14:00', '16:00')), book(closedNorth))
    expect(wallMoves(turned, 'north')).toEqual(['open/closed'])
    expect(wallMoves(turned, 'south')).toEqual([])
  })

  test('of two that begin together is closed once', () => {
    const turned = carriedOut(hall(), book(games), book(closedSouth('10:00', '12:00')), book(closedNorth))
    expect([...wallMoves(turned, 'north'), ...wallMoves(turned, 'south')]).toEqual(['open/closed'])
  })

  test('is closed for the other half after all when the booking that had it closed is given up', () => {
    const turned = carriedOut(hall(), book(games), book(closedNorth), book(closedSouth('14:00', '16:00')))
    const cancelled = carriedOut(turned, {
      kind: 'cancel',
      bookingId: BookingId.parse('booking_north'),
      versionExpected: null,
    })
    expect(wallMoves(cancelled, 'south')).toEqual(['open/closed'])
  })

  test('is moved only when the other half is clear, however long this one was free before', () => {
    const turned = carriedOut(hall(), book(games), book(openNorth), book(closedSouth('12:30', '14:00')))
    const moved = planIn(turned, 'south').tasks.find(isWall)
    expect(moved?.startsAt).toBeGreaterThanOrEqual(at(day('12:00')))
    expect(turnIn(turned, 'south')).toMatchObject({ status: 'ready', releaseAt: at(day('08:00')) })
  })

  test('that the other half has until doors is what a refusal names, and not the hands, who are all free', () => {
    const taken = carriedOut(hall(), book(games), book(openNorth))
    const { changes, reasons } = decide(taken, [book(closedSouth('12:00', '14:00'))])
    expect(changes).toBeNull()
    const [reason] = reasons
    expect(reason).toMatchObject({
      code: 'turn-before-too-long',
      handsHeld: 0,
      heldFor: [],
      heldBack: [
        {
          kind: 'device',
          equipmentId: 'equipment_wall',
          bookingId: 'booking_open-day',
          untilAt: at(day('12:00')),
        },
      ],
    })
    expect(reason?.message).toMatch(
      /^The turn before it, to south meeting, would be ready \d+ min after doors: it needs about \d+ min, and the movable wall may only be moved once “open-day” is out at Fri 5 Jun 12:00\. No /,
    )
  })

  test('waits for guests who stay in the other half', () => {
    const turned = carriedOut(hall(), book(games), book(openNorth), book(closedSouth('13:00', '14:00')))
    const later = carriedOut(turned, {
      kind: 'clear-later',
      bookingId: BookingId.parse('booking_open-day'),
      clearAt: at(day('12:40')),
      versionExpected: null,
    })
    expect(planIn(later, 'south').tasks.find(isWall)?.startsAt).toBeGreaterThanOrEqual(at(day('12:40')))
  })

  test('cannot be closed for one half while the other has it open: that is refused, and says who has it', () => {
    const taken = carriedOut(hall(), book(openNorth))
    const { changes, reasons } = decide(taken, [book(closedSouth('11:00', '13:00'))])
    expect(changes).toBeNull()
    const [reason] = reasons
    expect(reason).toEqual({
      code: 'device-held',
      equipmentId: 'equipment_wall',
      bookingId: 'booking_open-day',
      forBookingId: 'booking_south',
      from: 'open',
      to: 'closed',
      fromAt: at(day('10:00')),
      toAt: at(day('12:00')),
      overridable: false,
      message:
        'The movable wall would have to be closed for “south”, and “open-day” has it open in another room that it reaches into, from Fri 5 Jun 10:00 to Fri 5 Jun 12:00.',
    })
  })

  test('nor may who asks later and begins earlier have it open where it is to be closed', () => {
    const taken = carriedOut(hall(), book(closedSouth('11:00', '13:00')))
    const { changes, reasons } = decide(taken, [book(openNorth)])
    expect(changes).toBeNull()
    expect(reasons).toContainEqual(
      expect.objectContaining({ code: 'device-held', forBookingId: 'booking_south' }),
    )
  })

  test('stays closed beside a room that is kept as set, though nobody is there meanwhile', () => {
    const taken = carriedOut(hall(), book(closedSouth('07:00', '08:30')))
    const kept = {
      ...taken,
      bookings: taken.bookings.map((booking) => ({ ...booking, keptUntilAt: at(day('15:00')) })),
    }
    expect(decide(kept, [book(openNorth)]).reasons).toContainEqual(
      expect.objectContaining({ code: 'device-held', bookingId: 'booking_south', toAt: at(day('15:00')) }),
    )
    expect(decide(taken, [book(openNorth)]).reasons).toEqual([])
  })

  test('of two that begin together with it otherwise only one is taken', () => {
    for (const [first, second] of [
      [openNorth, closedSouth('10:00', '13:00')],
      [closedSouth('10:00', '13:00'), openNorth],
    ] as const) {
      const taken = carriedOut(hall(), book(first))
      expect(decide(taken, [book(second)]).reasons).toContainEqual(
        expect.objectContaining({ code: 'device-held' }),
      )
    }
  })

  test('stays as it is when one half is put back: the other may be in use', () => {
    const policy = { returnHomeAfterSeconds: 4 * 3600 }
    const snapshot = carriedOut(
      hall({ policy, homeLayouts: { south: 'meeting', north: 'open-day' } }),
      book(games),
      book(closedNorth),
      book(closedSouth('10:00', '18:00')),
    )
    const home = turnIn(snapshot, 'north-home')
    expect(home.plan?.tasks.some(isWall)).toBe(false)
    expect(home.plan?.tasks.length).toBeGreaterThan(0)
    const next = carriedOut(
      snapshot,
      book({ ...closedNorth, name: 'next', doors: day('20:00'), clear: day('21:00') }),
    )
    expect(wallMoves(next, 'next')).toEqual([])
  })

  test('stands as somebody saw it since in either half', () => {
    const seen = {
      id: 'observation_seen',
      roomId: 'room_north',
      seenAt: at(day('12:30')),
      standsLike: null,
      pieces: [],
      equipment: [{ equipmentId: 'equipment_wall', setting: { kind: 'state', state: 'open' } }],
    }
    const turned = carriedOut(
      hall({ observations: [seen] }),
      book(games),
      book(closedNorth),
      book(closedSouth('14:00', '16:00')),
    )
    expect(wallMoves(turned, 'south')).toEqual(['open/closed'])
  })

  test('is not for who takes a risk to move too late for a firm booking in the other half', () => {
    const busy = {
      ...wanted('busy', 'side-meeting', '12:00', '14:00'),
      terms: {
        crewDemands: [
          CrewDemand.parse({
            what: 'desk',
            fromAt: at(day('12:00')),
            toAt: at(day('13:00')),
            hands: 2,
            skill: null,
          }),
        ],
      },
    }
    let refused = 0
    for (const firmDoors of ['13:40', '13:44', '13:48', '13:52']) {
      const firm = wanted('firm', 'north-meeting', firmDoors, '15:00')
      const { snapshot: taken, isTaken } = firmTaken(
        carriedOut(hall({ hands: 2 }), book(games), book(openNorth), book(busy)),
        firm,
      )
      if (!isTaken) continue
      for (const riskDoors of ['13:15', '13:25', '13:35', '13:39']) {
        const operation = book({ ...closedSouth(riskDoors, '15:00'), terms: { riskAccepted } })
        const { changes, reasons } = decide(taken, [operation])
        const late = reasons.filter(({ code }) => code === 'device-late')
        for (const { overridable } of late) expect(overridable).toBe(false)
        refused += late.length
        expect(changes === null).toBe(reasons.some(({ overridable }) => !overridable))
        if (changes) expect(turnIn(carriedOut(taken, operation), 'firm').status).toBe('ready')
      }
    }
    expect(refused).toBeGreaterThan(0)
  })

  test('that is moved late, because guests of before stay, is late for the other half too, and that is said', () => {
    const turned = carriedOut(
      hall(),
      book(games),
      book(openNorth),
      book(wanted('north', 'north-meeting', '13:00', '15:00')),
      book(closedSouth('13:30', '15:00')),
    )
    expect(wallMoves(turned, 'south')).toEqual([])
    const later = carriedOut(turned, {
      kind: 'clear-later',
      bookingId: BookingId.parse('booking_open-day'),
      clearAt: at(day('13:25')),
      versionExpected: null,
    })
    const { status, judgement } = turnIn(later, 'south')
    expect(status).toBe('failing')
    expect(judgement.reasons).toContainEqual(
      expect.objectContaining({
        code: 'device-late',
        moverBookingId: 'booking_north',
        bookingId: 'booking_south',
      }),
    )
    // Given up, the other half moves it itself, and is ready.
    const given = carriedOut(later, {
      kind: 'cancel',
      bookingId: BookingId.parse('booking_north'),
      versionExpected: null,
    })
    expect(wallMoves(given, 'south')).toEqual(['open/closed'])
  })
})
