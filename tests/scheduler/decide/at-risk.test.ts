/** A booking that does not fit, taken all the same because somebody answers for it; and who has the crew before whom. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { ActorId, BookingId, LinkId } from '../../../src/domain/ids.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import {
  aBooking,
  addShift,
  aHall,
  aShift,
  at,
  type BookingWishes,
  book,
  close,
  type HallWishes,
  hold,
  setUp,
} from './a-hall.ts'
import { bookingIn, carriedOut, decided, planIn, refusalOf, turnIn } from './carried-out.ts'

const risk = {
  actorId: ActorId.parse('actor_coordinator'),
  why: 'they are content to wait',
  acceptedAt: at('2026-06-01T09:00'),
}
const atRisk = (wishes: BookingWishes): BookingWishes => ({
  ...wishes,
  terms: { ...wishes.terms, riskAccepted: risk },
})
/** Sections of time that both plans give to one hand. */
function handsHeldByBoth(snapshot: SiteSnapshot, one: string, other: string): string[] {
  return planIn(snapshot, one).tasks.flatMap((task) =>
    planIn(snapshot, other)
      .tasks.filter(({ startsAt, endsAt }) => task.startsAt < endsAt && startsAt < task.endsAt)
      .flatMap(({ laneIds }) => laneIds.filter((laneId) => task.laneIds.includes(laneId))),
  )
}

/** Two hands come at nine: enough to have the side room ready by 09:35, or the south room, not both. */
const twoHands = (wishes: HallWishes = {}): SiteSnapshot =>
  aHall({
    shifts: [aShift('morning', 2, '2026-06-05T09:00', '2026-06-05T12:00')],
    slackWantedSeconds: 0,
    ...wishes,
  })
const times = { doors: '2026-06-05T09:35', clear: '2026-06-05T11:00' }
const side = { name: 'side', layout: 'side-meeting', ...times }
const south = { name: 'south', layout: 'south-meeting', ...times }

