/** Opening hours and weekly shifts on the days the clock changes (IANA time zone data, release 2025b). */
import { describe, expect, test } from 'vitest'
import { Person } from '../../../src/domain/person.ts'
import { Room } from '../../../src/domain/room.ts'
import { Shift } from '../../../src/domain/shift.ts'
import { Site } from '../../../src/domain/site.ts'
import { lanesOnDuty } from '../../../src/scheduler/timeline/lanes-on-duty.ts'
import { openingStretches } from '../../../src/scheduler/timeline/opening-stretches.ts'
import { handsMost, staffedSeconds } from '../../../src/scheduler/timeline/staffed-time.ts'
import { instantFromLocal, isoInZone } from '../../../src/scheduler/timeline/wall-time.ts'

const siteId = 'site_test'
const sunday = [7]
const at = (zone: string, local: string) => instantFromLocal(zone, local).instant
const dayOf = (zone: string, date: string) => ({
  fromAt: at(zone, `${date}T00:00`),
  toAt: at(zone, `${date}T23:59`),
})

const aRoom = (opensLocal: string, closesLocal: string) =>
  Room.parse({
    id: 'room_one',
    siteId,
    name: 'Room',
    sectionIds: ['section_one'],
    occupantLimitPosted: null,
    homeLayoutId: null,
    openingHours: [{ weekdays: sunday, opensLocal, closesLocal }],
  })
const aNightShift = (startsLocal: string, endsLocal: string, weekdays: number[]) =>
  Shift.parse({
    id: 'shift_night',
    siteId,
    name: 'Night',
    crew: { kind: 'hands', hands: 2, skills: [], adults: true },
    times: { kind: 'weekly', weekdays, startsLocal, endsLocal, firstDate: '2026-01-01', lastDate: null },
  })

// zone, the Sunday, how long 01:00 to 08:00 really is in hours
const changes = [
  ['America/Chicago', '2026-03-08', 6],
  ['America/Chicago', '2026-11-01', 8],
  ['Europe/London', '2026-03-29', 6],
  // 01:00 comes twice; the first one counts.
  ['Europe/London', '2026-10-25', 8],
  ['Australia/Lord_Howe', '2026-04-05', 7.5],
  ['Australia/Lord_Howe', '2026-10-04', 6.5],
] as const

describe('on the Sunday the clock changes', () => {
  test.each(changes)(
    'a room in %s that opens from 01:00 to 08:00 is, on %s, open for %d hours',
    (zone, date, hours) => {
      const [stretch, ...others] = openingStretches(aRoom('01:00', '08:00'), zone, dayOf(zone, date)) ?? []
      expect(others).toEqual([])
      expect((stretch!.toAt - stretch!.fromAt) / 3_600_000).toBe(hours)
      expect(isoInZone(stretch!.toAt, zone)).toContain(`${date}T08:00:00`)
    },
  )

  test.each(changes)(
    'two hands on a weekly shift from 01:00 to 08:00 in %s give, on %s, %d hours each',
    (zone, date, hours) => {
      const setup = {
        site: Site.parse({ id: siteId, name: 'Site', zone }),
        people: [],
        shifts: [aNightShift('01:00', '08:00', sunday)],
      }
      const window = dayOf(zone, date)
      const lanes = lanesOnDuty(setup, window)
      expect(lanes.map((lane) => lane.laneId)).toEqual(['shift_night#1', 'shift_night#2'])
      expect(staffedSeconds(lanes, window)).toBe(hours * 3600)
      expect(handsMost(lanes, window)).toBe(2)
    },
  )

  test('a shift that starts at a time the clock jumps over starts when it has jumped', () => {
    const zone = 'Europe/London'
    const setup = {
      site: Site.parse({ id: siteId, name: 'Site', zone }),
      people: [],
      shifts: [aNightShift('01:30', '03:00', sunday)],
    }
    const [lane] = lanesOnDuty(setup, dayOf(zone, '2026-03-29'))
    expect(isoInZone(lane!.onDuty[0]!.fromAt, zone)).toBe('2026-03-29T02:30:00+01:00')
  })
})

describe('people on duty', () => {
  test('are one lane each, however many shifts they have, and shifts that meet are one stretch', () => {
    const zone = 'Europe/London'
    const person = { id: 'person_una', siteId, adult: true, skills: ['sound'] }
    const shift = (id: string, starts: string, ends: string) =>
      Shift.parse({
        id,
        siteId,
        name: id,
        crew: { kind: 'person', personId: person.id },
        times: { kind: 'once', startsAt: at(zone, starts), endsAt: at(zone, ends) },
      })
    const setup = {
      site: Site.parse({ id: siteId, name: 'Site', zone }),
      people: [Person.parse(person)],
      shifts: [
        shift('shift_b', '2026-06-05T12:00', '2026-06-05T15:00'),
        shift('shift_a', '2026-06-05T09:00', '2026-06-05T12:00'),
        shift('shift_c', '2026-06-05T17:00', '2026-06-05T18:00'),
      ],
    }
    const window = dayOf(zone, '2026-06-05')
    const lanes = lanesOnDuty(setup, window)
    expect(lanes.map((lane) => [lane.laneId, lane.onDuty.length])).toEqual([['person_una', 2]])
    expect(staffedSeconds(lanes, window)).toBe(7 * 3600)
  })
})

describe('a skill that holds from one day to another', () => {
  const person = Person.parse({
    id: 'person_ro',
    siteId,
    adult: true,
    skills: ['sound', 'first-aid'],
    skillDates: [
      { skill: 'sound', firstDate: '2026-01-01', lastDate: '2026-06-12' },
      { skill: 'sound', firstDate: '2026-09-01' },
    ],
  })
  const shift = Shift.parse({
    id: 'shift_ro',
    siteId,
    name: 'Ro',
    crew: { kind: 'person', personId: 'person_ro' },
    times: {
      kind: 'weekly',
      weekdays: [1, 2, 3, 4, 5, 6, 7],
      startsLocal: '08:00',
      endsLocal: '20:00',
      firstDate: '2026-01-01',
      lastDate: null,
    },
  })
  const site = Site.parse({ id: siteId, name: 'Site', zone: 'Europe/London' })

  test.each([
    ['2026-06-12', ['sound', 'first-aid']],
    ['2026-06-13', ['first-aid']],
    ['2026-08-31', ['first-aid']],
    ['2026-09-01', ['sound', 'first-aid']],
  ])('counts on %s as %j', (date, skills) => {
    const lanes = lanesOnDuty({ site, shifts: [shift], people: [person] }, dayOf('Europe/London', date))
    expect(lanes.map((lane) => lane.skills)).toEqual([skills])
  })
})
