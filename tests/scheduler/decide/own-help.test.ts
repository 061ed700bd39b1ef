/** A group that helps after its own event: with chairs and tables, right after clear, led by the crew. */
import { describe, expect, test } from 'vitest'
import { Booking } from '../../../src/domain/booking.ts'
import { Furnishing } from '../../../src/domain/furnishing.ts'
import type { LaneId } from '../../../src/domain/ids.ts'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { lanesFor } from '../../../src/scheduler/decide/plan/lanes-for.ts'
import { turnInputOf } from '../../../src/scheduler/timeline/turn-input.ts'
import { worldOf } from '../../../src/scheduler/timeline/world.ts'
import {
  aCrew,
  asked,
  aUse,
  changed,
  decided,
  duty,
  handsAt,
  on5th,
  planOf,
  turnOf,
  withBookings,
} from './a-crew.ts'

/** So many of the crew from a quarter of an hour before clear on. */
const aHallWith = (crew: number) =>
  aCrew({ shifts: [duty('early', 4, '08:00', '10:00'), duty('noon', crew, '13:45', '20:00')] })
const help = (hands: number, minutes: number) => ({ ownHelp: { hands, seconds: minutes * 60 } })
/** A hundred and fifty chairs, clear at two. */
const worship = (beside: object = {}) => aUse('worship', 'long-worship', '11:00', '14:00', beside)
const games = (doors: string) => aUse('games', 'long-games', doors, '19:30')

const isHelper = (laneId: LaneId) => laneId.startsWith('booking_worship#')
const helped = ({ tasks }: { tasks: readonly PlannedTask[] }) =>
  tasks.filter(({ laneIds }) => laneIds.some(isHelper))
const helpersIn = (snapshot: SiteSnapshot, name: string) =>
  handsAt(planOf(snapshot, name).tasks).filter(isHelper)

