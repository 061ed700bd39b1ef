/** A room that nobody needs for a while is put back into its home layout, where the policy asks for it. */
import { describe, expect, test } from 'vitest'
import { BookingId, LinkId, PolicyId } from '../../../src/domain/ids.ts'
import { Observation } from '../../../src/domain/observation.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import { aBooking, aHall, aShift, at, book, type HallWishes, setUp } from './a-hall.ts'
import { carriedOut, decided, planIn, turnIn } from './carried-out.ts'

const HOURS = 3600
/** After four hours; the side room is at home as a meeting, the long room as worship. */
const home = (wishes: HallWishes = {}): SiteSnapshot =>
  aHall({
    homeLayouts: { side: 'meeting', long: 'worship' },
    policy: { returnHomeAfterSeconds: 4 * HOURS },
    ...wishes,
  })
const supper = {
  name: 'supper',
  layout: 'side-supper',
  doors: '2026-06-05T11:00',
  clear: '2026-06-05T13:00',
}
/** The next day, as the room stands at home. */
const meeting = {
  name: 'meeting',
  layout: 'side-meeting',
  doors: '2026-06-06T10:00',
  clear: '2026-06-06T12:00',
}
const asOf = (snapshot: SiteSnapshot, now: string): SiteSnapshot => ({ ...snapshot, now: at(now) })
const cancel = (name: string): Operation => ({
  kind: 'cancel',
  bookingId: BookingId.parse(`booking_${name}`),
  versionExpected: null,
})
const withPolicy = (snapshot: SiteSnapshot, returnHomeAfterSeconds: number | null): Operation =>
  setUp({
    kind: 'policy',
    before: null,
    after: {
      ...snapshot.policy,
      id: PolicyId.parse(`policy_${returnHomeAfterSeconds ?? 'never'}`),
      returnHomeAfterSeconds,
    },
    retire: false,
  })
const seen = (pieces: Readonly<Record<string, number>>, seenAt: string): Operation =>
  setUp({
    kind: 'observation',
    before: null,
    after: Observation.parse({
      id: 'observation_one',
      siteId: 'site_test',
      roomId: 'room_side',
      seenAt: at(seenAt),
      pieces: Object.entries(pieces).map(([piece, count]) => ({
        furnishingId: `furnishing_${piece}`,
        count,
      })),
      standsLike: 'meeting',
    }),
    retire: false,
  })
/** The turns that put rooms back and still stand, by booking. */
const waysHome = (snapshot: SiteSnapshot) =>
  snapshot.turns
    .filter(({ purpose, status }) => purpose === 'return-home' && status !== 'dropped')
    .map(({ bookingId }) => bookingId)
    .sort()
const piecesSet = (snapshot: SiteSnapshot, turn: string, furnishing: string) =>
  planIn(snapshot, turn)
    .tasks.filter(({ kind, furnishingId }) => kind === 'set' && furnishingId === `furnishing_${furnishing}`)
    .reduce((sum, { count }) => sum + (count ?? 0), 0)
const piecesStruck = (snapshot: SiteSnapshot, turn: string, furnishing: string) =>
  planIn(snapshot, turn)
    .tasks.filter(
      ({ kind, furnishingId }) => kind === 'strike' && furnishingId === `furnishing_${furnishing}`,
    )
    .reduce((sum, { count }) => sum + (count ?? 0), 0)

