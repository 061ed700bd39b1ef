/** Every reason in order of precedence, each made by a small input that gives that one first. */
import { describe, expect, test } from 'vitest'
import type { Booking } from '../../../src/domain/booking.ts'
import { Closure } from '../../../src/domain/closure.ts'
import type { Decision } from '../../../src/domain/decision.ts'
import { Equipment } from '../../../src/domain/equipment.ts'
import { Exit } from '../../../src/domain/exit.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { Policy } from '../../../src/domain/policy.ts'
import { Reason, type ReasonCode, reasonCodes, speaksAgainst } from '../../../src/domain/reason.ts'
import { Room } from '../../../src/domain/room.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, isOverridable } from '../../../src/scheduler/decide/index.ts'
import { overridableInWords } from '../../../src/scheduler/decide/overridable.ts'
import { aBooking, aHall, aShift, at, book, type HallWishes, snapshotAfter } from './a-hall.ts'

interface Case {
  readonly code: ReasonCode
  readonly given: string
  readonly overridable: boolean
  readonly hall?: HallWishes
  /** What the wishes have no word for. */
  readonly changed?: (hall: SiteSnapshot) => Partial<SiteSnapshot>
  /** Booked first; each must be accepted. */
  readonly booked?: readonly Operation[]
  readonly asked: Operation
}

const gamesNight = book({
  name: 'games',
  layout: 'long-games',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T21:00',
})
const dinnerAt = (doors: string, headcount = 100) =>
  book({ name: 'dinner', layout: 'long-banquet', doors, clear: '2026-06-05T23:30', headcount })
const meeting = (layout: string, doors: string, clear: string) =>
  book({ name: `meeting-in-${layout}`, layout: `${layout}-meeting`, doors, clear })

const withMore = (operation: Operation, more: Partial<Booking>): Operation =>
  operation.kind === 'book' ? { ...operation, booking: { ...operation.booking, ...more } } : operation