describe('a booking that does not fit', () => {
  test('is taken at risk: the answer says that it does not fit, and why', () => {
    const firm = decide(carriedOut(twoHands(), book(side)), [book(south)])
    expect(firm).toMatchObject({ verdict: 'does-not-fit', changes: null })
    const { decision, after } = decided(carriedOut(twoHands(), book(side)), book(atRisk(south)))
    expect(decision).toMatchObject({ verdict: 'does-not-fit', alternatives: [] })
    expect(decision.reasons).toEqual(firm.reasons)
    expect(decision.reasons.map(({ overridable }) => overridable)).toEqual([true])
    expect(bookingIn(after, 'south')).toMatchObject({ status: 'CONFIRMED', riskAccepted: risk })
  })

  test('keeps the best plan there is, late as it is, and is warned of', () => {
    const after = carriedOut(twoHands(), book(side), book(atRisk(south)))
    const turn = turnIn(after, 'south')
    expect(turn).toMatchObject({
      status: 'failing',
      judgement: { verdict: 'does-not-fit', warnedSince: after.now },
    })
    const { tasks, readyAt } = planIn(after, 'south')
    expect(readyAt).toBeGreaterThan(at('2026-06-05T09:35'))
    expect(turn.judgement).toMatchObject({ readyAt })
    expect(tasks.every(({ hands, laneIds }) => laneIds.length === hands)).toBe(true)
    expect(tasks.some(({ laneIds }) => laneIds.length > 0)).toBe(true)
  })

  test('takes no hands from a firm booking', () => {
    const before = carriedOut(twoHands(), book(side))
    const after = carriedOut(before, book(atRisk(south)))
    expect(turnIn(after, 'side')).toEqual(turnIn(before, 'side'))
    expect(handsHeldByBoth(after, 'side', 'south')).toEqual([])
  })

  test('keeps its own hands from a firm booking that is asked for later', () => {
    const hall = twoHands({ northRoom: true })
    const north = book({
      name: 'north',
      layout: 'north-meeting',
      doors: '2026-06-05T10:00',
      clear: '2026-06-05T11:00',
    })
    expect(decide(carriedOut(hall, book(side)), [north]).changes).not.toBeNull()
    const snapshot = carriedOut(hall, book(side), book(atRisk(south)))
    const { changes, reasons } = decide(snapshot, [north])
    expect(changes).toBeNull()
    expect(reasons.map(({ code }) => code)).toEqual(['hands-short'])
  })

  test('is at no risk where it fits after all', () => {
    const { decision, after } = decided(twoHands(), book(atRisk(south)))
    expect(decision.verdict).toBe('fits')
    expect(bookingIn(after, 'south').riskAccepted).toBeNull()
  })

  test('is at no risk once it is changed so that it fits', () => {
    const snapshot = carriedOut(twoHands(), book(side), book(atRisk(south)))
    const later = aBooking({ ...atRisk({ ...south, doors: '2026-06-05T10:15' }), version: 2 })
    const { decision, after } = decided(snapshot, { kind: 'change', booking: later })
    expect(decision.verdict).toBe('fits')
    expect(bookingIn(after, 'south').riskAccepted).toBeNull()
    expect(turnIn(after, 'south').status).toBe('ready')
  })

  test('stays at risk while its turn fails, whatever else is changed about it', () => {
    const snapshot = carriedOut(twoHands(), book(side), book(atRisk(south)))
    const renamed = { ...bookingIn(snapshot, 'south'), title: 'Morning talk', version: 2 }
    const calls: Operation[] = [
      { kind: 'change', booking: renamed },
      {
        kind: 'clear-later',
        bookingId: BookingId.parse('booking_south'),
        clearAt: at('2026-06-05T11:15'),
        versionExpected: null,
      },
      {
        kind: 'link',
        linkId: LinkId.parse('link_morning'),
        bookingIds: [BookingId.parse('booking_side'), BookingId.parse('booking_south')],
        keepAsSet: false,
      },
    ]
    for (const call of calls) {
      const after = carriedOut(snapshot, call)
      expect(bookingIn(after, 'south').riskAccepted).toMatchObject({
        ...risk,
        reasons: [{ code: 'hands-short', turnId: 'turn_south' }],
      })
      expect(turnIn(after, 'south').status).toBe('failing')
    }
  })

  test('can be held at risk and made firm at risk', () => {
    const snapshot = carriedOut(twoHands(), book(side), hold({ ...atRisk(south), until: '2026-06-03T12:00' }))
    const { decision, after } = decided(snapshot, {
      kind: 'confirm',
      bookingId: BookingId.parse('booking_south'),
      versionExpected: null,
    })
    expect(decision.verdict).toBe('does-not-fit')
    expect(bookingIn(after, 'south')).toMatchObject({ status: 'CONFIRMED', riskAccepted: risk })
    expect(turnIn(after, 'south').status).toBe('failing')
  })

  test('with more people than seats is taken at risk: its turn is planned, and fails for that', () => {
    const crowd = atRisk({ ...south, headcount: 50 })
    const { decision, after } = decided(twoHands(), book(crowd))
    expect(decision.reasons.map(({ code }) => code)).toEqual(['headcount-over-seats'])
    expect(turnIn(after, 'south')).toMatchObject({ status: 'failing' })
    expect(planIn(after, 'south').readyAt).toBeLessThanOrEqual(at('2026-06-05T09:35'))
  })

  test('that gets more people than seats by a change fails for that from then on', () => {
    const snapshot = carriedOut(twoHands(), book(south))
    const change = (headcount: number, version: number): Operation => ({
      kind: 'change',
      booking: aBooking({ ...atRisk({ ...south, headcount }), version }),
    })
    const crowded = carriedOut(snapshot, change(50, 2))
    expect(turnIn(crowded, 'south')).toMatchObject({
      status: 'failing',
      judgement: { reasons: [{ code: 'headcount-over-seats', headcount: 50 }] },
    })
    const fewer = carriedOut(crowded, change(30, 3))
    expect(turnIn(fewer, 'south')).toMatchObject({ status: 'ready', judgement: { reasons: [] } })
    expect(bookingIn(fewer, 'south').riskAccepted).toBeNull()
  })
})

