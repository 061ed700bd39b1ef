/** Every reason in order of precedence, each made by a small input that gives that one first. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import type { Decision } from '../../../src/domain/decision.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import { type ReasonCode, reasonCodes } from '../../../src/domain/reason.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, isOverridable } from '../../../src/scheduler/decide/index.ts'
import { aBooking, aHall, aShift, at, book, type HallWishes, snapshotAfter } from './a-hall.ts'

interface Case {
  readonly code: ReasonCode
  readonly given: string
  readonly overridable: boolean
  readonly hall?: HallWishes
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
    overridable: false,
    hall: { soundSkill: 'sound' },
    asked: dinnerAt('2026-06-05T22:00'),
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
    given: 'games until ten minutes before a dinner that stands',
    overridable: true,
    booked: [dinnerAt('2026-06-05T21:10')],
    asked: gamesNight,
  },
  {
    code: 'another-turn-broken',
    given: 'a booking moved away that would have left the room as the next one wants it',
    overridable: true,
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
]

describe('the reasons', () => {
  test('are walked here in order of precedence, every one of them', () => {
    expect(cases.map((one) => one.code)).toEqual(reasonCodes)
  })

  test.each(cases)('$code comes first with $given', ({ code, hall, booked = [], asked, overridable }) => {
    const decision = decide(withBooked(aHall(hall), booked), [asked])
    const first = decision.reasons[0]
    expect(first?.code).toBe(code)
    expect(first?.overridable).toBe(overridable)
    expect(isOverridable(code)).toBe(overridable)
    expect(first?.message).toMatch(/^[A-Z0-9].*\.$/)
    expect(first?.message).not.toMatch(/undefined|null|NaN|\b[a-z]+_[a-z0-9]/)
    expect(first?.message).not.toMatch(/\b1 (hands|seats|people)\b/)
    expect(decision.verdict).toBe(code === 'slack-under-policy' ? 'tight' : 'does-not-fit')
    expect(ranks(decision)).toEqual([...ranks(decision)].sort((a, b) => a - b))
  })
})

const ranks = (decision: Decision) => decision.reasons.map((reason) => reasonCodes.indexOf(reason.code))

function withBooked(hall: SiteSnapshot, booked: readonly Operation[]): SiteSnapshot {
  return booked.reduce((snapshot, operation) => {
    const decision = decide(snapshot, [operation])
    if (!decision.changes) throw new Error(decision.reasons.map((reason) => reason.message).join(' '))
    return snapshotAfter(snapshot, decision.changes)
  }, hall)
}