describe('a room that nobody needs for as long as the policy says', () => {
  test('is put back after the booking: a turn of its own, from clear on, due when half of that time is over', () => {
    const { decision, after } = decided(home(), book(supper))
    expect(turnIn(after, 'supper-home')).toMatchObject({
      purpose: 'return-home',
      bookingId: 'booking_supper',
      roomId: 'room_side',
      predecessorBookingIds: ['booking_supper'],
      fromLayoutIds: ['layout_side-supper'],
      toLayoutId: 'layout_side-meeting',
      releaseAt: at('2026-06-05T13:00'),
      dueAt: at('2026-06-05T15:00'),
      status: 'ready',
    })
    const { tasks } = planIn(after, 'supper-home')
    for (const { startsAt, endsAt } of tasks) {
      expect(startsAt).toBeGreaterThanOrEqual(at('2026-06-05T13:00'))
      expect(endsAt).toBeLessThanOrEqual(at('2026-06-05T15:00'))
    }
    expect(piecesStruck(after, 'supper-home', 'round-table')).toBe(9)
    expect(decision).toMatchObject({
      verdict: 'fits',
      before: { turnId: 'turn_supper' },
      after: { turnId: 'turn_supper-home', toLayoutId: 'layout_side-meeting' },
    })
  })

  test('is left as it is where the policy says never, where it has no home layout, or stands in it', () => {
    expect(waysHome(carriedOut(home({ policy: {} }), book(supper)))).toEqual([])
    expect(waysHome(carriedOut(home({ homeLayouts: {} }), book(supper)))).toEqual([])
    expect(waysHome(carriedOut(home(), book(meeting)))).toEqual([])
  })

  test('is left as it is when the next booking comes sooner, by a minute; not when it comes later', () => {
    const next = (doors: string) => book({ ...meeting, doors, clear: '2026-06-05T20:00' })
    expect(waysHome(carriedOut(home(), next('2026-06-05T16:59'), book(supper)))).toEqual([])
    expect(waysHome(carriedOut(home(), next('2026-06-05T17:30'), book(supper)))).toEqual(['booking_supper'])
  })

  test('is ready at home for who comes next: that turn begins after, from the home layout, with nothing to set', () => {
    for (const asked of [
      [book(supper), book(meeting)],
      [book(meeting), book(supper)],
    ]) {
      const after = carriedOut(home(), ...asked)
      expect(turnIn(after, 'meeting')).toMatchObject({
        predecessorBookingIds: ['booking_supper'],
        fromLayoutIds: ['layout_side-meeting'],
        releaseAt: at('2026-06-05T15:00'),
      })
      expect(piecesSet(after, 'meeting', 'chair')).toBe(0)
      // Tables were cleared, and the floor cleaned, on the way home.
      const kinds = planIn(after, 'meeting').tasks.map(({ kind }) => kind)
      for (const kind of ['bus', 'bins', 'strike', 'clean']) expect(kinds).not.toContain(kind)
    }
  })

  test('is put back by hands that are then not free for others', () => {
    const shifts = [aShift('day', 2, '2026-06-05T08:00', '2026-06-06T20:00')]
    const after = carriedOut(
      home({ shifts }),
      book(supper),
      book({ name: 'talk', layout: 'south-meeting', doors: '2026-06-05T13:40', clear: '2026-06-05T15:00' }),
    )
    for (const task of planIn(after, 'supper-home').tasks) {
      for (const other of planIn(after, 'talk').tasks) {
        const isAtOnce = task.startsAt < other.endsAt && other.startsAt < task.endsAt
        if (isAtOnce) for (const laneId of task.laneIds) expect(other.laneIds).not.toContain(laneId)
      }
    }
  })

  test('is warned of when nobody is there to put it back', () => {
    const snapshot = carriedOut(home(), book(supper))
    const [shift] = snapshot.shifts
    const morning = {
      ...shift!,
      times: aHall({ shifts: [aShift('crew', 4, '2026-06-05T06:00', '2026-06-05T13:00')] }).shifts[0]!.times,
    }
    const after = carriedOut(
      snapshot,
      setUp({ kind: 'shift', before: shift!, after: morning, retire: false }),
    )
    expect(turnIn(after, 'supper').status).toBe('ready')
    expect(turnIn(after, 'supper-home')).toMatchObject({
      status: 'failing',
      judgement: { warnedSince: after.now },
    })
  })

  test('is not put back between bookings that keep it as set', () => {
    const again = { ...supper, name: 'again', doors: '2026-06-06T11:00', clear: '2026-06-06T13:00' }
    const apart = carriedOut(home(), book(supper), book(again))
    expect(waysHome(apart)).toEqual(['booking_again', 'booking_supper'])
    const linkId = LinkId.parse('link_suppers')
    const bookingIds = ['booking_supper', 'booking_again'].map((id) => BookingId.parse(id))
    const kept = carriedOut(apart, { kind: 'link', linkId, bookingIds, keepAsSet: true })
    expect(waysHome(kept)).toEqual(['booking_again'])
    expect(turnIn(kept, 'again').fromLayoutIds).toEqual(['layout_side-supper'])
    expect(waysHome(carriedOut(kept, { kind: 'unlink', linkId }))).toEqual([
      'booking_again',
      'booking_supper',
    ])
  })
})