const cases: readonly Case[] = [
  {
    code: 'room-closed',
    given: 'a closure that begins before clear',
    overridable: false,
    hall: {
      closures: [
        Closure.parse({
          id: 'closure_works',
          siteId: 'site_test',
          sectionIds: ['section_side'],
          fromAt: at('2026-06-05T11:00'),
          toAt: at('2026-06-09T11:00'),
          reason: 'works',
        }),
      ],
    },
    asked: meeting('side', '2026-06-05T10:00', '2026-06-05T12:00'),
  },
  {
    code: 'outside-opening-hours',
    given: 'clear after closing',
    overridable: true,
    hall: { openingHours: [{ weekdays: [5], opensLocal: '08:00', closesLocal: '11:30' }] },
    asked: meeting('side', '2026-06-05T10:00', '2026-06-05T12:00'),
  },
  {
    code: 'room-occupied',
    given: 'one half of the room taken',
    overridable: false,
    booked: [meeting('south', '2026-06-05T10:00', '2026-06-05T12:00')],
    asked: book({
      name: 'other',
      layout: 'long-games',
      doors: '2026-06-05T11:59',
      clear: '2026-06-05T14:00',
    }),
  },
  {
    code: 'headcount-over-posted-limit',
    given: 'one person more than is posted',
    overridable: false,
    hall: { occupantLimitPosted: 100 },
    asked: book({
      name: 'full',
      layout: 'long-banquet',
      doors: '2026-06-05T12:00',
      clear: '2026-06-05T14:00',
      headcount: 101,
    }),
  },
  {
    code: 'headcount-over-computed-load',
    given: 'no limit posted, and one person more than the floor holds',
    overridable: true,
    hall: { occupantLimitPosted: null },
    asked: book({
      name: 'tournament',
      layout: 'long-games',
      doors: '2026-06-05T12:00',
      clear: '2026-06-05T14:00',
      headcount: 47,
    }),
  },
  {
    code: 'exits-too-few',
    given: 'fifty people and one exit',
    overridable: true,
    changed: () => ({
      exits: [
        Exit.parse({
          id: 'exit_only',
          siteId: 'site_test',
          name: 'Only door',
          sectionId: 'section_north',
          clearWidthMetres: 1.6,
        }),
      ],
    }),
    asked: dinnerAt('2026-06-05T22:00', 50),
  },
  {
    code: 'headcount-over-seats',
    given: 'one person more than there are seats',
    overridable: true,
    asked: book({
      name: 'full',
      layout: 'side-meeting',
      doors: '2026-06-05T12:00',
      clear: '2026-06-05T14:00',
      headcount: 31,
    }),
  },
  {
    code: 'state-unreachable',
    given: 'a sound desk of which nobody said how it gets from off to speech',
    overridable: false,
    changed: ({ equipment }) => ({
      equipment: equipment.map((device) =>
        Equipment.parse({ ...device, control: { ...device.control, transitions: [] } }),
      ),
    }),
    asked: dinnerAt('2026-06-05T22:00'),
  },
  {
    code: 'device-held',
    given: 'the other half with the wall between them open, and a layout that wants it closed',
    overridable: false,
    hall: { northRoom: true, movableWall: true },
    changed: ({ bookings }) => ({
      bookings: [
        ...bookings,
        aBooking({
          name: 'open-day',
          layout: 'north-open-day',
          doors: '2026-06-05T11:00',
          clear: '2026-06-05T13:00',
        }),
      ],
    }),
    asked: book({
      name: 'meeting',
      layout: 'south-meeting',
      doors: '2026-06-05T12:00',
      clear: '2026-06-05T14:00',
    }),
  },
  {
    code: 'device-late',
    given: 'the turn of the other half, which closes the wall between them, without a plan',
    overridable: true,
    hall: { northRoom: true, movableWall: true, hands: 6 },
    changed: (hall) => {
      const mover = book({
        name: 'mover',
        layout: 'north-meeting',
        doors: '2026-06-05T12:00',
        clear: '2026-06-05T14:00',
      })
      const { bookings, turns } = snapshotAfter(hall, decide(hall, [mover]).changes!)
      return { bookings, turns: turns.map((turn) => ({ ...turn, status: 'failing', plan: null })) }
    },
    asked: book({
      name: 'meeting',
      layout: 'south-meeting',
      doors: '2026-06-05T12:30',
      clear: '2026-06-05T14:00',
    }),
  },
  {
    code: 'equipment-unavailable',
    given: 'the sound desk away for repair, and nothing that stands in for it',
    overridable: true,
    hall: {
      stockChanges: [
        {
          id: 'stockchange_desk',
          of: { kind: 'equipment', equipmentId: 'equipment_sound' },
          why: 'out-of-service',
          fromAt: at('2026-06-05T22:30'),
          toAt: null,
        },
      ],
    },
    asked: dinnerAt('2026-06-05T22:00'),
  },
  {
    code: 'way-closed',
    given: 'the store closed from clear until doors, where an hour is enough',
    overridable: false,
    hall: {
      hands: 6,
      closures: [
        Closure.parse({
          id: 'closure_store',
          siteId: 'site_test',
          sectionIds: [],
          storagePlaceIds: ['storage_north'],
          fromAt: at('2026-06-05T21:00'),
          toAt: at('2026-06-06T12:00'),
          reason: 'rewiring',
        }),
      ],
    },
    booked: [gamesNight],
    asked: dinnerAt('2026-06-05T22:30'),
  },
  {
    code: 'tool-missing',
    given: 'every dust mop lent out',
    overridable: true,
    hall: {
      tools: [
        {
          id: 'tool_mop',
          name: 'dust mop',
          namePlural: 'dust mops',
          countOwned: 2,
          cleaningMethods: ['dust-mop'],
        },
      ],
      stockChanges: [
        {
          id: 'stockchange_mops',
          of: { kind: 'tool', toolId: 'tool_mop', count: 2 },
          why: 'lent-out',
          fromAt: at('2026-06-01T00:00'),
          toAt: null,
        },
      ],
    },
    booked: [gamesNight],
    asked: dinnerAt('2026-06-05T23:00'),
  },
  {
    code: 'skill-missing',
    given: 'a sound desk and nobody on duty who may touch it',
    overridable: true,
    hall: { soundSkill: 'sound' },
    asked: dinnerAt('2026-06-05T22:00'),
  },
  {
    code: 'crew-demand-short',
    given: 'five ushers asked for where four are on duty',
    overridable: true,
    asked: withMore(dinnerAt('2026-06-05T22:00'), {
      crewDemands: [
        {
          what: 'ushers',
          fromAt: at('2026-06-05T22:00'),
          toAt: at('2026-06-05T22:30'),
          hands: 5,
          skill: null,
        },
      ],
    }),
  },
  {
    code: 'paid-hours-short',
    given: 'four who are paid, and a policy that pays for half an hour of them in one turn',
    overridable: true,
    changed: ({ policy, shifts }) => ({
      policy: { ...policy, paidPersonSecondsMost: 1800 },
      shifts: shifts.map((shift) => ({ ...shift, paid: true })),
    }),
    booked: [],
    asked: dinnerAt('2026-06-05T23:00'),
  },
  {
    code: 'hands-short',
    given: 'two hands for an hour, where five would do',
    overridable: true,
    hall: { hands: 2 },
    booked: [gamesNight],
    asked: dinnerAt('2026-06-05T22:00'),
  },
  {
    code: 'turn-before-too-long',
    given: 'ten minutes from games to banquet',
    overridable: true,
    booked: [gamesNight],
    asked: dinnerAt('2026-06-05T21:10'),
  },
  {
    code: 'turn-after-too-long',
    given: 'games until ten minutes before a dinner that stands firm',
    overridable: false,
    booked: [dinnerAt('2026-06-05T21:10')],
    asked: gamesNight,
  },
  {
    code: 'milestone-missed',
    given: 'tables asked for five minutes after the games, where there are two hours until doors',
    overridable: true,
    booked: [gamesNight],
    asked: withMore(dinnerAt('2026-06-05T23:00'), {
      milestones: [{ milestone: 'tables-up', byAt: at('2026-06-05T21:05') }],
    }),
  },
  {
    code: 'noise-next-door',
    given: 'quiet asked for while the room next door is turned, and no time to turn it before or after',
    overridable: true,
    hall: { hands: 6 },
    changed: ({ rooms }) => ({
      rooms: rooms.map((room) => Room.parse({ ...room, acousticallyJoinedRoomIds: joinedTo(room) })),
    }),
    booked: [gamesNight, dinnerAt('2026-06-05T22:00')],
    asked: withMore(meeting('side', '2026-06-05T20:45', '2026-06-05T22:15'), { quietNeeded: true }),
  },
  {
    code: 'another-turn-broken',
    given: 'a booking moved away that would have left the room as the next one, which is firm, wants it',
    overridable: false,
    hall: {
      shifts: [
        aShift('friday', 6, '2026-06-05T06:00', '2026-06-05T22:15'),
        // Enough to clean a room that is set already; a turn begins 48 h before doors at the earliest.
        aShift('monday', 2, '2026-06-08T08:20', '2026-06-08T08:50'),
      ],
    },
    booked: [
      book({ name: 'dinner', layout: 'long-banquet', doors: '2026-06-05T18:00', clear: '2026-06-05T21:00' }),
      book({ name: 'prayer', layout: 'long-worship', doors: '2026-06-05T22:15', clear: '2026-06-05T22:45' }),
      book({ name: 'vigil', layout: 'long-worship', doors: '2026-06-08T09:00', clear: '2026-06-08T10:00' }),
    ],
    asked: {
      kind: 'change',
      booking: aBooking({
        name: 'prayer',
        layout: 'side-supper',
        doors: '2026-06-05T22:15',
        clear: '2026-06-05T22:45',
        version: 2,
      }),
    },
  },
  {
    code: 'slack-under-policy',
    given: 'ready an hour before doors, where two hours are wanted',
    overridable: true,
    hall: { slackWantedSeconds: 7200 },
    booked: [],
    asked: book({
      name: 'early',
      layout: 'side-meeting',
      doors: '2026-06-05T07:00',
      clear: '2026-06-05T09:00',
    }),
  },
  {
    code: 'hands-assumed',
    given: 'nobody on duty, and a policy that counts on four hands nevertheless',
    overridable: true,
    hall: { shifts: [] },
    changed: ({ policy }) => ({ policy: { ...policy, planningHands: 4 } }),
    asked: meeting('side', '2026-06-05T10:00', '2026-06-05T12:00'),
  },
  {
    code: 'occupancy-to-check',
    given: 'a posted limit that allows one person more than the floor holds',
    overridable: true,
    asked: book({
      name: 'tournament',
      layout: 'long-games',
      doors: '2026-06-05T12:00',
      clear: '2026-06-05T14:00',
      headcount: 47,
    }),
  },
]

