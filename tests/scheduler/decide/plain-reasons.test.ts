/** What a decision says is what the person who reads it needs: no ids, no reasons that are none, minutes and not hints. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import type { Decision } from '../../../src/domain/decision.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Reason } from '../../../src/domain/reason.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { answeredReason, decide } from '../../../src/scheduler/decide/index.ts'
import { reasonMessage } from '../../../src/scheduler/decide/reason-message.ts'
import { aBooking, aHall, aShift, at, book, close, type HallWishes, snapshotAfter } from './a-hall.ts'

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

describe('the sentence of a reason', () => {
  const before = { turnId: 'turn_dinner', side: 'before' }
  const evening = { fromAt: at('2026-06-05T18:00'), toAt: at('2026-06-05T20:30') }
  const banquet = { roomId: 'room_long', layoutId: 'layout_long-banquet' }
  const table = 'IBC Table 1004.5'
  const gala = aBooking({
    name: 'gala',
    layout: 'long-banquet',
    doors: '2026-06-05T18:00',
    clear: '2026-06-05T21:00',
  })
  const hall = aHall()
  const sentence = (fields: object, bookings = [gala]) => reasonMessage(Reason.parse(fields), hall, bookings)

  test('that a floor holds fewer says that the number is computed, by which table, and whom to ask', () => {
    const reason = {
      code: 'headcount-over-computed-load',
      ...banquet,
      headcount: 160,
      occupantLoadComputed: 153,
      source: table,
    }
    expect(sentence(reason)).toBe(
      '160 people are more than the 153 that Long Room holds as long banquet. No limit is posted: the number is computed from its floor by IBC Table 1004.5. Ask the fire authority how many may be in, and enter that limit.',
    )
    expect(sentence({ ...reason, code: 'occupancy-to-check' })).toBe(
      '160 people are within the posted limit of Long Room, but more than the 153 that its floor holds as long banquet by IBC Table 1004.5. Ask the fire authority whether the limit is meant for this use.',
    )
  })

  test('about exits counts those that serve, and says what to do', () => {
    const reason = {
      code: 'exits-too-few',
      roomId: 'room_long',
      headcount: 160,
      exitsOpen: 1,
      exitsNeeded: 2,
      source: 'IBC Table 1006.3.3',
    }
    expect(sentence(reason)).toBe(
      '160 people need 2 exits by IBC Table 1006.3.3; Long Room has 1 that is wide enough and open from doors to clear. Keep more of them open, or ask the fire authority how many may be in.',
    )
    expect(sentence({ ...reason, exitsOpen: 2, exitsNeeded: 3 })).toContain(
      'need 3 exits by IBC Table 1006.3.3; Long Room has 2 that are wide enough',
    )
    expect(sentence({ ...reason, headcount: 1, exitsOpen: 0, exitsNeeded: 1 })).toContain(
      '1 person needs 1 exit by IBC Table 1006.3.3; Long Room has none that is wide enough',
    )
  })

  test('about a device names it, and both of its states as people say them', () => {
    const reason = { code: 'state-unreachable', ...before, equipmentId: 'equipment_sound' }
    expect(sentence({ ...reason, from: 'off', to: 'game-input' })).toBe(
      'The Sound desk cannot be brought from off to game input, which the turn before it needs: say in the set-up how it gets there, or ask something else of it in the layout.',
    )
  })

  test('about a device that is away says until when, and which layout counts on it', () => {
    const reason = {
      code: 'equipment-unavailable',
      equipmentId: 'equipment_sound',
      layoutId: 'layout_long-banquet',
      ...evening,
    }
    expect(sentence(reason)).toBe(
      'The Sound desk, which long banquet counts on, is out of service or lent out from Fri 5 Jun 18:00 to Fri 5 Jun 20:30, and nothing stands in for it.',
    )
    expect(sentence({ ...reason, toAt: null })).toContain('from Fri 5 Jun 18:00 until further notice, and')
  })

  test('about crew at the event says for what, and with which skill; the event is named where it is known', () => {
    const reason = {
      code: 'crew-demand-short',
      bookingId: 'booking_gala',
      what: 'ushers',
      ...evening,
      handsNeeded: 2,
      skill: null,
    }
    expect(sentence(reason)).toBe(
      'The event “gala” needs 2 hands (ushers) from Fri 5 Jun 18:00 to Fri 5 Jun 20:30: not enough of the crew is free then.',
    )
    expect(sentence({ ...reason, what: 'desk', handsNeeded: 1, skill: 'sound' }, [])).toBe(
      'The event needs 1 hand (desk) from Fri 5 Jun 18:00 to Fri 5 Jun 20:30: not enough of the crew with the skill sound is free then.',
    )
  })

  test('about noise says when it must be quiet', () => {
    const reason = { code: 'noise-next-door', bookingId: 'booking_gala', ...evening }
    const rest =
      ' needs quiet from Fri 5 Jun 18:00 to Fri 5 Jun 20:30, and in a room that it hears noisy work is planned then.'
    expect(sentence(reason)).toBe(`The event “gala”${rest}`)
    expect(sentence(reason, [])).toBe(`The event${rest}`)
  })

  test('about a milestone says in words what was to be, when it would be, and how sure that is', () => {
    const reason = {
      code: 'milestone-missed',
      ...before,
      milestone: 'tables-up',
      byAt: at('2026-06-05T20:30'),
      reachedAt: at('2026-06-05T20:40') + 30_000,
      proof: 'none-found',
    }
    expect(sentence(reason)).toBe(
      'In the turn before it, tables would be up at Fri 5 Jun 20:40, 11 min late: they are to be up by Fri 5 Jun 20:30. No plan was found that is in time.',
    )
    expect(sentence({ ...reason, side: 'after', proof: 'bound' })).toMatch(
      /^In the turn after it, tables .* No plan can be in time\.$/,
    )
    const others = {
      'floor-clear': 'the floor would never be clear: it is to be clear by',
      'seats-up': 'seats would never be up: they are to be up by',
      'devices-ready': 'devices would never be ready: they are to be ready by',
      'sound-checked': 'the sound would never be checked: it is to be checked by',
    }
    for (const [milestone, words] of Object.entries(others)) {
      expect(sentence({ ...reason, milestone, reachedAt: null })).toContain(`, ${words} Fri 5 Jun 20:30.`)
    }
  })

  test('about hands that nobody has promised says how many, and from when to when', () => {
    const reason = { code: 'hands-assumed', ...before, handsAssumed: 2, ...evening }
    expect(sentence(reason)).toBe(
      'The turn before it counts on 2 hands that nobody has promised, from Fri 5 Jun 18:00 to Fri 5 Jun 20:30.',
    )
    expect(sentence({ ...reason, side: 'after', handsAssumed: 1 })).toContain(
      'The turn after it counts on 1 hand that',
    )
  })
})
