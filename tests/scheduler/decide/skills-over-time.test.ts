/** Who may do what, and when: skills from one day until another, grown people, and the way from room to room. */
import { describe, expect, test } from 'vitest'
import { Person } from '../../../src/domain/person.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import {
  aCrew,
  asked,
  aUse,
  type CrewWishes,
  decided,
  dutiesIn,
  duty,
  handsAt,
  on5th,
  planOf,
  reasonIn,
  turnOf,
  withBookings,
} from './a-crew.ts'
import { at, setUp } from './a-hall.ts'

const on6th = (time: string) => at(`2026-06-06T${time}`)
const midnight = on6th('00:00')

/** The one who can switch the sound desk on, and when that holds. */
const ana = (...dates: readonly { firstDate?: string; lastDate?: string }[]) => ({
  id: 'person_ana',
  adult: true,
  skills: ['sound'],
  skillDates: dates.map((one) => ({ skill: 'sound', ...one })),
})
const shiftOfAna = (name: string, startsAt: number, endsAt: number) => ({
  id: `shift_${name}`,
  name,
  crew: { kind: 'person', personId: 'person_ana' },
  times: { kind: 'once', startsAt, endsAt },
})
const overNight = [shiftOfAna('night', on5th('20:00'), on6th('06:00'))]
const bothDays = [
  shiftOfAna('evening', on5th('20:00'), on5th('23:30')),
  shiftOfAna('morning', on6th('08:00'), on6th('12:00')),
]
const crew = [
  {
    ...duty('crew', 4, '20:00', '23:59'),
    times: { kind: 'once', startsAt: on5th('20:00'), endsAt: on6th('14:00') },
  },
]

/** The room is left at half past eight in the evening, and is to be a banquet at noon. */
const games = aUse('games', 'long-games', '2026-06-05T19:00', '2026-06-05T20:30')
const banquet = (beside: object = {}) =>
  aUse('banquet', 'long-banquet', '2026-06-06T12:00', '2026-06-06T14:00', beside)
const gamesShift = duty('afternoon', 4, '16:00', '19:00')

const aHallWith = (person: object, shifts: readonly unknown[], wishes: CrewWishes = {}): SiteSnapshot =>
  withBookings(
    aCrew({ soundSkill: 'sound', people: [person], shifts: [gamesShift, ...crew, ...shifts], ...wishes }),
    games,
  )
const switched = (snapshot: SiteSnapshot) =>
  planOf(snapshot, 'banquet').tasks.filter(({ kind }) => kind === 'switch')

describe('a skill that ends', () => {
  test('counts on its last day, until midnight', () => {
    const snapshot = withBookings(aHallWith(ana({ lastDate: '2026-06-05' }), bothDays), banquet())
    const [desk] = switched(snapshot)
    expect(desk!.laneIds).toContain('person_ana')
    expect(desk!.endsAt).toBeLessThanOrEqual(midnight)
  })

  test('does not count after midnight, in the same night on duty', () => {
    const late = overNight.map((shift) => ({ ...shift, times: { ...shift.times, startsAt: on5th('23:57') } }))
    const { decision } = decided(aHallWith(ana({ lastDate: '2026-06-05' }), late), asked(banquet()))
    expect(decision.changes).toBeNull()
    // The desk takes five minutes.
    expect(reasonIn(decision, 'skill-missing')).toMatchObject({ skill: 'sound', proof: 'bound' })
    const holds = decided(aHallWith(ana({ lastDate: '2026-06-06' }), late), asked(banquet()))
    expect(holds.decision.verdict).toBe('fits')
  })

  test('the day before is missing', () => {
    const { decision } = decided(aHallWith(ana({ lastDate: '2026-06-04' }), bothDays), asked(banquet()))
    expect(decision.changes).toBeNull()
    expect(decision.reasons[0]).toMatchObject({ code: 'skill-missing', skill: 'sound', overridable: true })
    expect(decision.reasons[0]!.message).toBe(
      'Nobody who has the skill sound for all of Fri 5 Jun 20:30 to Sat 6 Jun 12:00 is free for long enough, for the turn before it.',
    )
  })

  test('earlier than was known has the turn that counts on it judged again, and failing', () => {
    const before = withBookings(aHallWith(ana(), [bothDays[1]]), banquet())
    const [person] = before.people
    const ends = Person.parse({ ...person, skillDates: [{ skill: 'sound', lastDate: '2026-06-05' }] })
    const { decision, snapshot } = decided(
      before,
      setUp({ kind: 'person', before: person!, after: ends, retire: false }),
    )
    expect(decision.verdict).toBe('does-not-fit')
    expect(turnOf(snapshot, 'banquet').judgement.reasons[0]).toMatchObject({ code: 'skill-missing' })
  })

  test('leaves what else somebody can do as it is: without it they are one of the crew', () => {
    const hall = aCrew({ people: [ana({ lastDate: '2026-06-05' })], shifts: [bothDays[1]] })
    const meeting = aUse('meeting', 'side-meeting', '2026-06-06T12:00', '2026-06-06T14:00')
    expect(handsAt(planOf(withBookings(hall, meeting), 'meeting').tasks)).toEqual(['person_ana'])
  })
})

