/** The guests stay longer than planned: it is as it is, and what follows from it is told. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { BookingId } from '../../../src/domain/ids.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { aHall, aShift, at, book, close, type HallWishes } from './a-hall.ts'
import { bookingIn, carriedOut, decided, planIn, turnIn } from './carried-out.ts'

/** A dinner at 22:10 after a games night that is clear at 21:00; six hands are on duty until midnight. */
const games = {
  name: 'games',
  layout: 'long-games',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T21:00',
}
const dinner = {
  name: 'dinner',
  layout: 'long-banquet',
  doors: '2026-06-05T22:10',
  clear: '2026-06-05T23:30',
  headcount: 100,
}
const gamesThenDinner = (wishes: HallWishes = {}): SiteSnapshot =>
  carriedOut(aHall({ hands: 6, slackWantedSeconds: 0, ...wishes }), book(games), book(dinner))
const asOf = (snapshot: SiteSnapshot, now: string): SiteSnapshot => ({ ...snapshot, now: at(now) })
const clearLater = (name: string, clear: string, versionExpected: number | null = null): Operation => ({
  kind: 'clear-later',
  bookingId: BookingId.parse(`booking_${name}`),
  clearAt: at(clear),
  versionExpected,
})
const startsOf = (snapshot: SiteSnapshot, name: string) =>
  planIn(snapshot, name).tasks.map(({ startsAt }) => startsAt)

describe('guests who stay a little longer', () => {
  test('leave the next turn less time: it is planned anew, and is still ready', () => {
    const { decision, after } = decided(gamesThenDinner(), clearLater('games', '2026-06-05T21:04', 1))
    expect(decision).toMatchObject({ verdict: 'fits', after: { turnId: 'turn_dinner', verdict: 'fits' } })
    expect(bookingIn(after, 'games')).toMatchObject({
      clearAt: at('2026-06-05T21:04'),
      overrunsUntilAt: null,
      version: 2,
    })
    expect(turnIn(after, 'dinner')).toMatchObject({
      status: 'ready',
      releaseAt: at('2026-06-05T21:04'),
      dueAt: at('2026-06-05T22:10'),
    })
    for (const startsAt of startsOf(after, 'dinner'))
      expect(startsAt).toBeGreaterThanOrEqual(at('2026-06-05T21:04'))
  })

  test('change nothing in the turn before them', () => {
    const { decision, after } = decided(gamesThenDinner(), clearLater('games', '2026-06-05T21:04'))
    expect(turnIn(after, 'games')).toEqual(turnIn(gamesThenDinner(), 'games'))
    expect(decision.before).toMatchObject({ turnId: 'turn_games', verdict: 'fits' })
    expect(decision.affected).toEqual([])
  })

  test('who leave the next turn too little are not sent away: it fails with the numbers, and keeps a plan that is late', () => {
    const { decision, after } = decided(gamesThenDinner(), clearLater('games', '2026-06-05T21:40'))
    expect(decision.verdict).toBe('does-not-fit')
    const [reason] = decision.reasons
    if (reason?.code !== 'turn-after-too-long') throw new Error(`got ${reason?.code}`)
    expect(reason).toMatchObject({
      side: 'after',
      availableSeconds: 30 * 60,
      doorsAt: at('2026-06-05T22:10'),
    })
    const turn = turnIn(after, 'dinner')
    expect(turn.status).toBe('failing')
    expect(turn.plan?.readyAt).toBe(reason.readyAt)
    expect(turn.judgement).toMatchObject({ readyAt: reason.readyAt, warnedSince: after.now })
    // The stored reason is told from the dinner, not from the games night.
    expect(turn.judgement.reasons.map(({ code }) => code)).toEqual(['turn-before-too-long'])
    expect(bookingIn(after, 'games')).toMatchObject({
      clearAt: at('2026-06-05T21:40'),
      overrunsUntilAt: null,
    })
  })
})

