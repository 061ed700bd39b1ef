/** What was promised is not broken by something else, and what fails is mended as soon as it can be. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { Exit } from '../../../src/domain/exit.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, windowOf, windowWithAlternatives } from '../../../src/scheduler/decide/index.ts'
import { aCrew, withSmallRooms } from './a-crew.ts'
import { aBooking, addShift, aHall, aShift, at, book, close, setUp } from './a-hall.ts'
import { carriedOut, decided, turnIn } from './carried-out.ts'
import { seenAround, spokenOf } from './random-life/seen-around.ts'

const meeting = (name: string, layout: string, doors: string): Operation =>
  book({ name, layout, doors: `2026-06-05T${doors}`, clear: '2026-06-05T13:00' })

describe('two turns share a crew, half of which is sent home', () => {
  const shifts = [
    aShift('one', 2, '2026-06-05T09:00', '2026-06-05T12:00'),
    aShift('two', 2, '2026-06-05T09:00', '2026-06-05T12:00'),
  ]
  const halved = () => {
    const hall = aHall({ shifts, northRoom: true, policy: { workMost: 20 } })
    const both = carriedOut(
      hall,
      meeting('c', 'south-meeting', '09:34'),
      meeting('a', 'north-meeting', '09:36'),
    )
    const two = both.shifts.find(({ id }) => id === 'shift_two')!
    return carriedOut(both, setUp({ kind: 'shift', before: two, after: two, retire: true }))
  }
  const cancelled = (snapshot: SiteSnapshot) =>
    carriedOut(snapshot, {
      kind: 'cancel',
      bookingId: aBooking({
        name: 'c',
        layout: 'south-meeting',
        doors: '2026-06-05T09:34',
        clear: '2026-06-05T13:00',
      }).id,
      versionExpected: null,
    })

  test('who comes first has the other half, and when they cancel the second one is ready at once', () => {
    const snapshot = halved()
    expect(turnIn(snapshot, 'c').status).toBe('ready')
    expect(turnIn(snapshot, 'a').status).toBe('failing')
    expect(turnIn(cancelled(snapshot), 'a').status).toBe('ready')
  })

  test('a promise that still holds is not broken to mend another, whatever is looked at again', () => {
    const later = Shift.parse({
      siteId: 'site_test',
      ...aShift('later', 2, '2026-06-05T09:38', '2026-06-05T12:00'),
    })
    const snapshot = carriedOut(halved(), addShift(later), meeting('b', 'side-meeting', '10:20'))
    const before = turnIn(snapshot, 'b')
    expect(before.status).toBe('ready')
    const judge: Operation = {
      kind: 'judge',
      span: { fromAt: at('2026-06-01T00:00'), toAt: at('2026-06-30T00:00') },
      judgedThroughAt: null,
    }
    const evening = addShift(
      Shift.parse({ siteId: 'site_test', ...aShift('evening', 1, '2026-06-05T20:00', '2026-06-05T22:00') }),
    )
    for (const operation of [judge, evening]) {
      expect(turnIn(carriedOut(snapshot, operation), 'b')).toEqual(before)
    }
  })
})

describe('a turn that is late already', () => {
  const lateDinner = () => {
    const hall = carriedOut(
      aHall({ hands: 6 }),
      book({ name: 'games', layout: 'long-games', doors: '2026-06-05T18:00', clear: '2026-06-05T20:30' }),
      book({ name: 'dinner', layout: 'long-banquet', doors: '2026-06-05T22:10', clear: '2026-06-05T23:30' }),
    )
    const clearAt = at('2026-06-05T21:45')
    const bookingId = hall.bookings.find(({ id }) => id === 'booking_games')!.id
    return carriedOut(hall, { kind: 'clear-later', bookingId, clearAt, versionExpected: null })
  }

  test('is not made later still without a word', () => {
    const snapshot = lateDinner()
    expect(turnIn(snapshot, 'dinner').status).toBe('failing')
    const bookingId = snapshot.bookings.find(({ id }) => id === 'booking_games')!.id
    const { decision } = decided(snapshot, {
      kind: 'clear-later',
      bookingId,
      clearAt: at('2026-06-05T22:05'),
      versionExpected: null,
    })
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.reasons[0]?.code).toMatch(/^(hands-short|turn-after-too-long)$/)
  })

  test('is spoken of again when the crew gets smaller', () => {
    const snapshot = lateDinner()
    const [shift] = snapshot.shifts
    const two = { ...shift!, crew: { kind: 'hands' as const, hands: 2, skills: [], adults: true } }
    const { decision } = decided(
      snapshot,
      setUp({ kind: 'shift', before: shift!, after: two, retire: false }),
    )
    expect(decision.verdict).toBe('does-not-fit')
  })
})

test('who is booked is warned when exits close under them', () => {
  const exit = (name: string) =>
    Exit.parse({
      id: `exit_${name}`,
      siteId: 'site_test',
      sectionId: 'section_south',
      name,
      clearWidthMetres: 1.6,
    })
  const hall = { ...aHall({ hands: 6 }), exits: [exit('east'), exit('west')] }
  const dinner = book({
    name: 'dinner',
    layout: 'long-banquet',
    doors: '2026-06-05T18:00',
    clear: '2026-06-05T23:30',
    headcount: 100,
  })
  const closed = Closure.parse({
    id: 'closure_exit',
    siteId: 'site_test',
    sectionIds: [],
    exitIds: ['exit_east'],
    fromAt: at('2026-06-05T12:00'),
    toAt: at('2026-06-05T22:00'),
    reason: 'new door',
  })
  const { decision, after } = decided(carriedOut(hall, dinner), close(closed))
  expect(decision.reasons.map(({ code }) => code)).toEqual(['exits-too-few'])
  expect(turnIn(after, 'dinner').judgement.warnedSince).not.toBeNull()
})

test('a neighbour far behind the window is not moved, however much of the site is known', () => {
  const shifts = [
    aShift('wed', 6, '2026-06-03T19:00', '2026-06-03T22:30'),
    aShift('eve', 2, '2026-06-08T17:00', '2026-06-08T19:30'),
    aShift('sun', 2, '2026-06-07T12:00', '2026-06-07T12:20'),
  ]
  const on = (day: number, name: string, layout: string, doors: string, clear: string) =>
    book({ name, layout, doors: `2026-06-0${day}T${doors}`, clear: `2026-06-0${day}T${clear}` })
  const snapshot = carriedOut(
    withSmallRooms(aCrew({ shifts, now: '2026-06-01T09:00' }), 2, 30),
    on(8, 'y', 'r2-chairs', '08:00', '09:00'),
    on(8, 'n', 'side-meeting', '18:25', '20:30'),
    on(8, 'x', 'r2-chairs', '19:20', '21:00'),
  )
  const asked = [on(5, 'r', 'side-supper', '06:00', '07:00')]
  const around = [asked, spokenOf(snapshot, asked), snapshot.now, null] as const
  const withoutAlternatives = true
  const all = decide(snapshot, asked, { withoutAlternatives })
  for (const window of [windowOf(...around), windowWithAlternatives(...around)]) {
    expect(decide(seenAround(snapshot, window), asked, { withoutAlternatives })).toEqual(all)
  }
})