describe('a skill that begins', () => {
  test('counts from its first day on, and not the evening before', () => {
    const snapshot = withBookings(aHallWith(ana({ firstDate: '2026-06-06' }), bothDays), banquet())
    const [desk] = switched(snapshot)
    expect(desk!.laneIds).toContain('person_ana')
    expect(desk!.startsAt).toBeGreaterThanOrEqual(on6th('08:00'))
  })

  test('begins at midnight, in the middle of a night on duty', () => {
    const snapshot = withBookings(aHallWith(ana({ firstDate: '2026-06-06' }), overNight), banquet())
    expect(switched(snapshot)[0]!.startsAt).toBeGreaterThanOrEqual(midnight)
    expect(switched(snapshot)[0]!.startsAt).toBeLessThan(on6th('06:00'))
  })

  test('again after a break counts in either stretch, and not between', () => {
    const twice = ana({ lastDate: '2026-05-31' }, { firstDate: '2026-06-06' })
    expect(switched(withBookings(aHallWith(twice, bothDays), banquet()))[0]!.startsAt).toBeGreaterThanOrEqual(
      on6th('08:00'),
    )
  })
})

test('a demand at the event needs the skill on its own day', () => {
  const crewDemands = [
    { what: 'desk', hands: 1, skill: 'sound', fromAt: on6th('12:00'), toAt: on6th('13:00') },
  ]
  const atTheDesk = shiftOfAna('desk', on6th('08:00'), on6th('14:00'))
  const hall = (lastDate: string) => aHallWith(ana({ lastDate }), [bothDays[0], atTheDesk])
  const holds = withBookings(hall('2026-06-06'), banquet({ crewDemands }))
  expect(dutiesIn(planOf(holds, 'banquet'))[0]!.laneIds).toEqual(['person_ana'])
  const { decision } = decided(hall('2026-06-05'), asked(banquet({ crewDemands })))
  expect(decision.reasons.map(({ code }) => code)).toEqual(['crew-demand-short'])
})

describe('minors', () => {
  const minors = (hands: number) => {
    const shift = duty('minors', hands, '09:00', '14:00')
    return { ...shift, crew: { ...shift.crew, adults: false } }
  }
  const adults = (hands: number) => duty('adults', hands, '09:00', '14:00')
  /** Posts of 36 kg, and chairs. */
  const playground = aUse('games', 'long-games', '12:00', '14:00')

  test('carry chairs, and nothing that only grown people may carry', () => {
    const plan = planOf(withBookings(aCrew({ shifts: [adults(2), minors(2)] }), playground), 'games')
    const heavy = plan.tasks.filter(({ adultsOnly }) => adultsOnly)
    expect(heavy.length).toBeGreaterThan(0)
    expect(handsAt(heavy)).toEqual(['shift_adults#1', 'shift_adults#2'])
    expect(handsAt(plan.tasks)).toContain('shift_minors#1')
  })

  test('alone cannot turn a room in which something heavy moves, and nobody may waive that', () => {
    const { decision } = decided(aCrew({ shifts: [minors(4)] }), asked(playground))
    expect(decision.changes).toBeNull()
    const missing = reasonIn(decision, 'skill-missing')
    expect(missing).toMatchObject({ skill: 'adult', overridable: false })
    expect(missing.message).toBe(
      'No adult is free for long enough between Wed 3 Jun 12:00 and Fri 5 Jun 12:00, for the turn before it.',
    )
  })

  test('set up light chairs while one grown person tells them how and signs the room off', () => {
    const meeting = aUse('meeting', 'side-meeting', '12:00', '14:00')
    const alone = decided(aCrew({ shifts: [minors(3)] }), asked(meeting))
    expect(reasonIn(alone.decision, 'skill-missing').skill).toBe('adult')
    const plan = planOf(withBookings(aCrew({ shifts: [adults(1), minors(3)] }), meeting), 'meeting')
    expect(handsAt(plan.tasks)).toEqual(
      expect.arrayContaining(['shift_adults#1', 'shift_minors#1', 'shift_minors#2']),
    )
  })

  test('do not count for a skill that no minor may have, whatever their list says', () => {
    const young = { id: 'person_kit', adult: false, skills: ['rigging'], skillDates: [] }
    const shift = {
      ...shiftOfAna('kit', on5th('08:00'), on5th('14:00')),
      crew: { kind: 'person', personId: 'person_kit' },
    }
    const hall = aCrew({ soundSkill: 'rigging', people: [young], shifts: [adults(4), shift] })
    const { decision } = decided(hall, asked(aUse('banquet', 'long-banquet', '13:00', '14:00')))
    expect(reasonIn(decision, 'skill-missing')).toMatchObject({ skill: 'rigging', overridable: false })
  })
})

describe('the way from one room to the other', () => {
  const twoRooms = (walkBetweenRoomsSeconds: number) =>
    withBookings(
      aCrew({ shifts: [duty('day', 2, '09:00', '14:00')], policy: { walkBetweenRoomsSeconds } }),
      aUse('side', 'side-meeting', '12:00', '13:00'),
      aUse('south', 'south-meeting', '12:00', '13:00'),
    )

  test('takes the time that the policy says: nobody is in two rooms within it', () => {
    for (const seconds of [0, 120, 600]) {
      const snapshot = twoRooms(seconds)
      const held = ['side', 'south'].flatMap((room) =>
        planOf(snapshot, room).tasks.flatMap(({ laneIds, startsAt, endsAt }) =>
          laneIds.map((laneId) => ({ room, laneId, startsAt, endsAt })),
        ),
      )
      const between = held.flatMap((one) =>
        held
          .filter(
            (next) => next.laneId === one.laneId && next.room !== one.room && next.startsAt >= one.endsAt,
          )
          .map((next) => (next.startsAt - one.endsAt) / 1000),
      )
      expect(Math.min(...between)).toBe(seconds)
    }
  })
})