describe('guests who stay beyond doors of the next booking', () => {
  const over = () => decided(gamesThenDinner(), clearLater('games', '2026-06-05T22:30'))

  test('hold the room by plan until those doors, and how it is stands beside: no room is taken twice', () => {
    const booking = bookingIn(over().after, 'games')
    expect(booking).toMatchObject({
      clearAt: at('2026-06-05T22:10'),
      overrunsUntilAt: at('2026-06-05T22:30'),
    })
  })

  test('leave the next turn failing, with the plain word that the room is not empty by doors', () => {
    const { decision, after } = over()
    expect(decision.verdict).toBe('does-not-fit')
    const [reason, ...more] = decision.reasons
    expect(more).toEqual([])
    if (reason?.code !== 'turn-after-too-long') throw new Error(`got ${reason?.code}`)
    expect(reason).toMatchObject({ availableSeconds: 0, handsOnDuty: 0, proof: 'bound' })
    const needed = Math.ceil(reason.neededSeconds! / 60)
    const short = Math.ceil(reason.shortSeconds! / 60)
    expect(short).toBeGreaterThanOrEqual(20 + needed)
    expect(reason.message).toBe(
      `The turn after it, to long banquet, cannot begin before doors: guests are in until Fri 5 Jun 22:30, doors are Fri 5 Jun 22:10. It needs about ${needed} min and would be ready at Fri 5 Jun 23:24, ${short} min after doors.`,
    )
    expect(turnIn(after, 'dinner')).toMatchObject({
      status: 'failing',
      releaseAt: at('2026-06-05T22:10'),
      dueAt: at('2026-06-05T22:10'),
    })
  })

  test('are not worked around: the plan that is late begins when they are out', () => {
    const { after } = over()
    const starts = startsOf(after, 'dinner')
    expect(Math.min(...starts)).toBe(at('2026-06-05T22:30'))
    expect(turnIn(after, 'dinner').judgement.readyAt).toBe(planIn(after, 'dinner').readyAt)
  })

  test('may stay longer still: the late plan moves with them', () => {
    const twice = carriedOut(over().after, clearLater('games', '2026-06-05T22:45'))
    expect(bookingIn(twice, 'games')).toMatchObject({
      clearAt: at('2026-06-05T22:10'),
      overrunsUntilAt: at('2026-06-05T22:45'),
      version: 3,
    })
    expect(Math.min(...startsOf(twice, 'dinner'))).toBe(at('2026-06-05T22:45'))
  })

  test('are told of again when doors are past and they are still in', () => {
    const late = carriedOut(
      asOf(gamesThenDinner(), '2026-06-05T22:15'),
      clearLater('games', '2026-06-05T22:40'),
    )
    expect(turnIn(late, 'dinner').status).toBe('failing')
    expect(Math.min(...startsOf(late, 'dinner'))).toBe(at('2026-06-05T22:40'))
    const later = carriedOut(asOf(late, '2026-06-05T22:45'), clearLater('games', '2026-06-05T22:50'))
    expect(Math.min(...startsOf(later, 'dinner'))).toBe(at('2026-06-05T22:50'))
  })

  test('do not hold up a booking in another part of the house', () => {
    const side = {
      name: 'side',
      layout: 'side-meeting',
      doors: '2026-06-05T22:00',
      clear: '2026-06-05T23:00',
    }
    const snapshot = carriedOut(gamesThenDinner(), book(side))
    const after = carriedOut(snapshot, clearLater('games', '2026-06-05T22:30'))
    expect(turnIn(after, 'side')).toEqual(turnIn(snapshot, 'side'))
  })

  test('hold up a booking in one half of their room as well', () => {
    const half = {
      name: 'half',
      layout: 'south-meeting',
      doors: '2026-06-05T22:00',
      clear: '2026-06-05T23:00',
    }
    const snapshot = carriedOut(aHall({ hands: 6 }), book(games), book(half))
    const after = carriedOut(snapshot, clearLater('games', '2026-06-05T22:20'))
    expect(bookingIn(after, 'games')).toMatchObject({
      clearAt: at('2026-06-05T22:00'),
      overrunsUntilAt: at('2026-06-05T22:20'),
    })
    expect(turnIn(after, 'half').status).toBe('failing')
    expect(Math.min(...startsOf(after, 'half'))).toBeGreaterThanOrEqual(at('2026-06-05T22:20'))
  })

  test('hold no hands for the next booking any more when that is cancelled for it', () => {
    const { after } = over()
    const cancelled = carriedOut(after, {
      kind: 'cancel',
      bookingId: BookingId.parse('booking_dinner'),
      versionExpected: null,
    })
    expect(turnIn(cancelled, 'dinner')).toMatchObject({ status: 'dropped', plan: null })
  })
})