describe('when bookings come and go', () => {
  const sooner = { ...meeting, name: 'sooner', doors: '2026-06-05T15:00', clear: '2026-06-05T16:00' }

  test('somebody who comes sooner gets the room as the booking left it, and nobody puts it back before', () => {
    const snapshot = carriedOut(home(), book(supper), book(meeting))
    const { decision, after } = decided(snapshot, book(sooner))
    expect(decision.verdict).toBe('fits')
    expect(turnIn(after, 'supper-home')).toMatchObject({ status: 'dropped', plan: null })
    expect(turnIn(after, 'sooner')).toMatchObject({
      predecessorBookingIds: ['booking_supper'],
      fromLayoutIds: ['layout_side-supper'],
      releaseAt: at('2026-06-05T13:00'),
    })
    expect(piecesStruck(after, 'sooner', 'round-table')).toBe(9)
    // That one leaves it as it is at home, for the next.
    expect(waysHome(after)).toEqual([])
    expect(turnIn(after, 'meeting')).toMatchObject({
      predecessorBookingIds: ['booking_sooner'],
      releaseAt: at('2026-06-05T16:00'),
    })
  })

  test('it is put back again when that one is cancelled', () => {
    const snapshot = carriedOut(home(), book(supper), book(meeting))
    const after = carriedOut(snapshot, book(sooner), cancel('sooner'))
    expect(turnIn(after, 'supper-home')).toEqual(turnIn(snapshot, 'supper-home'))
    expect(turnIn(after, 'meeting')).toEqual(turnIn(snapshot, 'meeting'))
  })

  test('a booking that is cancelled drops both of its turns, and the next starts from what was before', () => {
    const after = carriedOut(home(), book(supper), book(meeting), cancel('supper'))
    for (const name of ['supper', 'supper-home'])
      expect(turnIn(after, name)).toMatchObject({ status: 'dropped', plan: null })
    expect(turnIn(after, 'meeting').predecessorBookingIds).toEqual([])
  })

  test('a booking that is clear later is put back later; where that leaves too little, not at all', () => {
    const later = (clear: string): Operation => ({
      kind: 'clear-later',
      bookingId: BookingId.parse('booking_supper'),
      clearAt: at(clear),
      versionExpected: null,
    })
    const snapshot = carriedOut(
      home(),
      book({ ...meeting, doors: '2026-06-05T17:30', clear: '2026-06-05T19:00' }),
      book(supper),
    )
    const moved = carriedOut(snapshot, later('2026-06-05T13:20'))
    expect(turnIn(moved, 'supper-home')).toMatchObject({
      releaseAt: at('2026-06-05T13:20'),
      dueAt: at('2026-06-05T15:20'),
    })
    expect(turnIn(moved, 'meeting').releaseAt).toBe(at('2026-06-05T15:20'))
    const gone = carriedOut(moved, later('2026-06-05T13:31'))
    expect(waysHome(gone)).toEqual([])
    expect(turnIn(gone, 'meeting').releaseAt).toBe(at('2026-06-05T13:31'))
  })

  test('a booking that moves to another room leaves no way home behind', () => {
    const snapshot = carriedOut(home(), book(supper))
    const moved = aBooking({ ...supper, layout: 'south-meeting', version: 2 })
    const after = carriedOut(snapshot, { kind: 'change', booking: moved })
    expect(waysHome(after)).toEqual([])
  })

  test('a way home that waits for the crew of the morning makes room for who comes before it', () => {
    const shifts = [
      aShift('day', 4, '2026-06-05T06:00', '2026-06-05T13:00'),
      aShift('next', 4, '2026-06-06T05:00', '2026-06-06T20:00'),
    ]
    const policy = { returnHomeAfterSeconds: 20 * HOURS }
    const snapshot = asOf(carriedOut(home({ shifts, policy }), book(supper)), '2026-06-05T20:00')
    expect(planIn(snapshot, 'supper-home').startsAt).toBe(at('2026-06-06T05:00'))
    const breakfast = book({ ...meeting, doors: '2026-06-06T06:30', clear: '2026-06-06T08:00' })
    const after = carriedOut(snapshot, breakfast)
    expect(turnIn(after, 'supper-home')).toMatchObject({ status: 'dropped', plan: null })
    expect(turnIn(after, 'meeting').fromLayoutIds).toEqual(['layout_side-supper'])
  })
})

