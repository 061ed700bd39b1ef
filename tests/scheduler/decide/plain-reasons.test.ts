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
      /^The turn before it, to long banquet, needs about \d+ min .* there are 25 min: \d+ min short\./,
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

describe('one change that hits several bookings', () => {
  test('says of each which one it is, and what has become of it', () => {
    const hall = withBooked({ hands: 6 }, games, dinner)
    const decision = decide(hall, [close(aClosure('2026-06-05T17:00', '2026-06-06T12:00'))])
    const closed = 'Long Room is closed from Fri 5 Jun 17:00 to Sat 6 Jun 12:00: works.'
    expect(
      decision.reasons.map((reason) => [reason.message, 'bookingId' in reason && reason.bookingId]),
    ).toEqual([
      [`“games”, doors Fri 5 Jun 18:00: ${closed}`, 'booking_games'],
      [`“dinner”, doors Fri 5 Jun 21:40: ${closed}`, 'booking_dinner'],
    ])
    const told = [...decision.affected].sort((one, other) => (one.bookingId < other.bookingId ? 1 : -1))
    expect(told.map(({ bookingId, message }) => [bookingId, message])).toEqual([
      ['booking_games', closed],
      ['booking_dinner', closed],
    ])
  })

  test('says of the one that is asked for what there is to say, without naming it', () => {
    const hall = { ...withBooked({ hands: 6 }), closures: [aClosure('2026-06-05T17:00', '2026-06-06T12:00')] }
    expect(decide(hall, [games]).reasons.map(({ message }) => message)).toEqual([
      'Long Room is closed from Fri 5 Jun 17:00 to Sat 6 Jun 12:00: works.',
    ])
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

  test('about crew at the event says how many are free, how many more are needed, and for whom the others work', () => {
    const reason = {
      code: 'crew-demand-short',
      bookingId: 'booking_gala',
      what: 'ushers',
      ...evening,
      handsNeeded: 4,
      skill: null,
      handsOnDuty: 5,
      handsFree: 2,
      heldFor: ['booking_supper', 'booking_gala'],
    }
    const supper = aBooking({
      name: 'supper',
      layout: 'side-supper',
      doors: '2026-06-05T18:00',
      clear: '2026-06-05T21:00',
    })
    const asked = 'The event “gala” needs 4 hands (ushers) from Fri 5 Jun 18:00 to Fri 5 Jun 20:30: '
    expect(sentence(reason, [gala, supper])).toBe(
      `${asked}3 of the 5 hands on duty are at work for “supper” and “gala”; 2 are free, 2 more are needed.`,
    )
    expect(
      sentence({ ...reason, handsOnDuty: 1, handsFree: 0, heldFor: ['booking_supper'] }, [gala, supper]),
    ).toBe(`${asked}the one hand on duty is at work for “supper”; none is free, 4 more are needed.`)
    expect(sentence({ ...reason, handsOnDuty: 3, handsFree: 3 })).toBe(
      `${asked}the 3 hands on duty are not enough; 3 are free, 1 more is needed.`,
    )
    expect(sentence({ ...reason, handsFree: 5, paidSecondsMost: 9_000 })).toBe(
      `${asked}the policy pays for no more than 2 h 30 min in one turn.`,
    )
  })

  test('about a way that is closed says for how long, in the number of what is closed, and what is still possible', () => {
    const reason = {
      code: 'way-closed',
      ...before,
      closureId: 'closure_store',
      storagePlaceIds: ['storage_north'],
      passageIds: [],
      ...evening,
      why: 'rewiring',
      closedSeconds: 9_000,
      doorsAt: at('2026-06-05T20:30'),
      readyAt: null,
    }
    const hallWithLift = aHall({
      passages: [{ id: 'passage_lift', kind: 'lift', name: 'Goods lift', clearWidthMetres: 1.2 }],
    })
    const store = hallWithLift.storagePlaces.find(({ id }) => id === 'storage_north')!.name
    expect(sentence(reason)).toBe(
      `${store} is closed from Fri 5 Jun 18:00 to Fri 5 Jun 20:30 (rewiring), for 2 h 30 min of the time before doors: the turn before it cannot be done around that.`,
    )
    const both = Reason.parse({
      ...reason,
      passageIds: ['passage_lift'],
      readyAt: at('2026-06-05T21:10') + 1_000,
    })
    expect(reasonMessage(both, hallWithLift, [])).toBe(
      `${store} and Goods lift are closed from Fri 5 Jun 18:00 to Fri 5 Jun 20:30 (rewiring), for 2 h 30 min of the time before doors: around that, the turn before it would only be ready at Fri 5 Jun 21:11, 41 min after doors.`,
    )
  })

  test('about another turn says what is missing there, where that is known', () => {
    const reason = {
      code: 'another-turn-broken',
      turnId: 'turn_gala',
      bookingId: 'booking_gala',
      doorsAt: at('2026-06-05T18:00'),
      readyAt: at('2026-06-05T21:20'),
      proof: 'bound',
    }
    const late =
      'The turn for “gala”, doors Fri 5 Jun 18:00, would only be ready at Fri 5 Jun 21:20, 3 h 20 min after doors'
    expect(sentence(reason)).toBe(`${late}.`)
    expect(sentence({ ...reason, lacks: 'hands' })).toBe(`${late}, for want of hands.`)
    expect(sentence({ ...reason, lacks: 'paid-hours' })).toBe(`${late}, for want of paid time.`)
    expect(sentence({ ...reason, lacks: 'way' })).toBe(`${late}, because a way is closed.`)
    expect(sentence({ ...reason, lacks: 'tool', readyAt: null })).toBe(
      'The turn for “gala”, doors Fri 5 Jun 18:00, would not be possible any more, for want of tools.',
    )
    const inTime = { ...reason, readyAt: at('2026-06-05T17:50') }
    expect(sentence({ ...inTime, lacks: 'milestone' })).toBe(
      'The turn for “gala”, doors Fri 5 Jun 18:00, would not reach in time what it is to reach before doors.',
    )
    expect(sentence({ ...inTime, lacks: 'event-crew' })).toBe(
      '“gala”, doors Fri 5 Jun 18:00, would not have the crew that it needs.',
    )
    expect(sentence({ ...inTime, lacks: 'quiet' })).toBe(
      '“gala”, doors Fri 5 Jun 18:00, would not have the quiet that it needs.',
    )
  })

  describe('that there is not the time', () => {
    const doorsAt = at('2026-06-05T21:35')
    const late = {
      code: 'hands-short',
      ...before,
      toLayoutId: 'layout_long-banquet',
      neededSeconds: 129 * 60,
      availableSeconds: 95 * 60,
      shortSeconds: 34 * 60,
      readyAt: doorsAt + 34 * 60_000,
      doorsAt,
      handsOnDuty: 6,
      proof: 'none-found',
      handsNeeded: 8,
    }
    const turn = 'The turn before it, to long banquet,'

    test('says how many of the hands on duty are at work for others, and for two of them by name', () => {
      const heldFor = ['booking_gala', 'booking_supper', 'booking_quiz']
      const others = ['gala', 'supper', 'quiz'].map((name) =>
        aBooking({ name, layout: 'side-supper', doors: '2026-06-05T18:00', clear: '2026-06-05T21:00' }),
      )
      expect(sentence({ ...late, handsHeld: 3, heldFor }, others)).toBe(
        `${turn} needs about 2 h 9 min with the 6 hands on duty, up to 3 of them at work for “gala”, “supper” and 1 more; there are 95 min: 34 min short. 8 hands would do it: 2 more.`,
      )
      expect(sentence({ ...late, handsHeld: 3, heldFor }, [])).toContain(
        'up to 3 of them at work for another booking;',
      )
      const waits = { ...late, neededSeconds: 60 * 60, handsHeld: 3, heldFor: ['booking_gala'] }
      expect(sentence(waits, others)).toBe(
        `${turn} would be ready 34 min after doors: it needs about 60 min, but not all of the 6 hands on duty are free when they are needed, up to 3 of them at work for “gala”. 8 hands would do it: 2 more.`,
      )
    })

    test('counts the helpers of the group beside the hands on duty', () => {
      expect(sentence({ ...late, helpers: 4 })).toContain(
        'needs about 2 h 9 min with the 6 hands on duty and the 4 helpers of the group; there are',
      )
      expect(sentence({ ...late, helpers: 1, handsOnDuty: 1 })).toContain(
        'with the one hand on duty and the one helper of the group;',
      )
    })

    test('adds up, whatever the seconds: what is short is needed less what there is', () => {
      // 73.5 of 70.5 min are three short; as it is shown it would be four.
      const odd = {
        ...late,
        neededSeconds: 4_410,
        availableSeconds: 4_230,
        shortSeconds: 180,
        readyAt: doorsAt + 180_000,
      }
      expect(sentence(odd)).toContain(
        'needs about 74 min with the 6 hands on duty; there are 70 min: 4 min short.',
      )
    })

    test('says when the guests before are out, where that is after doors', () => {
      const guestsOutAt = at('2026-06-05T22:10')
      const over = { ...late, handsOnDuty: 0, guestsOutAt, readyAt: at('2026-06-06T00:19') + 30_000 }
      expect(sentence({ ...over, code: 'turn-before-too-long', handsTried: 12 })).toBe(
        `${turn} cannot begin before doors: guests are in until Fri 5 Jun 22:10, doors are Fri 5 Jun 21:35. It needs about 2 h 9 min and would be ready at Sat 6 Jun 00:20, 2 h 45 min after doors.`,
      )
    })

    test('says that more paid time would do it, with an unpaid hand as the other way where that holds', () => {
      const paid = {
        ...late,
        code: 'paid-hours-short',
        paidSecondsMost: 7_200,
        paidSecondsNeeded: 12_000,
        unpaidHandsNeeded: 2,
      }
      expect(sentence(paid)).toBe(
        `${turn} needs about 3 h 20 min of paid work to be ready by doors; the policy pays for 120 min in one turn. 2 more hands that are not paid would do it too.`,
      )
      expect(sentence({ ...paid, unpaidHandsNeeded: null })).toMatch(/in one turn\.$/)
    })
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
      'In the turn before it, tables would be up at Fri 5 Jun 20:41, 11 min late: they are to be up by Fri 5 Jun 20:30. No plan was found that is in time.',
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
