/** After a change of the hall the nearest turns are judged at once, and the others later, nearest first. */
import { describe, expect, test } from 'vitest'
import type { Booking } from '../../../src/domain/booking.ts'
import { Closure } from '../../../src/domain/closure.ts'
import type { Changes } from '../../../src/domain/decision.ts'
import { FurnishingId } from '../../../src/domain/ids.ts'
import type { Instant } from '../../../src/domain/instant.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SetupWrite } from '../../../src/domain/setup.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import {
  aCrew,
  asked,
  aUse,
  decided,
  duty,
  handsAt,
  locked,
  on5th,
  planOf,
  turnOf,
  withBookings,
  withSmallRooms,
} from './a-crew.ts'
import { at } from './a-hall.ts'

const june = { fromAt: at('2026-06-01T00:00'), toAt: at('2026-06-30T00:00') }
const changing = (writes: readonly SetupWrite[], restFromAt: Instant | null = null): Operation => ({
  kind: 'set-up',
  writes: [...writes],
  span: june,
  restFromAt,
})
const judging = (from: string, to: string, judgedThroughAt: Instant | null): Operation => ({
  kind: 'judge',
  span: { fromAt: at(from), toAt: at(to) },
  judgedThroughAt,
})
const through = (changes: Changes | null) => changes?.judgedThroughAt

/** Two hands, every day from nine until one. */
const daily = (name: string) =>
  Shift.parse({
    ...duty(name, 2, '09:00', '13:00'),
    siteId: 'site_test',
    times: {
      kind: 'weekly',
      weekdays: [1, 2, 3, 4, 5, 6, 7],
      startsLocal: '09:00',
      endsLocal: '13:00',
      firstDate: '2026-06-01',
      lastDate: null,
    },
  })
/** The crew of every day is another one: all that was planned with the first must be planned anew. */
const otherCrew = [
  { kind: 'shift', before: daily('first'), after: daily('first'), retire: true },
  { kind: 'shift', before: null, after: daily('second'), retire: false },
] as const

const dayOfJune = (index: number, time: string) => `2026-06-${String(index).padStart(2, '0')}T${time}`
/** One small room more for each day: its doors are at noon. */
function oneADay(days: number, firstDay: number): { hall: SiteSnapshot; bookings: Booking[] } {
  const hall = withSmallRooms(
    aCrew({ shifts: [daily('first')], now: '2026-06-01T08:00', policy: { workMost: 4 } }),
    days,
  )
  const bookings = Array.from({ length: days }, (_, index) =>
    aUse(
      `r${index + 1}`,
      `r${index + 1}-chairs`,
      dayOfJune(firstDay + index, '12:00'),
      dayOfJune(firstDay + index, '13:00'),
    ),
  )
  return { hall, bookings }
}

describe('a change of the hall under more turns than can be planned anew at once', () => {
  const days = 27
  const { hall, bookings } = oneADay(days, 2)
  const before = withBookings(hall, ...bookings)
  const { decision, snapshot } = decided(before, changing(otherCrew))
  const isNew = (index: number) =>
    handsAt(planOf(snapshot, `r${index}`).tasks).some((lane) => lane.startsWith('shift_second'))

  test('has the twenty-four with the nearest doors planned anew, and leaves the rest', () => {
    expect(bookings.map((_, index) => isNew(index + 1))).toEqual(bookings.map((_, index) => index < 24))
    expect(decision.affected).toHaveLength(24)
  })

  test('says from which doors on turns are still to be looked at', () => {
    expect(through(decision.changes)).toBe(bookings[24]!.doorsAt)
    expect(snapshot.judgedThroughAt).toBe(at('2026-06-26T12:00'))
  })

  test('is done when what is left is judged: then everything is looked at', () => {
    const { decision: rest, snapshot: done } = decided(
      snapshot,
      judging('2026-06-26T00:00', '2026-06-30T00:00', null),
    )
    expect(rest.affected.map(({ turnId }) => turnId)).toEqual(['turn_r25', 'turn_r26', 'turn_r27'])
    expect(through(rest.changes)).toBeNull()
    expect(done.judgedThroughAt).toBeNull()
    for (const { turnId } of bookings) {
      const { plan } = done.turns.find(({ id }) => id === turnId)!
      expect(handsAt(plan!.tasks).every((lane) => lane.startsWith('shift_second'))).toBe(true)
    }
  })

  test('may be worked off a part at a time, each saying how far it came', () => {
    const part = decided(snapshot, judging('2026-06-26T00:00', '2026-06-27T00:00', at('2026-06-27T00:00')))
    expect(part.decision.affected.map(({ turnId }) => turnId)).toContain('turn_r25')
    expect(part.snapshot.judgedThroughAt).toBe(at('2026-06-27T00:00'))
  })
})

