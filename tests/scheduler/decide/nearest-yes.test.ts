/** What a refusal offers instead: other doors, another layout, another room, more hands; each by an example. */
import { describe, expect, test } from 'vitest'
import type { Booking } from '../../../src/domain/booking.ts'
import { CrewDemand } from '../../../src/domain/booking-terms.ts'
import { Closure } from '../../../src/domain/closure.ts'
import { LinkId } from '../../../src/domain/ids.ts'
import { Layout } from '../../../src/domain/layout.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, moreHandsText, windowOf } from '../../../src/scheduler/decide/index.ts'
import {
  aBooking,
  addShift,
  aHall,
  aShift,
  at,
  type BookingWishes,
  book,
  type HallWishes,
  setUp,
  snapshotAfter,
  ZONE,
} from './a-hall.ts'

const games: BookingWishes = {
  name: 'games',
  layout: 'long-games',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T21:00',
}
const dinner = (doors: string, clear = '2026-06-05T23:30'): BookingWishes => ({
  name: 'dinner',
  layout: 'long-banquet',
  doors,
  clear,
  headcount: 100,
})
const DAILY = [{ weekdays: [1, 2, 3, 4, 5, 6, 7], opensLocal: '08:00', closesLocal: '22:00' }]

function after(hall: SiteSnapshot, ...operations: readonly Operation[]): SiteSnapshot {
  return operations.reduce((snapshot, operation) => {
    const { changes, reasons } = decide(snapshot, [operation])
    if (!changes) throw new Error(`refused: ${reasons[0]?.message}`)
    return snapshotAfter(snapshot, changes)
  }, hall)
}
const afterGames = (wishes: HallWishes = {}) => after(aHall(wishes), book(games))

const offered = (snapshot: SiteSnapshot, ...operations: Operation[]) => {
  const { verdict, alternatives } = decide(snapshot, operations)
  expect(verdict).toBe('does-not-fit')
  return alternatives
}
const messages = (snapshot: SiteSnapshot, ...operations: Operation[]) =>
  offered(snapshot, ...operations).map(({ message }) => message)
const kinds = (snapshot: SiteSnapshot, ...operations: Operation[]) =>
  offered(snapshot, ...operations).map(({ kind }) => kind)

const closedAllOver = (from: string, to: string, snapshot: SiteSnapshot) =>
  Closure.parse({
    id: 'closure_works',
    siteId: snapshot.site.id,
    sectionIds: snapshot.sections.map(({ id }) => id),
    fromAt: at(from),
    toAt: at(to),
    reason: 'works',
  })

describe('a dinner too soon after a games night', () => {
  test('is offered what disturbs least first, and last what somebody must agree to', () => {
    expect(messages(afterGames({ hands: 4 }), book(dinner('2026-06-05T21:50')))).toEqual([
      'With doors at Fri 5 Jun 22:10 it fits, with little to spare.',
      'With the layout long worship it fits, with little to spare.',
      'With doors at Fri 5 Jun 14:55 it fits, with little to spare.',
      'If 3 more hands are there from Fri 5 Jun 21:00 to 21:50, it fits, with little to spare.',
    ])
  })

  test('is offered no hands where no number of them would do', () => {
    const asked = book(dinner('2026-06-05T21:10'))
    expect(kinds(afterGames({ hands: 4 }), asked)).toEqual(['other-doors', 'other-doors'])
  })

  test('is offered more hands only while they can still come', () => {
    const asked = book(dinner('2026-06-05T21:50'))
    const soon = { ...afterGames({ hands: 4 }), now: at('2026-06-05T20:45') }
    expect(kinds(soon, asked)).toContain('more-hands')
    const tooLate = { ...soon, now: at('2026-06-05T21:40') }
    expect(kinds(tooLate, asked)).not.toContain('more-hands')
  })
})