describe('a way home that has begun', () => {
  const begun = () => asOf(carriedOut(home(), book(supper)), '2026-06-05T13:05')
  const done = () => asOf(carriedOut(home(), book(supper)), '2026-06-05T15:00')
  const sooner = (doors: string) => book({ ...meeting, name: 'sooner', doors, clear: '2026-06-05T18:00' })

  test('goes on although somebody comes sooner: that one starts from the home layout when it is done', () => {
    const { readyAt } = planIn(begun(), 'supper-home')
    expect(readyAt).toBeLessThan(at('2026-06-05T14:30'))
    for (const [snapshot, doors, releaseAt] of [
      [begun(), '2026-06-05T14:45', readyAt],
      [begun(), '2026-06-05T16:30', at('2026-06-05T15:00')],
      [done(), '2026-06-05T16:30', at('2026-06-05T15:00')],
    ] as const) {
      const after = carriedOut(snapshot, sooner(doors))
      expect(turnIn(after, 'supper-home')).toEqual(turnIn(snapshot, 'supper-home'))
      expect(turnIn(after, 'sooner')).toMatchObject({ fromLayoutIds: ['layout_side-meeting'], releaseAt })
      expect(piecesSet(after, 'sooner', 'chair')).toBe(0)
    }
  })

  test('is done, whatever becomes of the policy', () => {
    const snapshot = carriedOut(done(), book(meeting))
    for (const seconds of [null, 6 * HOURS]) {
      const after = carriedOut(snapshot, withPolicy(snapshot, seconds))
      expect(turnIn(after, 'supper-home')).toEqual(turnIn(snapshot, 'supper-home'))
      expect(turnIn(after, 'meeting')).toMatchObject({
        fromLayoutIds: ['layout_side-meeting'],
        releaseAt: at('2026-06-05T15:00'),
      })
    }
  })

  test('has not begun while the guests are still there, whatever its plan says', () => {
    const later = (clear: string): Operation => ({
      kind: 'clear-later',
      bookingId: BookingId.parse('booking_supper'),
      clearAt: at(clear),
      versionExpected: null,
    })
    const moved = carriedOut(begun(), later('2026-06-05T13:30'))
    expect(planIn(moved, 'supper-home').startsAt).toBeGreaterThanOrEqual(at('2026-06-05T13:30'))
    const next = book({ ...meeting, doors: '2026-06-05T17:30', clear: '2026-06-05T19:00' })
    const snapshot = asOf(carriedOut(home(), book(supper), next), '2026-06-05T13:05')
    const gone = carriedOut(snapshot, later('2026-06-05T13:40'))
    expect(turnIn(gone, 'supper-home').status).toBe('dropped')
    expect(turnIn(gone, 'meeting')).toMatchObject({
      fromLayoutIds: ['layout_side-supper'],
      releaseAt: at('2026-06-05T13:40'),
    })
  })
})