test('whoever is refused for want of hands is told for whom the others work', () => {
  const { reasons } = decide(carriedOut(twoHands(), book(side)), [book(south)], { withoutAlternatives: true })
  expect(reasons.map(({ message }) => message)).toEqual([
    'The turn before it, to south meeting, would be ready 12 min after doors: it needs about 23 min, but not all of the 2 hands on duty are free when they are needed, up to 2 of them at work for “side”. 3 hands would do it: 1 more.',
  ])
})

describe('what is taken at risk', () => {
  const games = {
    name: 'games',
    layout: 'long-games',
    doors: '2026-06-05T18:00',
    clear: '2026-06-05T21:00',
  }
  const dinner = {
    name: 'dinner',
    layout: 'long-banquet',
    doors: '2026-06-05T21:10',
    clear: '2026-06-05T23:30',
    headcount: 100,
  }
  const againstDinner = (snapshot: SiteSnapshot) =>
    decide(snapshot, [book(atRisk(games))], { withoutAlternatives: true })

  test('takes no time from a firm booking that was ready: that is not for anybody to answer for', () => {
    const decision = againstDinner(carriedOut(aHall(), book(dinner)))
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code, overridable }) => [code, overridable])).toEqual([
      ['turn-after-too-long', false],
    ])
  })

  test('may take it from one that is only held', () => {
    const before = carriedOut(aHall(), hold({ ...dinner, until: '2026-06-03T12:00' }))
    const { decision, after } = decided(before, book(atRisk(games)))
    expect(decision.reasons.map(({ code, overridable }) => [code, overridable])).toEqual([
      ['turn-after-too-long', true],
    ])
    expect(turnIn(after, 'dinner').status).toBe('failing')
    expect(bookingIn(after, 'games').riskAccepted).toMatchObject(risk)
  })

  test('may take it from one that is at risk itself, or failed before', () => {
    const crowded = { ...dinner, headcount: 160 }
    const atRiskBefore = carriedOut(aHall(), book(atRisk(crowded)))
    expect(turnIn(atRiskBefore, 'dinner').status).toBe('failing')
    expect(againstDinner(atRiskBefore).changes).not.toBeNull()
    // The same said of one that came to fail by a change of the hall.
    const standing = carriedOut(aHall(), book(dinner))
    const failing = carriedOut(
      standing,
      setUp({ kind: 'shift', before: standing.shifts[0]!, after: standing.shifts[0]!, retire: true }),
    )
    expect(turnIn(failing, 'dinner').status).toBe('failing')
    expect(
      againstDinner(failing).reasons.filter(({ code }) => code === 'turn-after-too-long'),
    ).not.toContainEqual(expect.objectContaining({ overridable: false }))
  })

  test('takes no crew of an event from a firm booking elsewhere', () => {
    const ushers = {
      ...side,
      terms: {
        crewDemands: [
          {
            what: 'ushers',
            fromAt: at('2026-06-05T09:40'),
            toAt: at('2026-06-05T10:30'),
            hands: 2,
            skill: null,
          },
        ],
      },
    }
    const before = carriedOut(twoHands(), book({ ...ushers, doors: '2026-06-05T09:35' }))
    const after = carriedOut(before, book(atRisk(south)))
    expect(turnIn(after, 'side')).toEqual(turnIn(before, 'side'))
    expect(handsHeldByBoth(after, 'side', 'south')).toEqual([])
  })

  test('is at no risk any more once more hands make it ready, and nobody is warned', () => {
    const before = carriedOut(twoHands(), book(side), book(atRisk(south)))
    const two = aShift('more', 2, '2026-06-05T09:00', '2026-06-05T12:00')
    const { decision, after } = decided(before, addShift(Shift.parse({ siteId: 'site_test', ...two })))
    expect(decision.verdict).toBe('fits')
    expect(turnIn(after, 'south')).toMatchObject({ status: 'ready', judgement: { warnedSince: null } })
    expect(bookingIn(after, 'south')).toEqual({
      ...bookingIn(before, 'south'),
      riskAccepted: null,
      version: bookingIn(before, 'south').version + 1,
    })
  })

  test('stays at risk when more hands are not enough', () => {
    const crowd = { ...south, headcount: 50 }
    const before = carriedOut(twoHands(), book(side), book(atRisk(crowd)))
    const two = aShift('more', 2, '2026-06-05T09:00', '2026-06-05T12:00')
    const after = carriedOut(before, addShift(Shift.parse({ siteId: 'site_test', ...two })))
    expect(bookingIn(after, 'south')).toEqual(bookingIn(before, 'south'))
  })
})