describe('turns within three days', () => {
  test('are planned anew at once, however many', () => {
    const rooms = 26
    const hall = withSmallRooms(
      aCrew({ shifts: [daily('first')], now: '2026-06-01T08:00', policy: { workMost: 4 } }),
      rooms,
    )
    // All of them on the second and third day.
    const bookings = Array.from({ length: rooms }, (_, index) => {
      const day = index < 13 ? 2 : 3
      return aUse(`r${index + 1}`, `r${index + 1}-chairs`, dayOfJune(day, '13:00'), dayOfJune(day, '14:00'))
    })
    const before = withBookings(hall, ...bookings)
    const { decision, snapshot } = decided(before, changing(otherCrew))
    expect(decision.affected).toHaveLength(rooms)
    expect(through(decision.changes)).toBeUndefined()
    expect(snapshot.judgedThroughAt).toBeNull()
  })
})

describe('what is left for later', () => {
  const rooms = 26
  const riskAccepted = { actorId: 'actor_kim', why: 'They will stand.', acceptedAt: on5th('08:00') }
  /** Two hours more than three days ahead: planned for the second of June, when its room can be had at ten. */
  const farthest = aUse('r1', 'r1-chairs', '2026-06-04T10:00', '2026-06-04T11:00')
  const atRisk = aUse('r2', 'r2-chairs', '2026-06-02T12:30', '2026-06-02T13:30', {
    headcount: 40,
    riskAccepted,
  })
  const nearer = Array.from({ length: rooms - 2 }, (_, index) =>
    aUse(`r${index + 3}`, `r${index + 3}-chairs`, dayOfJune(2 + (index % 2), '12:50'), dayOfJune(3, '14:00')),
  )
  /** A cloth more in every room but the first. */
  function fuller({ layouts }: SiteSnapshot): Operation {
    const cloth = FurnishingId.parse('furnishing_cloth')
    const changed = layouts.filter(({ id }) => /^layout_r\d+-/.test(id) && id !== 'layout_r1-chairs')
    return changing(
      changed.map((layout) => ({
        kind: 'layout',
        before: layout,
        after: { ...layout, furnishings: [...layout.furnishings, { furnishingId: cloth, count: 1 }] },
        retire: false,
      })),
    )
  }
  /** The room of the one at risk is locked until ten on the second of June. */
  const closures = [Closure.parse({ ...locked('r2', '10:00'), toAt: at('2026-06-02T10:00') })]
  const aHallOpen = (hours: number) =>
    withSmallRooms(
      aCrew({
        shifts: [{ ...daily('first'), times: { ...daily('first').times, endsLocal: `${9 + hours}:00` } }],
        closures,
        now: '2026-06-01T08:00',
        policy: { workMost: 4 },
      }),
      rooms,
    )

  test('keeps its hands where its order still holds: those at risk, who are looked at last, do not get them', () => {
    // All of the nearer ones are done on the first of June.
    const before = withBookings(aHallOpen(10), farthest, ...nearer, atRisk)
    expect(planOf(before, 'r1').startsAt).toBe(at('2026-06-02T10:00'))
    const { snapshot } = decided(before, fuller(before))
    expect(turnOf(snapshot, 'r1').status).toBe('ready')
    expect(planOf(snapshot, 'r1').startsAt).toBe(planOf(before, 'r1').startsAt)
    expect(planOf(snapshot, 'r2').startsAt).toBeGreaterThan(planOf(snapshot, 'r1').readyAt)
  })

  test('is not moved to mend those with nearer doors: what still holds is done first', () => {
    // The nearer ones would like the crew on the second of June too.
    const before = withBookings(aHallOpen(4), farthest, ...nearer)
    const { snapshot } = decided(before, fuller(before))
    expect(planOf(snapshot, 'r1').startsAt).toBe(planOf(before, 'r1').startsAt)
  })
})