describe('other doors', () => {
  test('before what comes next are early enough for the turn after it to be ready', () => {
    const snapshot = afterGames({ hands: 4 })
    const wishes = dinner('2026-06-05T15:00', '2026-06-05T17:50')
    const [earlier] = offered(snapshot, book(wishes))
    expect(earlier).toMatchObject({
      kind: 'other-doors',
      doorsAt: at('2026-06-05T13:45'),
      startsAt: at('2026-06-05T14:00'),
      endsAt: at('2026-06-05T16:20'),
      clearAt: at('2026-06-05T16:35'),
      verdict: 'tight',
      message: 'With doors at Fri 5 Jun 13:45 it fits, with little to spare.',
    })
    const { after: turnAfter } = decide(snapshot, [
      book({ ...wishes, doors: '2026-06-05T13:45', clear: '2026-06-05T16:35' }),
    ])
    expect(turnAfter).toMatchObject({ bookingId: 'booking_games', verdict: 'tight' })
    // Five minutes nearer, it would not.
    const nearer = book({ ...wishes, doors: '2026-06-05T13:50', clear: '2026-06-05T16:40' })
    expect(decide(snapshot, [nearer]).verdict).toBe('does-not-fit')
  })

  test('are such that doors and clear lie within opening hours, today or tomorrow', () => {
    const snapshot = aHall({ openingHours: DAILY })
    expect(messages(snapshot, book(dinner('2026-06-05T20:30', '2026-06-05T22:30')))).toEqual([
      'With doors at Fri 5 Jun 20:00 it fits.',
      'With doors at Sat 6 Jun 08:00 it fits.',
    ])
  })

  test('are never in the past', () => {
    const snapshot = { ...afterGames({ hands: 4 }), now: at('2026-06-05T16:00') }
    const asked = book(dinner('2026-06-05T17:00', '2026-06-05T20:00'))
    expect(messages(snapshot, asked)).toEqual([
      'With doors at Fri 5 Jun 22:10 it fits, with little to spare.',
    ])
  })

  test('are looked for 48 hours around those asked for, and no farther', () => {
    const shifts = [aShift('crew', 4, '2026-06-01T06:00', '2026-06-12T23:59')]
    const closedUntil = (to: string) => {
      const hall = aHall({ shifts })
      return { ...hall, closures: [closedAllOver('2026-06-01T08:00', to, hall)] }
    }
    const asked = book(dinner('2026-06-05T12:00', '2026-06-05T13:00'))
    expect(messages(closedUntil('2026-06-07T10:00'), asked)).toEqual([
      'With doors at Sun 7 Jun 11:00 it fits, with little to spare.',
    ])
    expect(offered(closedUntil('2026-06-07T11:30'), asked)).toEqual([])
  })

  test('take the crew that the event needs along', () => {
    const shifts = [
      aShift('crew', 4, '2026-06-05T06:00', '2026-06-05T23:00'),
      aShift('ushers', 2, '2026-06-05T15:00', '2026-06-05T17:00', ['ushering']),
    ]
    const wishes = dinner('2026-06-05T18:00', '2026-06-05T19:30')
    const needing = (booking: Booking): Operation => {
      const { doorsAt: fromAt, clearAt: toAt } = booking
      const demand = CrewDemand.parse({ what: 'ushers', fromAt, toAt, hands: 2, skill: 'ushering' })
      return { kind: 'book', booking: { ...booking, crewDemands: [demand] } }
    }
    const snapshot = aHall({ shifts })
    expect(messages(snapshot, needing(aBooking(wishes)))).toEqual([
      'With doors at Fri 5 Jun 15:30 it fits. With it: ushers from 15:30 to 17:00 instead of 18:00 to 19:30.',
      'If 2 more hands, all of them with the skill ushering, are there from Fri 5 Jun 18:00 to 19:30, it fits.',
    ])
    const taken = needing(aBooking({ ...wishes, doors: '2026-06-05T15:30', clear: '2026-06-05T17:00' }))
    expect(decide(snapshot, [taken]).verdict).toBe('fits')
  })

  test('of a hold are not before it ends', () => {
    const booking = aBooking(dinner('2026-06-05T20:30', '2026-06-05T22:30'))
    const hold = (holdExpiresAt: string): Operation => ({
      kind: 'hold',
      booking: { ...booking, status: 'TENTATIVE', holdExpiresAt: at(holdExpiresAt) },
    })
    const snapshot = aHall({ openingHours: DAILY })
    expect(messages(snapshot, hold('2026-06-05T20:00'))).toEqual([
      'With doors at Fri 5 Jun 20:00 it fits.',
      'With doors at Sat 6 Jun 08:00 it fits.',
    ])
    expect(messages(snapshot, hold('2026-06-05T20:15'))).toEqual(['With doors at Sat 6 Jun 08:00 it fits.'])
  })

  test('are not offered where the time is not what is in the way', () => {
    expect(kinds(aHall(), book({ ...dinner('2026-06-05T20:00'), headcount: 140 }))).toEqual(['other-layout'])
  })

  test('are only offered as far as everything around them is known', () => {
    const asked = book(dinner('2026-06-05T21:50'))
    const snapshot = afterGames({ hands: 4 })
    const near = { ...snapshot, window: windowOf([asked], [], snapshot.now) }
    expect(kinds(snapshot, asked)).toContain('other-doors')
    expect(kinds(near, asked)).toEqual(['other-layout'])
  })
})