describe('that the guests stay longer', () => {
  test('is taken also when the room is closed then, and the next turn is still told of it', () => {
    const closure = Closure.parse({
      id: 'closure_floor',
      siteId: 'site_test',
      sectionIds: ['section_north'],
      fromAt: at('2026-06-05T21:00'),
      toAt: at('2026-06-05T21:05'),
      reason: 'a lamp is changed',
    })
    const snapshot = carriedOut(gamesThenDinner(), close(closure))
    const { decision, after } = decided(snapshot, clearLater('games', '2026-06-05T21:40'))
    expect(decision.reasons.map(({ code }) => code)).toEqual(['room-closed', 'turn-after-too-long'])
    expect(turnIn(after, 'dinner')).toMatchObject({ status: 'failing', releaseAt: at('2026-06-05T21:40') })
    expect(turnIn(after, 'games').judgement.reasons.map(({ code }) => code)).toEqual(['room-closed'])
  })

  test('may be said while they are in, and after', () => {
    for (const now of ['2026-06-05T20:50', '2026-06-05T21:20']) {
      const after = carriedOut(asOf(gamesThenDinner(), now), clearLater('games', '2026-06-05T21:04'))
      const from = Math.max(at(now), at('2026-06-05T21:04'))
      for (const startsAt of startsOf(after, 'dinner')) expect(startsAt).toBeGreaterThanOrEqual(from)
    }
  })

  test('is said with a moment after the one planned', () => {
    const problems = (clear: string, version: number | null = null) =>
      operationProblems(gamesThenDinner(), [clearLater('games', clear, version)])
    expect(problems('2026-06-05T21:00')).toEqual([
      {
        code: 'wrong-order',
        at: '/clearAt',
        message: 'clear is planned for Fri 5 Jun 21:00; give a later one',
      },
    ])
    expect(problems('2026-07-06T18:01').map(({ code }) => code)).toEqual(['too-long'])
    expect(problems('2026-06-05T21:04', 2).map(({ code }) => code)).toEqual(['version-mismatch'])
  })

  test('keeps what the next turn is judged by when it is said for a booking at risk', () => {
    const risk = {
      actorId: 'actor_coordinator' as never,
      why: 'they bring their own chairs',
      acceptedAt: at('2026-06-01T09:00'),
    }
    const crowd = {
      ...games,
      name: 'crowd',
      layout: 'side-meeting',
      headcount: 40,
      terms: { riskAccepted: risk },
    }
    const snapshot = carriedOut(aHall(), book(crowd))
    const after = carriedOut(snapshot, clearLater('crowd', '2026-06-05T21:04'))
    expect(bookingIn(after, 'crowd').riskAccepted).toMatchObject(risk)
  })

  test('never comes without changes', () => {
    for (const clear of ['2026-06-05T21:04', '2026-06-05T21:40', '2026-06-05T22:30', '2026-06-06T03:00'])
      expect(decide(gamesThenDinner(), [clearLater('games', clear)]).changes).not.toBeNull()
  })
})

describe('guests who stay beyond the doors of the one after the next', () => {
  const side = (name: string, doors: string, clear: string) =>
    book({ name, layout: 'side-meeting', doors: `2026-06-05T${doors}`, clear: `2026-06-05T${clear}` })
  const chain = () =>
    carriedOut(
      aHall({ hands: 4 }),
      side('first', '09:00', '10:00'),
      side('second', '11:00', '12:00'),
      side('third', '13:00', '15:00'),
    )

  test('keep that one waiting too: nobody works among them, and somebody is warned', () => {
    const after = carriedOut(chain(), clearLater('first', '2026-06-05T13:15'))
    expect(turnIn(after, 'second').status).toBe('failing')
    const { status, judgement } = turnIn(after, 'third')
    expect({ status, isWarned: judgement.warnedSince !== null }).toEqual({
      status: 'failing',
      isWarned: true,
    })
  })

  test('though they are said to stay bit by bit', () => {
    const step = carriedOut(chain(), clearLater('first', '2026-06-05T12:30'))
    const after = carriedOut(step, clearLater('first', '2026-06-05T13:15'))
    expect(turnIn(after, 'third').status).toBe('failing')
  })
})

describe('hands that others hold when guests stay longer', () => {
  test('are said to be at work for whoever it is, though their doors are after the last guest is out', () => {
    const closed = Closure.parse({
      id: 'closure_side',
      siteId: 'site_test',
      sectionIds: ['section_side'],
      fromAt: at('2026-06-05T06:00'),
      toAt: at('2026-06-05T11:45'),
      reason: 'works',
    })
    const shifts = [aShift('day', 2, '2026-06-05T09:00', '2026-06-05T16:00')]
    const hall = aHall({ shifts, slackWantedSeconds: 0, closures: [closed] })
    const wanted = (name: string, layout: string, doors: string, clear: string) =>
      book({ name, layout, doors: `2026-06-05T${doors}`, clear: `2026-06-05T${clear}` })
    const snapshot = [
      wanted('first', 'south-meeting', '09:45', '10:30'),
      wanted('talk', 'side-meeting', '12:10', '13:00'),
      wanted('next', 'south-meeting', '12:10', '13:00'),
    ].reduce((known, operation) => carriedOut(known, operation), hall)
    const { reasons } = decide(snapshot, [
      {
        kind: 'clear-later',
        bookingId: BookingId.parse('booking_first'),
        clearAt: at('2026-06-05T11:45'),
        versionExpected: null,
      },
    ])
    expect(reasons[0]).toMatchObject({ turnId: 'turn_next', side: 'after', heldFor: ['booking_talk'] })
    expect(reasons[0]?.message).toContain('at work for “talk”')
  })
})
