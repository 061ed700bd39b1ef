/** Where the rest of the crew does not suffice, neighbouring turns are planned anew with the request: all ready, or none moved. */
import { describe, expect, test } from 'vitest'
import type { Booking } from '../../../src/domain/booking.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import {
  aCrew,
  asked,
  aUse,
  type CrewWishes,
  changed,
  decided,
  dutiesIn,
  duty,
  handsAt,
  locked,
  on5th,
  planOf,
  reasonIn,
  turnOf,
  withBookings,
  withSmallRooms,
} from './a-crew.ts'
import { addShift } from './a-hall.ts'

/** Two hands from nine on. A small room takes them 17 min, the side room 22, the walk between 2. */
const aHallWith = (wishes: CrewWishes = {}, rooms = 2): SiteSnapshot =>
  withSmallRooms(aCrew({ shifts: [duty('day', 2, '09:00', '14:00')], ...wishes }), rooms)
const small = (room: string, doors: string, beside: object = {}): Booking =>
  aUse(room, `${room}-chairs`, doors, '13:00', beside)
const meeting = (doors: string, beside: object = {}) =>
  aUse('meeting', 'side-meeting', doors, '13:00', beside)

describe('a request for which the hands are held by another turn', () => {
  test('is accepted when that turn can be done later: both are ready, and it is named', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00'))
    expect(planOf(before, 'r1').startsAt).toBe(on5th('09:00'))
    const { decision, snapshot } = decided(before, asked(meeting('09:30')))
    expect(decision.verdict).toBe('fits')
    expect(decision.reasons).toEqual([])
    expect(decision.affected).toEqual([
      { turnId: 'turn_r1', bookingId: 'booking_r1', verdict: 'fits', message: null },
    ])
    expect(planOf(snapshot, 'meeting').readyAt).toBe(on5th('09:22'))
    expect(planOf(snapshot, 'r1').startsAt).toBe(on5th('09:24'))
    expect(turnOf(snapshot, 'r1').status).toBe('ready')
  })

  test('is refused when that turn cannot, and nothing is moved', () => {
    const before = withBookings(aHallWith(), small('r1', '09:30'))
    const { decision, snapshot } = decided(before, asked(meeting('09:30')))
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code }) => code)).toEqual(['hands-short'])
    expect(decision.affected).toEqual([])
    expect(turnOf(snapshot, 'r1')).toEqual(turnOf(before, 'r1'))
  })

  test('moves nobody where the hands that are left suffice', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00'))
    const { decision, snapshot } = decided(before, asked(meeting('11:00')))
    expect(decision.verdict).toBe('fits')
    expect(decision.affected).toEqual([])
    expect(turnOf(snapshot, 'r1')).toEqual(turnOf(before, 'r1'))
  })

  test('moves as many as it must', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00'), small('r2', '12:10'))
    const supper = aUse('supper', 'side-supper', '10:05', '13:00')
    const { decision, snapshot } = decided(before, asked(supper))
    expect(decision.verdict).toBe('fits')
    expect(decision.affected.map(({ turnId }) => turnId)).toEqual(['turn_r1', 'turn_r2'])
    expect(planOf(snapshot, 'supper').readyAt).toBe(on5th('09:56:30'))
  })

  test('leaves those alone that need not move, as people have read them', () => {
    // The second small room is turned by others, in the afternoon.
    const shifts = [duty('day', 2, '09:00', '11:00'), duty('late', 2, '12:00', '14:00')]
    const hall = aHallWith({ shifts, closures: [locked('r2', '12:00')] })
    const before = withBookings(hall, small('r1', '12:00'), aUse('r2', 'r2-chairs', '13:00', '14:00'))
    const { decision, snapshot } = decided(before, asked(meeting('09:30')))
    expect(decision.verdict).toBe('fits')
    expect(decision.affected.map(({ turnId }) => turnId)).toEqual(['turn_r1'])
    expect(turnOf(snapshot, 'r2')).toEqual(turnOf(before, 'r2'))
  })

  test('has what was promised to the others kept: a milestone of theirs is no less firm than doors', () => {
    const milestones = [{ milestone: 'seats-up', byAt: on5th('09:12') }]
    const before = withBookings(aHallWith(), small('r1', '12:00', { milestones }))
    expect(decided(before, asked(meeting('09:30'))).decision.changes).toBeNull()
  })

  test('has the same answer each time it is asked', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00'), small('r2', '12:10'))
    const ask = () => JSON.stringify(decide(before, [asked(meeting('09:30'))], { withoutAlternatives: true }))
    expect(ask()).toBe(ask())
  })

  test('is answered the same whatever order the turns are stored in', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00'), small('r2', '12:10'))
    const there = decide(before, [asked(meeting('09:30'))], { withoutAlternatives: true })
    const back = { ...before, turns: before.turns.toReversed(), bookings: before.bookings.toReversed() }
    expect(decide(back, [asked(meeting('09:30'))], { withoutAlternatives: true })).toEqual(there)
  })
})

describe('the policy says how many may be moved', () => {
  const supper = aUse('supper', 'side-supper', '10:05', '13:00')
  const both = (replanTurnsMost: number) =>
    withBookings(aHallWith({ policy: { replanTurnsMost } }), small('r1', '12:00'), small('r2', '12:10'))

  test('none: the request is refused', () => {
    expect(decided(both(0), asked(supper)).decision.changes).toBeNull()
  })

  test('one: where two would have to move the request is refused', () => {
    expect(decided(both(1), asked(supper)).decision.changes).toBeNull()
  })

  test('two: both are moved', () => {
    expect(decided(both(2), asked(supper)).decision.verdict).toBe('fits')
  })

  test('one: the nearest is moved, and one that has to be moved and is farther is not', () => {
    const shifts = [duty('day', 2, '09:00', '14:00')]
    const hall = aHallWith({ shifts, policy: { replanTurnsMost: 1 } })
    const before = withBookings(hall, small('r1', '09:50'), small('r2', '12:00'))
    const { decision } = decided(before, asked(meeting('09:45')))
    // The nearest doors are those of the first; the second would have to go for it.
    expect(decision.changes).toBeNull()
    expect(
      decided({ ...before, policy: { ...before.policy, replanTurnsMost: 2 } }, asked(meeting('09:45')))
        .decision.verdict,
    ).not.toBe('does-not-fit')
  })
})