describe('a booking that keeps its room as set for the next of its link', () => {
  test('is offered neither another time nor another place, but the hands that would do', () => {
    const snapshot = afterGames({ hands: 4 })
    const linked: Operation = {
      kind: 'book',
      booking: {
        ...aBooking(dinner('2026-06-05T21:50')),
        linkId: LinkId.parse('link_weekend'),
        keepAsSet: true,
      },
    }
    expect(kinds(snapshot, linked)).toEqual(['more-hands'])
  })
})

describe('another layout', () => {
  const withLayouts = (
    ...names: readonly (readonly [name: string, kind: string, seats: number | null])[]
  ) => {
    const hall = aHall()
    const made = names.map(([name, kind, seats]) =>
      Layout.parse({
        id: `layout_long-${name}`,
        siteId: hall.site.id,
        roomId: 'room_long',
        name: `long ${name}`,
        kind,
        seats,
        furnishings: [{ furnishingId: 'furnishing_chair', count: 100 }],
        equipment: [],
      }),
    )
    return { ...hall, layouts: [...hall.layouts, ...made] }
  }
  const asked = book({ ...dinner('2026-06-05T20:00'), headcount: 140 })

  test('of the room is offered to more people than the one asked for seats', () => {
    expect(messages(aHall(), asked)).toEqual(['With the layout long worship it fits.'])
  })

  test('is one of the same kind where there is one, and among those the one with the fewest seats', () => {
    const snapshot = withLayouts(
      ['feast', 'banquet', 200],
      ['supper', 'banquet', 160],
      ['snug', 'banquet', 139],
    )
    expect(messages(snapshot, asked)).toEqual(['With the layout long supper it fits.'])
  })

  test('without a number of seats is only offered to those who asked for its kind', () => {
    const open = withLayouts(['buffet', 'banquet', null])
    expect(messages(open, asked)).toEqual(['With the layout long buffet it fits.'])
    const worship = book({ ...dinner('2026-06-05T20:00'), layout: 'long-worship', headcount: 160 })
    expect(offered(open, worship)).toEqual([])
  })
})

describe('another room', () => {
  const meeting = book({
    name: 'meeting',
    layout: 'side-meeting',
    doors: '2026-06-05T10:00',
    clear: '2026-06-05T11:00',
    headcount: 35,
  })

  test('that seats them with a layout of the same kind is offered at the same time', () => {
    const [, room] = offered(aHall(), meeting)
    expect(room).toEqual({
      kind: 'other-room',
      certainty: 'yes',
      roomId: 'room_south',
      layoutId: 'layout_south-meeting',
      verdict: 'fits',
      message: 'In South Room with the layout south meeting it fits.',
    })
  })

  test('is not offered while somebody else has it', () => {
    const taken = book({ ...games, layout: 'south-meeting', doors: '2026-06-05T09:00' })
    expect(kinds(after(aHall(), taken), meeting)).toEqual(['other-layout'])
  })
})