describe('how far turns are looked at', () => {
  const before = withBookings(
    aCrew({ shifts: [daily('first')] }),
    aUse('m', 'side-meeting', '12:00', '14:00'),
  )
  const rest = at('2026-06-20T12:00')

  test('ends where a change says that others feel it too', () => {
    const { decision } = decided(before, changing(otherCrew, rest))
    expect(through(decision.changes)).toBe(rest)
  })

  test('never moves on by a change: the earlier of the two stays', () => {
    const stale = { ...before, judgedThroughAt: at('2026-06-15T12:00') }
    expect(through(decided(stale, changing(otherCrew, rest)).decision.changes)).toBeUndefined()
    const farther = { ...before, judgedThroughAt: at('2026-06-25T12:00') }
    expect(through(decided(farther, changing(otherCrew, rest)).decision.changes)).toBe(rest)
  })

  test('is not spoken of by a booking, nor by a change that everybody has felt', () => {
    const next = aUse('next', 'south-meeting', '12:00', '14:00')
    expect(through(decided(before, asked(next)).decision.changes)).toBeUndefined()
    expect(through(decided(before, changing(otherCrew)).decision.changes)).toBeUndefined()
  })
})

describe('a turn that is judged again', () => {
  const before = withBookings(
    aCrew({ shifts: [daily('first')] }),
    aUse('m', 'side-meeting', '12:00', '14:00'),
  )
  const judge = judging('2026-06-01T00:00', '2026-06-30T00:00', null)

  test('and stands as it stood is nothing to write down, but how far was looked', () => {
    const { decision } = decided({ ...before, judgedThroughAt: june.fromAt }, judge)
    expect(decision.changes).toMatchObject({ bookings: [], turns: [], setup: [], judgedThroughAt: null })
  })

  test('is judged by the hall as it is now: a shift that came meanwhile, a policy, rates', () => {
    // The crew has gone, and nobody has looked since.
    const stale = { ...before, shifts: [], judgedThroughAt: june.fromAt }
    const { decision, snapshot } = decided(stale, judge)
    expect(decision.verdict).toBe('does-not-fit')
    expect(turnOf(snapshot, 'm')).toMatchObject({
      status: 'failing',
      judgement: { warnedSince: stale.now, hands: { onDuty: 0 } },
    })
    const back = decided({ ...snapshot, shifts: [daily('second')], judgedThroughAt: june.fromAt }, judge)
    expect(turnOf(back.snapshot, 'm')).toMatchObject({ status: 'ready', judgement: { warnedSince: null } })
  })

  test('is left alone outside the span', () => {
    const stale = { ...before, shifts: [], judgedThroughAt: june.fromAt }
    const earlier = judging('2026-06-01T00:00', '2026-06-02T00:00', at('2026-06-02T00:00'))
    expect(decided(stale, earlier).decision.changes!.turns).toEqual([])
  })

  test('is left alone once it has begun', () => {
    const begun = { ...before, shifts: [], now: at('2026-06-05T11:00'), judgedThroughAt: june.fromAt }
    expect(planOf(before, 'm').startsAt).toBeLessThanOrEqual(begun.now)
    expect(decided(begun, judge).decision.changes!.turns).toEqual([])
  })
})