describe('a booking that fails and is only called otherwise', () => {
  const renamed = (snapshot: SiteSnapshot, name: string): Operation => {
    const booking = bookingIn(snapshot, name)
    return { kind: 'change', booking: { ...booking, title: 'Morning talk', version: booking.version + 1 } }
  }

  test('is written, and the answer says that it does not fit, and why', () => {
    const standing = carriedOut(twoHands(), book(side))
    const [shift] = standing.shifts
    const failing = carriedOut(
      standing,
      setUp({ kind: 'shift', before: shift!, after: shift!, retire: true }),
    )
    const { decision, after } = decided(failing, renamed(failing, 'side'))
    expect(decision).toMatchObject({ verdict: 'does-not-fit', alternatives: [] })
    expect(decision.reasons.map(({ message }) => message)).toEqual([
      'The turn before it, to side meeting, cannot be done: nobody is on duty. 1 hand would do it: 1 more.',
    ])
    expect(bookingIn(after, 'side').title).toBe('Morning talk')
    expect(turnIn(after, 'side')).toEqual(turnIn(failing, 'side'))
  })

  test('at risk, stays so with the reasons for which it was taken', () => {
    const before = carriedOut(twoHands(), book(side), book(atRisk(south)))
    const { decision, after } = decided(before, renamed(before, 'south'))
    expect(decision.verdict).toBe('does-not-fit')
    expect(bookingIn(after, 'south').riskAccepted).toEqual(bookingIn(before, 'south').riskAccepted)
  })
})

describe('nobody can answer for', () => {
  const leak = Closure.parse({
    id: 'closure_leak',
    siteId: 'site_test',
    sectionIds: ['section_south'],
    fromAt: at('2026-06-05T00:00'),
    toAt: at('2026-06-06T00:00'),
    reason: 'leak in the roof',
  })
  const cases: readonly (readonly [string, SiteSnapshot, BookingWishes, string])[] = [
    [
      'a room that is taken',
      carriedOut(twoHands(), book(south)),
      { ...south, name: 'second' },
      'room-occupied',
    ],
    ['a room that is closed', carriedOut(twoHands(), close(leak)), south, 'room-closed'],
    [
      'more people than the posted limit',
      twoHands(),
      { ...south, headcount: 101 },
      'headcount-over-posted-limit',
    ],
    [
      'a skill that only adults may have',
      twoHands({ soundSkill: 'rigging' }),
      { ...side, layout: 'long-banquet', headcount: 100 },
      'skill-missing',
    ],
  ]
  test.each(cases)('%s', (_, snapshot, wishes, code) => {
    const decision = decide(snapshot, [book(atRisk(wishes))])
    expect(decision.changes).toBeNull()
    expect(decision.reasons).toContainEqual(expect.objectContaining({ code, overridable: false }))
  })

  test('another booking that is asked for in the same call', () => {
    const snapshot = carriedOut(twoHands(), book(side))
    const tooMany = book({
      ...side,
      name: 'many',
      doors: '2026-06-05T14:00',
      clear: '2026-06-05T15:00',
      headcount: 40,
    })
    expect(refusalOf(snapshot, [book(atRisk(south)), tooMany])).toContain('headcount-over-seats')
    expect(refusalOf(snapshot, [tooMany, book(atRisk(south))])).toContain('headcount-over-seats')
  })
})

