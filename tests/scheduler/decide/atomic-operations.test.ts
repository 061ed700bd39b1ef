/** Several operations in one call are all written, or none of them; and the same question gets the same answer. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { BookingId, LinkId, PolicyId, RateSetId, ShiftId, SiteId } from '../../../src/domain/ids.ts'
import { Observation } from '../../../src/domain/observation.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { RateSet } from '../../../src/domain/rate-set.ts'
import type { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { StockChange } from '../../../src/domain/stock-change.ts'
import { brokenInvariants, decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/index.ts'
import { aBooking, addShift, aHall, aShift, at, book, close, hold, setUp, snapshotAfter } from './a-hall.ts'
import { bookingIn, carriedOut, decided, refusalOf, turnIn } from './carried-out.ts'

const siteId = SiteId.parse('site_test')
const id = (name: string) => BookingId.parse(`booking_${name}`)
const times = { doors: '2026-06-05T18:00', clear: '2026-06-05T20:00' }
const side = { name: 'side', layout: 'side-meeting', ...times }
const south = { name: 'south', layout: 'south-meeting', ...times }
const cancel = (name: string): Operation => ({ kind: 'cancel', bookingId: id(name), versionExpected: null })
const leak = (sectionId: string) =>
  Closure.parse({
    id: 'closure_leak',
    siteId,
    sectionIds: [sectionId],
    fromAt: at('2026-06-05T00:00'),
    toAt: at('2026-06-06T00:00'),
    reason: 'leak in the roof',
  })

describe('several operations in one call', () => {
  test('are refused together when one of them does not fit, whichever comes first', () => {
    const fits = book(side)
    const doesNot = book({ ...south, headcount: 60 })
    for (const call of [
      [fits, doesNot],
      [doesNot, fits],
    ]) {
      const decision = decide(aHall(), call)
      expect(decision).toMatchObject({ verdict: 'does-not-fit', changes: null })
      expect(decision.reasons.map(({ code }) => code)).toEqual(['headcount-over-seats'])
    }
    expect(decide(aHall(), [fits]).changes).not.toBeNull()
  })

  test('are refused together when each fits alone and both do not', () => {
    const shifts = [aShift('morning', 2, '2026-06-05T09:00', '2026-06-05T09:35')]
    const hall = aHall({ shifts, slackWantedSeconds: 0 })
    const morning = { doors: '2026-06-05T09:35', clear: '2026-06-05T11:00' }
    const both = [book({ ...side, ...morning }), book({ ...south, ...morning })]
    for (const one of both) expect(decide(hall, [one]).changes).not.toBeNull()
    expect(decide(hall, both).changes).toBeNull()
  })

  test('let two bookings change rooms with each other, which neither could alone', () => {
    const snapshot = carriedOut(aHall(), book(side), book(south))
    const toSouth = aBooking({ ...side, layout: 'south-meeting', version: 2 })
    const toSide = aBooking({ ...south, layout: 'side-meeting', version: 2 })
    const changes: Operation[] = [
      { kind: 'change', booking: toSouth },
      { kind: 'change', booking: toSide },
    ]
    for (const one of changes) expect(refusalOf(snapshot, one)).toContain('room-occupied')
    const after = carriedOut(snapshot, changes)
    expect(bookingIn(after, 'side').roomId).toBe('room_south')
    expect(bookingIn(after, 'south').roomId).toBe('room_side')
    for (const name of ['side', 'south']) expect(turnIn(after, name).status).toBe('ready')
  })

  test('let two bookings change rooms and times with each other', () => {
    const later = { ...south, doors: '2026-06-05T21:00', clear: '2026-06-05T22:00' }
    const snapshot = carriedOut(aHall(), book(side), book(later))
    const after = carriedOut(snapshot, [
      {
        kind: 'change',
        booking: aBooking({
          ...side,
          layout: 'south-meeting',
          doors: later.doors,
          clear: later.clear,
          version: 2,
        }),
      },
      { kind: 'change', booking: aBooking({ ...later, layout: 'side-meeting', ...times, version: 2 }) },
    ])
    expect(turnIn(after, 'side')).toMatchObject({ roomId: 'room_south', dueAt: at('2026-06-05T21:00') })
    expect(turnIn(after, 'south')).toMatchObject({ roomId: 'room_side', dueAt: at('2026-06-05T18:00') })
  })

  test('give a place up and take it in one go', () => {
    const snapshot = carriedOut(aHall(), book(side))
    const other = { ...side, name: 'other' }
    expect(refusalOf(snapshot, book(other))).toEqual(['room-occupied'])
    for (const call of [
      [cancel('side'), book(other)],
      [book(other), cancel('side')],
    ]) {
      const after = carriedOut(snapshot, call)
      expect(turnIn(after, 'side').status).toBe('dropped')
      expect(turnIn(after, 'other').status).toBe('ready')
    }
  })

  test('book with the crew that comes in the same call', () => {
    const nobody = aHall({ shifts: [] })
    expect(decide(nobody, [book(side)]).changes).toBeNull()
    const crew = aHall({ hands: 4 }).shifts[0]!
    for (const call of [
      [book(side), addShift(crew)],
      [addShift(crew), book(side)],
    ])
      expect(turnIn(carriedOut(nobody, call), 'side').status).toBe('ready')
  })

  test('hold two rooms in one go, to be linked and made firm together', () => {
    const linkId = LinkId.parse('link_both')
    const until = '2026-06-03T12:00'
    const after = carriedOut(
      aHall(),
      [hold({ ...side, until }), hold({ ...south, until })],
      { kind: 'link', linkId, bookingIds: [id('side'), id('south')], keepAsSet: false },
      { kind: 'confirm', bookingId: id('south'), versionExpected: null },
    )
    expect(after.bookings.map(({ status, version }) => [status, version])).toEqual([
      ['CONFIRMED', 3],
      ['CONFIRMED', 3],
    ])
  })

  test('write nothing of what could not be refused when it comes with what is', () => {
    const decision = decide(aHall(), [close(leak('section_side')), book(side)])
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code }) => code)).toEqual(['room-closed'])
  })

  test('have their problems told in their order, before anything is decided', () => {
    const problems = operationProblems(aHall(), [
      cancel('nobody'),
      book({ ...side, doors: '2026-05-31T18:00' }),
    ])
    expect(problems.map(({ code }) => code)).toEqual(['unknown-id', 'already-begun'])
  })
})

describe('what cannot be refused', () => {
  /** A games night, then a dinner that the crew has just ready; a hold that is over; two that are linked. */
  const games = { name: 'games', layout: 'long-games', doors: '2026-06-05T18:00', clear: '2026-06-05T21:00' }
  const dinner = {
    name: 'dinner',
    layout: 'long-banquet',
    doors: '2026-06-05T22:10',
    clear: '2026-06-05T23:30',
    headcount: 100,
  }
  const linkId = LinkId.parse('link_two')
  const snapshot: SiteSnapshot = {
    ...carriedOut(
      aHall({ hands: 6 }),
      book(games),
      book(dinner),
      hold({ ...side, name: 'held', until: '2026-06-02T12:00' }),
      { kind: 'link', linkId, bookingIds: [id('games'), id('dinner')], keepAsSet: false },
    ),
    now: at('2026-06-02T12:00'),
  }
  const [shift] = snapshot.shifts
  const banquet = snapshot.layouts.find((layout) => layout.id === 'layout_long-banquet')!
  const slow: RateSet = {
    id: RateSetId.parse('rateset_slow'),
    siteId,
    number: 1,
    name: 'Slow with tables',
    rates: {
      ...DEFAULT_RATES,
      fromTrolley: {
        ...DEFAULT_RATES.fromTrolley,
        'round-table': { setPersonSeconds: 500, strikePersonSeconds: 400 },
      },
    },
    marks: {},
  }
  const soundAway = StockChange.parse({
    id: 'stockchange_sound',
    siteId,
    of: { kind: 'equipment', equipmentId: 'equipment_sound' },
    why: 'out-of-service',
    fromAt: at('2026-06-04T00:00'),
    toAt: null,
  })
  const chairsAway = StockChange.parse({
    id: 'stockchange_chairs',
    siteId,
    of: { kind: 'furnishing', furnishingId: 'furnishing_chair', count: 300 },
    why: 'lent-out',
    fromAt: at('2026-06-04T00:00'),
    toAt: null,
  })
  const seen = Observation.parse({
    id: 'observation_now',
    siteId,
    roomId: 'room_long',
    seenAt: at('2026-06-02T12:00'),
    pieces: [{ furnishingId: 'furnishing_chair', count: 150 }],
  })
  const cases: readonly (readonly [string, Operation])[] = [
    ['a booking cancelled', cancel('dinner')],
    ['a hold that lapses', { kind: 'lapse', bookingId: id('held') }],
    ['a link undone', { kind: 'unlink', linkId }],
    [
      'guests who stay longer',
      { kind: 'clear-later', bookingId: id('games'), clearAt: at('2026-06-05T21:55'), versionExpected: null },
    ],
    ['a room closed', close(leak('section_north'))],
    ['a shift dropped', setUp({ kind: 'shift', before: shift!, after: shift!, retire: true })],
    [
      'a shift made shorter',
      setUp({
        kind: 'shift',
        before: shift!,
        after: {
          ...shift!,
          times: { kind: 'once', startsAt: at('2026-06-05T06:00'), endsAt: at('2026-06-05T21:30') },
        },
        retire: false,
      }),
    ],
    ['a shift added', addShift({ ...shift!, id: ShiftId.parse('shift_more') })],
    [
      'a device out of service',
      setUp({ kind: 'stockChange', before: null, after: soundAway, retire: false }),
    ],
    ['furnishing lent out', setUp({ kind: 'stockChange', before: null, after: chairsAway, retire: false })],
    ['what really stands', setUp({ kind: 'observation', before: null, after: seen, retire: false })],
    ['a rate set accepted', setUp({ kind: 'rateSet', before: null, after: slow, retire: false })],
    [
      'a policy of a slower crew',
      setUp({
        kind: 'policy',
        before: null,
        after: { ...snapshot.policy, id: PolicyId.parse('policy_slow'), paceFactor: 4 },
        retire: false,
      }),
    ],
    ['a layout taken out of use', setUp({ kind: 'layout', before: banquet, after: banquet, retire: true })],
  ]

  test.each(cases)('%s is written, whatever follows from it', (_, operation) => {
    const { after, decision } = decided(snapshot, operation)
    expect(decision.alternatives).toEqual([])
    // A turn that fails by it is warned of, and said to be among what is affected or next.
    const told = [decision.after?.turnId, ...decision.affected.map(({ turnId }) => turnId)]
    for (const turn of after.turns.filter(({ status }) => status === 'failing')) {
      expect(turn.judgement.warnedSince).toBe(after.now)
      expect(told).toContain(turn.id)
      expect(decision.verdict).toBe('does-not-fit')
    }
  })

  test('leaves the dinner failing by many of them', () => {
    const failing = cases
      .filter(([, operation]) => {
        const after = carriedOut(snapshot, operation)
        return after.turns.some(({ id: turn, status }) => turn === 'turn_dinner' && status === 'failing')
      })
      .map(([name]) => name)
    expect(failing).toEqual(
      expect.arrayContaining([
        'guests who stay longer',
        'a room closed',
        'a shift dropped',
        'a shift made shorter',
        'a device out of service',
        'a rate set accepted',
        'a policy of a slower crew',
      ]),
    )
    for (const name of ['a hold that lapses', 'a link undone', 'a shift added', 'a layout taken out of use'])
      expect(failing).not.toContain(name)
  })
})

