/** What a decision says is what the person who reads it needs: no ids, no reasons that are none, minutes and not hints. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import type { Decision } from '../../../src/domain/decision.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { answeredReason, decide } from '../../../src/scheduler/decide/index.ts'
import { aHall, aShift, at, book, close, type HallWishes, snapshotAfter } from './a-hall.ts'

const aClosure = (from: string, to: string) =>
  Closure.parse({
    id: 'closure_works',
    siteId: 'site_test',
    sectionIds: ['section_north'],
    fromAt: at(from),
    toAt: at(to),
    reason: 'works',
  })

const games = book({
  name: 'games',
  layout: 'long-games',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T20:00',
})
const dinner = book({
  name: 'dinner',
  layout: 'long-banquet',
  doors: '2026-06-05T21:40',
  clear: '2026-06-05T23:00',
  headcount: 100,
})

function withBooked(wishes: HallWishes, ...booked: Operation[]): SiteSnapshot {
  return booked.reduce((snapshot, operation) => {
    const { changes, reasons } = decide(snapshot, [operation])
    if (!changes) throw new Error(reasons.map(({ message }) => message).join(' '))
    return snapshotAfter(snapshot, changes)
  }, aHall(wishes))
}
const codes = ({ reasons }: Decision) => reasons.map(({ code }) => code)
const turnOf = ({ changes }: Decision, id: string) =>
  changes?.turns.find(({ after }) => after.id === id)?.after

describe('where a room is closed', () => {
  test('that is the one reason against a booking there: what its turn would lack is no news', () => {
    const closures = [aClosure('2026-06-05T20:30', '2026-06-06T12:00')]
    const hall = withBooked({ hands: 6 }, games)
    expect(codes(decide({ ...hall, closures }, [dinner]))).toEqual(['room-closed'])
  })

  test('over a booking that stands, that is the one reason stored with it', () => {
    const hall = withBooked({ hands: 6 }, games, dinner)
    const decision = decide(hall, [close(aClosure('2026-06-05T20:30', '2026-06-06T12:00'))])
    expect(codes(decision)).toEqual(['room-closed'])
    expect(turnOf(decision, 'turn_dinner')?.judgement.reasons.map(({ code }) => code)).toEqual([
      'room-closed',
    ])
  })

  test('in the gap before a booking, its warning says how much time is left, and how many minutes are short', () => {
    const hall = withBooked({ hands: 6 }, games, dinner)
    const decision = decide(hall, [close(aClosure('2026-06-05T20:15', '2026-06-05T21:30'))])
    const turn = turnOf(decision, 'turn_dinner')
    const [reason] = turn?.judgement.reasons ?? []
    if (!reason || !('shortSeconds' in reason)) throw new Error(`no minutes short: ${reason?.code}`)
    expect(reason.side).toBe('before')
    expect(reason.availableSeconds).toBe(25 * 60)
    expect(turn?.judgement.staffedWindowSeconds).toBe(25 * 60)
    expect(reason.shortSeconds).toBeGreaterThan(0)
    const { message } = answeredReason(reason, hall)
    expect(message).toMatch(
      /^The turn before it, to long banquet, needs about \d+ min .* there are 25: \d+ min short\./,
    )
  })

  test('in the gap before a booking, whoever closes is told which booking, and how late its room would be', () => {
    const hall = withBooked({ hands: 6 }, games, dinner)
    const decision = decide(hall, [close(aClosure('2026-06-05T20:15', '2026-06-05T21:30'))])
    expect(codes(decision)).toEqual(['another-turn-broken'])
    expect(decision.reasons[0]?.message).toMatch(
      /^The turn for “dinner”, doors Fri 5 Jun 21:40, would only be ready at Fri 5 Jun 2\d:\d\d, \d+ min after doors\.$/,
    )
  })
})

describe('a warning', () => {
  test('speaks of the turn before its own booking, also where a booking that was cancelled before it broke it', () => {
    const shifts = [
      aShift('morning', 6, '2026-06-05T09:00', '2026-06-05T12:00', ['sound']),
      aShift('afternoon', 6, '2026-06-05T12:00', '2026-06-05T16:00'),
    ]
    const banquet = (name: string, doors: string, clear: string) =>
      book({ name, layout: 'long-banquet', doors, clear, headcount: 100 })
    const hall = withBooked(
      { shifts, soundSkill: 'sound' },
      book({ name: 'morning', layout: 'long-games', doors: '2026-06-05T10:00', clear: '2026-06-05T11:00' }),
      banquet('lunch', '2026-06-05T12:30', '2026-06-05T13:00'),
      banquet('tea', '2026-06-05T14:45', '2026-06-05T15:30'),
    )
    // The sound desk was set for lunch and would have stayed so. Whoever could set it for tea has gone home.
    const { lunch } = Object.fromEntries(hall.bookings.map((booking) => [booking.title, booking]))
    const decision = decide({ ...hall, now: at('2026-06-05T12:10') }, [
      { kind: 'cancel', bookingId: lunch!.id, versionExpected: 1 },
    ])
    const [told] = decision.reasons
    expect(told).toMatchObject({ code: 'skill-missing', turnId: 'turn_tea', side: 'after' })
    expect(told?.message).toMatch(/, for the turn after it\.$/)
    const [stored] = turnOf(decision, 'turn_tea')?.judgement.reasons ?? []
    expect(stored).toMatchObject({ code: 'skill-missing', turnId: 'turn_tea', side: 'before' })
    expect(answeredReason(stored!, hall).message).toMatch(/, for the turn before it\.$/)
  })
})

describe('a sentence', () => {
  test('names another booking by its title, never by an id', () => {
    const hall = withBooked({}, games)
    const asked = book({
      name: 'quiz',
      layout: 'long-games',
      doors: '2026-06-05T19:00',
      clear: '2026-06-05T21:00',
    })
    expect(decide(hall, [asked]).reasons[0]?.message).toBe(
      'Long Room is taken from Fri 5 Jun 18:00 to Fri 5 Jun 20:00 by “games”.',
    )
  })

  test('counts one hand as one', () => {
    const hall = aHall({ shifts: [] })
    const asked = book({
      name: 'talk',
      layout: 'side-meeting',
      doors: '2026-06-05T18:00',
      clear: '2026-06-05T20:00',
    })
    const [reason] = decide(hall, [asked]).reasons
    expect(reason).toMatchObject({ code: 'hands-short', handsOnDuty: 0, handsNeeded: 1 })
    expect(reason?.message).toBe(
      'The turn before it, to side meeting, cannot be done: nobody is on duty. 1 hand would do it: 1 more.',
    )
  })
})