describe('what somebody saw standing', () => {
  test('on the way home is what the room is put back from', () => {
    const snapshot = carriedOut(home(), book(supper))
    const after = carriedOut(
      asOf(snapshot, '2026-06-05T12:50'),
      seen({ 'round-table': 3, chair: 30 }, '2026-06-05T12:50'),
    )
    expect(piecesStruck(after, 'supper-home', 'round-table')).toBe(3)
  })

  test('while it is put back is what the rest is planned from', () => {
    const snapshot = asOf(carriedOut(home(), book(supper), book(meeting)), '2026-06-05T13:10')
    const after = carriedOut(snapshot, seen({ 'round-table': 4, chair: 30 }, '2026-06-05T13:10'))
    expect(planIn(after, 'supper-home').startsAt).toBeGreaterThanOrEqual(at('2026-06-05T13:10'))
    expect(piecesStruck(after, 'supper-home', 'round-table')).toBe(4)
    // The next one still finds the room as it is at home.
    expect(turnIn(after, 'meeting').fromLayoutIds).toEqual(['layout_side-meeting'])
    expect(piecesSet(after, 'meeting', 'chair')).toBe(0)
  })

  test('after it was put back is what the next turn starts from', () => {
    const snapshot = asOf(carriedOut(home(), book(supper), book(meeting)), '2026-06-05T20:00')
    const after = carriedOut(snapshot, seen({ chair: 12 }, '2026-06-05T20:00'))
    // 18 are fetched, and of the 12 that stand one in ten is moved all the same, rounded up.
    expect(piecesSet(after, 'meeting', 'chair')).toBe(20)
    expect(turnIn(after, 'supper-home')).toEqual(turnIn(snapshot, 'supper-home'))
  })
})

describe('rooms that are joined', () => {
  const games = {
    name: 'games',
    layout: 'long-games',
    doors: '2026-06-05T08:00',
    clear: '2026-06-05T10:00',
  }
  const half = { name: 'half', layout: 'south-meeting', doors: '2026-06-06T10:00', clear: '2026-06-06T12:00' }

  test('are put back whole; one half then starts from its share of the home layout', () => {
    const after = carriedOut(home({ hands: 6 }), book(games), book(half))
    expect(turnIn(after, 'games-home')).toMatchObject({
      roomId: 'room_long',
      toLayoutId: 'layout_long-worship',
      dueAt: at('2026-06-05T12:00'),
      status: 'ready',
    })
    expect(turnIn(after, 'half')).toMatchObject({
      predecessorBookingIds: ['booking_games'],
      fromLayoutIds: ['layout_long-worship'],
      releaseAt: at('2026-06-05T12:00'),
    })
    // 75 of 150 chairs stand in that half.
    expect(piecesStruck(after, 'half', 'chair')).toBe(35)
  })

  test('are left as they are when one half is needed sooner', () => {
    const soon = { ...half, doors: '2026-06-05T13:00', clear: '2026-06-05T14:30' }
    const after = carriedOut(home({ hands: 6 }), book(games), book(soon))
    expect(waysHome(after)).toEqual([])
    expect(turnIn(after, 'half').fromLayoutIds).toEqual(['layout_long-games'])
  })

  test('start from both halves as each of them stands: one put back, the other not', () => {
    const hall = home({
      hands: 6,
      northRoom: true,
      homeLayouts: { south: 'meeting' },
    })
    const other = {
      ...half,
      name: 'other',
      layout: 'north-meeting',
      doors: '2026-06-05T08:00',
      clear: '2026-06-05T10:00',
    }
    const together = { ...games, doors: '2026-06-06T18:00', clear: '2026-06-06T20:00' }
    const after = carriedOut(hall, book({ ...half, clear: '2026-06-06T12:00' }), book(other), book(together))
    expect(waysHome(after)).toEqual([])
    expect(turnIn(after, 'games')).toMatchObject({
      predecessorBookingIds: ['booking_other', 'booking_half'],
      fromLayoutIds: ['layout_north-meeting', 'layout_south-meeting'],
    })
  })
})