describe('the same question', () => {
  const policy = { returnHomeAfterSeconds: 4 * 3600 }
  const hall = () =>
    carriedOut(
      aHall({ hands: 6, northRoom: true, movableWall: true, homeLayouts: { side: 'meeting' }, policy }),
      book({ name: 'games', layout: 'long-games', doors: '2026-06-05T10:00', clear: '2026-06-05T12:00' }),
      book({ name: 'half', layout: 'south-meeting', doors: '2026-06-05T13:30', clear: '2026-06-05T15:00' }),
      book({ name: 'other', layout: 'north-meeting', doors: '2026-06-05T13:30', clear: '2026-06-05T15:30' }),
      book({ name: 'supper', layout: 'side-supper', doors: '2026-06-05T12:00', clear: '2026-06-05T14:00' }),
      book({ name: 'meeting', layout: 'side-meeting', doors: '2026-06-06T10:00', clear: '2026-06-06T12:00' }),
      {
        kind: 'link',
        linkId: LinkId.parse('link_halves'),
        bookingIds: [id('half'), id('other')],
        keepAsSet: false,
      },
    )
  const snapshot = hall()
  const [shift] = snapshot.shifts
  const fewer: Shift = { ...shift!, crew: { kind: 'hands', hands: 1, skills: [], adults: true } }
  const questions: readonly (readonly [string, Operation[]])[] = [
    [
      'a booking that fits',
      [
        book({
          name: 'worship',
          layout: 'long-worship',
          doors: '2026-06-05T18:00',
          clear: '2026-06-05T19:00',
        }),
      ],
    ],
    [
      'a booking that does not, with what would',
      [
        book({
          name: 'worship',
          layout: 'long-worship',
          doors: '2026-06-05T15:40',
          clear: '2026-06-05T19:00',
        }),
      ],
    ],
    ['one of a link cancelled', [cancel('other')]],
    [
      'guests who stay longer',
      [
        {
          kind: 'clear-later',
          bookingId: id('games'),
          clearAt: at('2026-06-05T13:10'),
          versionExpected: null,
        },
      ],
    ],
    ['hands taken away', [setUp({ kind: 'shift', before: shift!, after: fewer, retire: false })]],
    [
      'rooms left as they are',
      [
        setUp({
          kind: 'policy',
          before: null,
          after: { ...snapshot.policy, id: PolicyId.parse('policy_never'), returnHomeAfterSeconds: null },
          retire: false,
        }),
      ],
    ],
    [
      'a title changed',
      [{ kind: 'change', booking: { ...bookingIn(snapshot, 'games'), title: 'Play', version: 2 } }],
    ],
  ]

  test.each(questions)('gets the same answer to the byte: %s', (_, operations) => {
    const answer = JSON.stringify(decide(snapshot, operations))
    expect(JSON.stringify(decide(hall(), operations))).toBe(answer)
  })

  test.each(questions)('is answered alike in whatever order bookings and turns come: %s', (_, operations) => {
    const answer = JSON.stringify(decide(snapshot, operations))
    const anyOrder = <Row>(rows: readonly Row[]) =>
      fc.shuffledSubarray([...rows], { minLength: rows.length, maxLength: rows.length })
    fc.assert(
      fc.property(anyOrder(snapshot.bookings), anyOrder(snapshot.turns), (bookings, turns) => {
        expect(JSON.stringify(decide({ ...snapshot, bookings, turns }, operations))).toBe(answer)
      }),
      { seed: 20261130, numRuns: 6 },
    )
  })

  test('does not change what it is asked about', () => {
    const before = JSON.stringify(snapshot)
    for (const [, operations] of questions) decide(snapshot, operations)
    expect(JSON.stringify(snapshot)).toBe(before)
  })

  test('asked again once it is written, changes nothing more', () => {
    for (const [name, operations] of questions.slice(4, 6)) {
      const { changes } = decide(snapshot, operations)
      const after = snapshotAfter(snapshot, changes!)
      expect(brokenInvariants(after)).toEqual([])
      expect([name, decide(after, operations).changes?.turns]).toEqual([name, []])
    }
  })
})