describe('when there are fewer hands than there were', () => {
  const shifts = [
    aShift('one', 2, '2026-06-05T09:00', '2026-06-05T12:00'),
    aShift('two', 2, '2026-06-05T09:00', '2026-06-05T12:00'),
  ]
  const dropShift = (snapshot: SiteSnapshot, name: string): Operation => {
    const shift = snapshot.shifts.find(({ id }) => id === `shift_${name}`)!
    return setUp({ kind: 'shift', before: shift, after: shift, retire: true })
  }
  const statusAfterDrop = (wishes: readonly BookingWishes[], which: string) => {
    const snapshot = carriedOut(twoHands({ shifts }), ...wishes.map((one) => book(one)))
    const fewer = carriedOut(snapshot, dropShift(snapshot, which))
    return { side: turnIn(fewer, 'side').status, south: turnIn(fewer, 'south').status }
  }

  test('a firm booking has them before one at risk, though its doors are later', () => {
    // More people than seats: that it fails is not for want of hands.
    const earlier = { ...south, doors: '2026-06-05T09:34', headcount: 50 }
    for (const which of ['one', 'two']) {
      const snapshot = carriedOut(twoHands({ shifts }), book(atRisk(earlier)), book(side))
      const fewer = carriedOut(snapshot, dropShift(snapshot, which))
      expect(turnIn(fewer, 'side').status).toBe('ready')
      const codes = turnIn(fewer, 'south').judgement.reasons.map(({ code }) => code)
      expect(codes).toEqual(['headcount-over-seats', 'hands-short'])
      expect(handsHeldByBoth(fewer, 'side', 'south')).toEqual([])
    }
  })

  test('of two firm bookings the one with earlier doors has them', () => {
    for (const which of ['one', 'two']) {
      const sooner = { doors: '2026-06-05T09:34' }
      expect(statusAfterDrop([{ ...south, ...sooner }, side], which)).toEqual({
        south: 'ready',
        side: 'failing',
      })
      expect(statusAfterDrop([south, { ...side, ...sooner }], which)).toEqual({
        south: 'failing',
        side: 'ready',
      })
    }
  })

  test('with equal doors the one with the higher priority has them, and with equal priority the order of ids', () => {
    const first = { terms: { priority: 5 } }
    for (const which of ['one', 'two']) {
      expect(statusAfterDrop([{ ...south, ...first }, side], which)).toEqual({
        south: 'ready',
        side: 'failing',
      })
      expect(statusAfterDrop([south, { ...side, ...first }], which)).toEqual({
        south: 'failing',
        side: 'ready',
      })
      expect(statusAfterDrop([south, side], which)).toEqual({ south: 'failing', side: 'ready' })
    }
  })

  test('a booking at risk that was ready but for its people gets its plan back when the hands come back', () => {
    const snapshot = carriedOut(twoHands({ shifts }), book(side), book(atRisk({ ...south, headcount: 50 })))
    const fewer = carriedOut(snapshot, dropShift(snapshot, 'two'))
    const [, again] = snapshot.shifts
    const back = carriedOut(fewer, setUp({ kind: 'shift', before: null, after: again!, retire: false }))
    expect(turnIn(back, 'south').judgement.reasons.map(({ code }) => code)).toEqual(['headcount-over-seats'])
  })
})