describe('a new policy', () => {
  const later = { ...supper, name: 'later', doors: '2026-06-06T15:00', clear: '2026-06-06T16:00' }
  const never = () => carriedOut(home({ policy: {} }), book(supper), book(meeting), book(later))

  test('that wants rooms put back does so after each booking to come, and the next ones start from there', () => {
    const snapshot = never()
    expect(waysHome(snapshot)).toEqual([])
    const after = carriedOut(snapshot, withPolicy(snapshot, 4 * HOURS))
    expect(waysHome(after)).toEqual(['booking_later', 'booking_supper'])
    expect(turnIn(after, 'meeting')).toMatchObject({
      fromLayoutIds: ['layout_side-meeting'],
      releaseAt: at('2026-06-05T15:00'),
    })
  })

  test('that wants it no more drops each way home that has not begun, and the next ones start from what is left', () => {
    const snapshot = never()
    const on = carriedOut(snapshot, withPolicy(snapshot, 4 * HOURS))
    const off = carriedOut(on, withPolicy(on, null))
    expect(waysHome(off)).toEqual([])
    for (const name of ['supper-home', 'later-home'])
      expect(turnIn(off, name)).toMatchObject({ status: 'dropped', plan: null })
    expect(turnIn(off, 'meeting')).toMatchObject({
      fromLayoutIds: ['layout_side-supper'],
      releaseAt: at('2026-06-05T13:00'),
    })
  })

  test('that wants it after another time moves each of them', () => {
    const snapshot = never()
    const on = carriedOut(snapshot, withPolicy(snapshot, 4 * HOURS))
    const moved = carriedOut(on, withPolicy(on, 6 * HOURS))
    expect(turnIn(moved, 'supper-home').dueAt).toBe(at('2026-06-05T16:00'))
    expect(turnIn(moved, 'meeting').releaseAt).toBe(at('2026-06-05T16:00'))
  })

  test('does not believe that a room was put back after a booking that was over before', () => {
    const snapshot = asOf(never(), '2026-06-05T14:00')
    const after = carriedOut(snapshot, withPolicy(snapshot, 4 * HOURS))
    expect(waysHome(after)).toEqual(['booking_later'])
    expect(turnIn(after, 'meeting')).toMatchObject({
      fromLayoutIds: ['layout_side-supper'],
      releaseAt: at('2026-06-05T13:00'),
    })
  })
})

test('what was put back before the window is known from its own turn: all that followed it is not loaded', () => {
  // The games are not put back: half of their room is needed an hour later.
  const on5th = (doors: string, clear: string) => ({
    doors: `2026-06-05T${doors}`,
    clear: `2026-06-05T${clear}`,
  })
  const whole = carriedOut(
    home({ hands: 6 }),
    book({ name: 'games', layout: 'long-games', ...on5th('08:00', '10:00') }),
    book({ name: 'soon', layout: 'south-meeting', ...on5th('11:30', '12:30') }),
    book({ name: 'evening', layout: 'south-meeting', ...on5th('20:00', '21:00') }),
    book(supper),
  )
  const loaded: SiteSnapshot = {
    ...whole,
    window: { fromAt: at('2026-06-06T09:00'), toAt: at('2026-06-06T20:00') },
    bookings: whole.bookings.filter(({ id }) => id !== 'booking_soon'),
    turns: whole.turns.filter(({ id }) => id !== 'turn_soon'),
  }
  for (const layout of ['long-games', 'side-meeting']) {
    const asked = book({ name: 'asked', layout, doors: '2026-06-06T18:00', clear: '2026-06-06T20:00' })
    const { changes } = decide(loaded, [asked])
    expect(changes).toEqual(decide(whole, [asked]).changes)
    expect(changes?.turns.map((change) => change.after.fromLayoutIds)).toEqual(
      layout === 'long-games'
        ? [['layout_long-games', 'layout_south-meeting'], ['layout_long-games']]
        : [['layout_side-meeting']],
    )
  }
})