/** The side room and the long one hear each other. */
const joinedTo = ({ id }: Room): string[] => (id === 'room_side' ? ['room_long'] : [])

describe('the reasons', () => {
  test('are walked here in order of precedence, every one of them', () => {
    expect(cases.map((one) => one.code)).toEqual(reasonCodes)
  })

  test.each(cases)('$code comes first with $given', (one) => {
    const { code, hall, changed, booked = [], asked, overridable } = one
    const asWished = aHall(hall)
    const decision = decide(withBooked({ ...asWished, ...changed?.(asWished) }, booked), [asked])
    const first = decision.reasons[0]
    expect(first?.code).toBe(code)
    expect(first?.overridable).toBe(overridable)
    expect(first?.message).toMatch(/^[A-Z0-9].*\.$/)
    expect(first?.message).not.toMatch(/undefined|null|NaN|\b[a-z]+_[a-z0-9]/)
    expect(first?.message).not.toMatch(/\b1 (hands|seats|people|exits)\b/)
    expect(decision.verdict).toBe(speaksAgainst({ code }) ? 'does-not-fit' : 'tight')
    expect(ranks(decision)).toEqual([...ranks(decision)].sort((a, b) => a - b))
  })
})

describe('what a coordinator may decide otherwise', () => {
  const skillMissing = (skill: string) =>
    Reason.parse({
      code: 'skill-missing',
      turnId: 'turn_dinner',
      side: 'before',
      skill,
      fromAt: at('2026-06-05T18:00'),
      toAt: at('2026-06-05T20:00'),
      proof: 'bound',
    })
  const { policy } = aHall()

  test('is a skill that is missing, unless somebody must be grown up or qualified for it', () => {
    expect(isOverridable(skillMissing('sound'), policy)).toBe(true)
    expect(
      isOverridable(skillMissing('sound'), Policy.parse({ ...policy, adultOnlySkills: ['sound'] })),
    ).toBe(false)
    expect(isOverridable(skillMissing('rigging'), policy)).toBe(false)
    expect(isOverridable(skillMissing('rigging'), Policy.parse({ ...policy, adultOnlySkills: [] }))).toBe(
      true,
    )
    expect(isOverridable(skillMissing('adult'), Policy.parse({ ...policy, adultOnlySkills: [] }))).toBe(false)
  })

  test('is the same in words', () => {
    const own = cases.filter(({ code }) => code !== 'turn-after-too-long' && code !== 'another-turn-broken')
    for (const { code, overridable } of own) {
      const words = overridableInWords(code)
      expect(words === 'no').toBe(!overridable)
      expect(words === 'yes').toBe(overridable && !unlessFirm.includes(code))
    }
    expect(unlessFirm.map(overridableInWords)).toEqual(
      unlessFirm.map((code) => (code === 'skill-missing' ? 'unless qualified or firm' : 'unless firm')),
    )
  })
})

/** They may speak of somebody else's turn or event. */
const unlessFirm: readonly ReasonCode[] = [
  'device-late',
  'tool-missing',
  'skill-missing',
  'crew-demand-short',
  'paid-hours-short',
  'hands-short',
  'turn-after-too-long',
  'milestone-missed',
  'noise-next-door',
  'another-turn-broken',
]

const ranks = (decision: Decision) => decision.reasons.map((reason) => reasonCodes.indexOf(reason.code))

function withBooked(hall: SiteSnapshot, booked: readonly Operation[]): SiteSnapshot {
  return booked.reduce((snapshot, operation) => {
    const decision = decide(snapshot, [operation])
    if (!decision.changes) throw new Error(decision.reasons.map((reason) => reason.message).join(' '))
    return snapshotAfter(snapshot, decision.changes)
  }, hall)
}