describe('never moved', () => {
  test('is a turn that has begun', () => {
    const before = { ...withBookings(aHallWith(), small('r1', '12:00')), now: on5th('09:01') }
    const { decision, snapshot } = decided(before, asked(meeting('09:32')))
    expect(decision.changes).toBeNull()
    expect(turnOf(snapshot, 'r1')).toEqual(turnOf(before, 'r1'))
    const minuteBefore = { ...before, now: on5th('08:59') }
    expect(decided(minuteBefore, asked(meeting('09:32'))).decision.verdict).toBe('fits')
  })

  test('is the turn of a booking at risk: its hands stay its own', () => {
    const riskAccepted = { actorId: 'actor_kim', why: 'They will stand.', acceptedAt: on5th('08:00') }
    const before = withBookings(aHallWith(), small('r1', '12:00', { headcount: 40, riskAccepted }))
    expect(turnOf(before, 'r1').status).toBe('failing')
    const { decision, snapshot } = decided(before, asked(meeting('09:30')))
    expect(decision.changes).toBeNull()
    expect(turnOf(snapshot, 'r1')).toEqual(turnOf(before, 'r1'))
  })

  test('is anybody for a booking at risk: it takes nothing from a firm one', () => {
    const riskAccepted = { actorId: 'actor_kim', why: 'They will help.', acceptedAt: on5th('08:00') }
    const before = withBookings(aHallWith(), small('r1', '12:00'))
    const { snapshot } = decided(before, asked(meeting('09:30', { riskAccepted })))
    expect(turnOf(snapshot, 'meeting').status).toBe('failing')
    expect(turnOf(snapshot, 'r1')).toEqual(turnOf(before, 'r1'))
  })
})

describe('what is said of those who are moved', () => {
  test('their verdict as it is now: one that has less to spare than is wanted makes the answer tight', () => {
    const before = withBookings(aHallWith(), small('r1', '09:44'))
    expect(turnOf(before, 'r1').judgement.verdict).toBe('fits')
    const { decision } = decided(before, asked(meeting('09:30')))
    expect(decision.verdict).toBe('tight')
    expect(decision.affected).toEqual([
      {
        turnId: 'turn_r1',
        bookingId: 'booking_r1',
        verdict: 'tight',
        message: 'The turn before it leaves 3 min to spare; the policy wants 5 min.',
      },
    ])
    expect(reasonIn(decision, 'slack-under-policy').turnId).toBe('turn_r1')
  })

  test('what is to be checked about their booking stays to be checked', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00', { headcount: 30 }))
    expect(turnOf(before, 'r1').judgement.reasons.map(({ code }) => code)).toEqual(['occupancy-to-check'])
    const { decision, snapshot } = decided(before, asked(meeting('09:30')))
    expect(turnOf(snapshot, 'r1').judgement).toMatchObject({
      verdict: 'tight',
      reasons: [{ code: 'occupancy-to-check' }],
    })
    // It is no news to who asks for another room.
    expect(decision.verdict).toBe('fits')
  })
})

describe('hands that are held at an event', () => {
  const people = [
    { id: 'person_ana', adult: true, skills: ['first-aid'] },
    { id: 'person_ben', adult: true, skills: [] },
  ]
  const shiftOf = (name: string) => ({
    id: `shift_${name}`,
    name,
    crew: { kind: 'person', personId: `person_${name}` },
    times: { kind: 'once', startsAt: on5th('12:00'), endsAt: on5th('14:00') },
  })
  const one = (what: string, skill: string | null) => ({
    crewDemands: [{ what, hands: 1, skill, fromAt: on5th('12:00'), toAt: on5th('13:00') }],
  })

  test('change places: who alone has a skill goes where it is asked for, another one ushers', () => {
    const hall = aHallWith({ people, shifts: [duty('day', 2, '09:00', '11:00'), shiftOf('ana')] })
    const ushered = withBookings(hall, small('r1', '12:00', one('usher', null)))
    expect(handsAt(dutiesIn(planOf(ushered, 'r1')))).toEqual(['person_ana'])
    const joined = decided(
      ushered,
      addShift(Shift.parse({ ...shiftOf('ben'), siteId: 'site_test' })),
    ).snapshot
    const { decision, snapshot } = decided(joined, asked(meeting('12:00', one('medic', 'first-aid'))))
    expect(decision.verdict).toBe('fits')
    expect(decision.affected.map(({ turnId }) => turnId)).toEqual(['turn_r1'])
    expect(handsAt(dutiesIn(planOf(snapshot, 'meeting')))).toEqual(['person_ana'])
    expect(handsAt(dutiesIn(planOf(snapshot, 'r1')))).toEqual(['person_ben'])
  })
})

describe('a booking that is changed', () => {
  test('moves others just as a new one does', () => {
    const before = withBookings(aHallWith(), small('r1', '12:00'), meeting('12:30'))
    const { decision, snapshot } = decided(before, changed(meeting('09:30')))
    expect(decision.verdict).toBe('fits')
    expect(planOf(snapshot, 'meeting').readyAt).toBe(on5th('09:22'))
    expect(planOf(snapshot, 'r1').startsAt).toBe(on5th('09:24'))
  })
})