describe('more hands', () => {
  test('are asked for with the skill that is missing', () => {
    const snapshot = afterGames({ hands: 6, soundSkill: 'sound' })
    expect(offered(snapshot, book(dinner('2026-06-05T22:10'))).at(-1)).toEqual({
      kind: 'more-hands',
      certainty: 'yes-if',
      hands: 1,
      handsWithSkills: 1,
      skills: ['sound'],
      fromAt: at('2026-06-05T21:00'),
      toAt: at('2026-06-05T22:10'),
      agreeByAt: at('2026-06-05T21:00'),
      unpaid: false,
      grownUp: false,
      isTight: false,
      message: 'If 1 more hand with the skill sound is there from Fri 5 Jun 21:00 to 22:10, it fits.',
    })
  })

  test('need the skill no more of them than it takes', () => {
    const snapshot = afterGames({ hands: 4, soundSkill: 'sound' })
    const message = messages(snapshot, book(dinner('2026-06-05T21:50'))).at(-1)
    expect(message).toBe(
      'If 3 more hands (one of them with the skill sound) are there from Fri 5 Jun 21:00 to 21:50, it fits, with little to spare.',
    )
    // It says no more than is so: with one fewer, it is still refused.
    const added = (hands: number, skills: readonly string[]) => {
      const shift = aShift(`more-${skills.length}`, hands, '2026-06-05T21:00', '2026-06-05T21:50', skills)
      return addShift(Shift.parse({ ...shift, siteId: snapshot.site.id }))
    }
    const asked = book(dinner('2026-06-05T21:50'))
    const verdict = (...more: readonly Operation[]) => decide(snapshot, [...more, asked]).verdict
    expect(verdict(added(1, ['sound']), added(2, []))).not.toBe('does-not-fit')
    expect(verdict(added(1, ['sound']), added(1, []))).toBe('does-not-fit')
    expect(verdict(added(3, []))).toBe('does-not-fit')
  })

  test('come no sooner to an empty hall than the work takes', () => {
    const snapshot = aHall({ shifts: [] })
    expect(messages(snapshot, book(dinner('2026-06-05T22:30')))).toEqual([
      'If 2 more hands are there from Fri 5 Jun 20:50 to 22:30, it fits.',
    ])
  })

  test('who stay past midnight are asked for with both days', () => {
    const [message] = messages(aHall({ shifts: [] }), book(dinner('2026-06-06T00:30', '2026-06-06T02:00')))
    expect(message).toBe('If 2 more hands are there from Fri 5 Jun 22:50 to Sat 6 Jun 00:30, it fits.')
  })

  test('are asked for several things at once, where these are refused together', () => {
    const snapshot = afterGames({ hands: 4 })
    const side = book({ ...games, name: 'side', layout: 'side-meeting', doors: '2026-06-05T09:00' })
    expect(messages(snapshot, side, book(dinner('2026-06-05T21:50')))).toEqual([
      'If 3 more hands are there from Fri 5 Jun 21:00 to 21:50, it fits, with little to spare.',
    ])
  })

  test('and what else would help are kept with a turn that fails, when its plan is gone over', () => {
    const snapshot = after(afterGames({ hands: 4 }), book(dinner('2026-06-05T22:10')))
    const before = snapshot.shifts[0]!
    const fewer = { ...before, crew: { kind: 'hands' as const, hands: 2, skills: [], adults: true } }
    const { changes } = decide(snapshot, [setUp({ kind: 'shift', before, after: fewer, retire: false })])
    const failing = snapshotAfter(snapshot, changes!)
    const turn = failing.turns.find(({ bookingId }) => bookingId === 'booking_dinner')!
    expect(turn.status).toBe('failing')
    const polished = decide(failing, [{ kind: 'polish', turnIds: [turn.id] }])
    const { waysOut } = polished.changes!.turns[0]!.after.judgement
    expect(waysOut.map(({ message }) => message)).toEqual([
      'With doors at Fri 5 Jun 23:00 it fits, with little to spare.',
      'With doors at Fri 5 Jun 14:35 it fits, with little to spare.',
      'If 2 more hands are there from Fri 5 Jun 21:00 to 22:10, it fits, with little to spare.',
    ])
  })
})

test('more hands are said to be adults, or unpaid, where that is what is missing, and how much they leave to spare', () => {
  const wanted = {
    hands: 1,
    handsWithSkills: 0,
    skills: [],
    grownUp: true,
    unpaid: false,
    fromAt: at('2026-06-05T21:00'),
    toAt: at('2026-06-05T22:10'),
  }
  expect(moreHandsText(wanted, 'fits', ZONE)).toBe(
    'If 1 more adult is there from Fri 5 Jun 21:00 to 22:10, it fits.',
  )
  expect(moreHandsText({ ...wanted, hands: 2, grownUp: false, unpaid: true }, 'tight', ZONE)).toBe(
    'If 2 more unpaid hands are there from Fri 5 Jun 21:00 to 22:10, it fits, with little to spare.',
  )
})