describe('a group that helps after its event', () => {
  test('has the next turn ready that would not be ready without it', () => {
    const without = withBookings(aHallWith(2), worship())
    const { decision } = decided(without, asked(games('14:55')))
    expect(decision.reasons.map(({ code }) => code)).toEqual(['hands-short'])
    const withHelp = withBookings(aHallWith(2), worship(help(10, 20)), games('14:55'))
    expect(turnOf(withHelp, 'games').judgement.verdict).toBe('fits')
    expect(helpersIn(withHelp, 'games')).toHaveLength(10)
  })

  test('lifts chairs and tables out of the way, and does nothing else', () => {
    const plan = planOf(withBookings(aHallWith(2), worship(help(10, 20)), games('16:00')), 'games')
    expect(helped(plan)).not.toEqual([])
    for (const { kind, furnishingId, adultsOnly, skill } of helped(plan)) {
      expect(['strike', 'restack', 'park']).toContain(kind)
      expect(['furnishing_chair', 'furnishing_round-table']).toContain(furnishingId)
      expect([adultsOnly, skill]).toEqual([false, null])
    }
  })

  test('leaves other things alone, however light', () => {
    const hall = aHallWith(2)
    const easel = Furnishing.parse({
      ...hall.furnishings.find(({ id }) => id === 'furnishing_chair'),
      id: 'furnishing_easel',
      name: 'easel',
      namePlural: 'easels',
      kind: 'other',
      countOwned: 20,
      massKilograms: 3,
      method: 'carry',
      trolley: null,
      setPersonSeconds: 20,
      strikePersonSeconds: 20,
    })
    const withEasels = {
      ...hall,
      furnishings: [...hall.furnishings, easel],
      layouts: hall.layouts.map((layout) =>
        layout.id === 'layout_long-worship'
          ? { ...layout, furnishings: [...layout.furnishings, { furnishingId: easel.id, count: 20 }] }
          : layout,
      ),
    }
    const { tasks } = planOf(withBookings(withEasels, worship(help(10, 20)), games('18:00')), 'games')
    const easels = tasks.filter(({ furnishingId }) => furnishingId === easel.id)
    expect(easels.length).toBeGreaterThan(0)
    expect(easels.some(({ adultsOnly }) => adultsOnly)).toBe(false)
    expect(handsAt(easels).filter(isHelper)).toEqual([])
  })

  test('leaves what takes grown people to the crew, heavy tables too: nobody has said how old it is', () => {
    const supper = aUse('worship', 'side-supper', '11:00', '14:00', help(10, 20))
    const hall = withBookings(aHallWith(2), supper)
    const plan = planOf(withBookings(hall, aUse('meeting', 'side-meeting', '17:00', '18:00')), 'meeting')
    const tables = plan.tasks.filter(
      ({ kind, furnishingId }) => kind === 'strike' && furnishingId === 'furnishing_round-table',
    )
    expect(tables.length).toBeGreaterThan(0)
    expect(handsAt(tables).filter(isHelper)).toEqual([])
    expect(helped(plan)).not.toEqual([])
  })

  test('begins when the room is clear, and goes when it has said it goes', () => {
    const plan = planOf(withBookings(aHallWith(2), worship(help(10, 12)), games('16:00')), 'games')
    expect(helped(plan)).not.toEqual([])
    for (const { startsAt, endsAt } of helped(plan)) {
      expect(startsAt).toBeGreaterThanOrEqual(on5th('14:00'))
      expect(endsAt).toBeLessThanOrEqual(on5th('14:12'))
    }
  })

  test('begins later where its event runs late', () => {
    const snapshot = withBookings(aHallWith(2), worship(help(10, 20)), games('16:00'))
    const later = decided(
      { ...snapshot, now: on5th('13:50') },
      {
        kind: 'clear-later',
        bookingId: worship().id,
        clearAt: on5th('14:30'),
        versionExpected: null,
      },
    )
    const plan = planOf(later.snapshot, 'games')
    expect(helped(plan)).not.toEqual([])
    expect(Math.min(...helped(plan).map(({ startsAt }) => startsAt))).toBeGreaterThanOrEqual(on5th('14:30'))
    expect(Math.max(...helped(plan).map(({ endsAt }) => endsAt))).toBeLessThanOrEqual(on5th('14:50'))
  })

  test('counts six at most for each of the crew who is there to lead them', () => {
    const meeting = aUse('meeting', 'south-meeting', '18:00', '19:00')
    const led = (crew: number) => withBookings(aHallWith(crew), worship(help(10, 20)), meeting)
    const counted = (crew: number) => {
      const world = worldOf(led(crew))
      const input = turnInputOf(world, world.bookings.find(({ id }) => id === 'booking_meeting')!)
      const span = { fromAt: input.releaseAt, toAt: input.dueAt }
      return lanesFor(world, [input], span, 0).filter((lane) => !lane.crew).length
    }
    expect([1, 2, 3].map(counted)).toEqual([6, 10, 10])
    expect(turnOf(led(1), 'meeting').judgement.hands.onDuty).toBe(1)
    expect(helpersIn(led(1), 'meeting').length).toBeLessThanOrEqual(6)
  })

  test('counts for nothing where nobody of the crew is there when it begins', () => {
    const shifts = [duty('early', 4, '08:00', '10:00'), duty('later', 2, '14:05', '20:00')]
    const snapshot = withBookings(aCrew({ shifts }), worship(help(10, 20)), games('18:00'))
    expect(helpersIn(snapshot, 'games')).toEqual([])
  })

  test('helps with the turn that follows its own event, and in no other room', () => {
    const hall = withBookings(aHallWith(2), worship(help(10, 20)), games('16:00'))
    const elsewhere = withBookings(hall, aUse('side', 'side-meeting', '17:00', '18:00'))
    expect(helpersIn(elsewhere, 'side')).toEqual([])
  })

  test('that stays away is missed: the turn that counted on it fails, and says what it lacks', () => {
    const before = withBookings(aHallWith(2), worship(help(10, 20)), games('14:55'))
    const { decision } = decided(before, changed({ ...worship(), ownHelp: null }))
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code }) => code)).toEqual(['hands-short'])
    expect(decision.after).toMatchObject({ turnId: 'turn_games', verdict: 'does-not-fit' })
  })

  test('is ten at most, for five to twenty minutes', () => {
    const parsed = (hands: number, minutes: number) =>
      Booking.safeParse({ ...worship(), ...help(hands, minutes) }).success
    expect([parsed(10, 20), parsed(1, 5)]).toEqual([true, true])
    expect([parsed(11, 20), parsed(0, 20), parsed(10, 21), parsed(10, 4)]).toEqual([
      false,
      false,
      false,
      false,
    ])
  })
})
