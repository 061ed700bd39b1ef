/** The main job on the pure core: a dinner after a games night, its list of work, and what cannot be turned. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { ShiftId } from '../../../src/domain/ids.ts'
import type { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { brokenInvariants, decide } from '../../../src/scheduler/decide/index.ts'
import {
  aBooking,
  addShift,
  aHall,
  at,
  book,
  close,
  type HallWishes,
  setUp,
  snapshotAfter,
} from './a-hall.ts'

const gamesNight = book({
  name: 'games',
  layout: 'long-games',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T21:00',
})
const dinner = (doors: string) =>
  book({ name: 'dinner', layout: 'long-banquet', doors, clear: '2026-06-05T23:30', headcount: 100 })

function afterGamesNight(wishes: HallWishes = {}): SiteSnapshot {
  const hall = aHall(wishes)
  const { changes } = decide(hall, [gamesNight])
  if (!changes) throw new Error('the games night was refused')
  return snapshotAfter(hall, changes)
}

describe('a dinner in the shared hall after a youth games night', () => {
  test('is accepted when the hall can be turned, and the answer carries the turn', () => {
    const decision = decide(afterGamesNight({ hands: 6 }), [dinner('2026-06-05T22:10')])
    expect(decision.verdict).toBe('fits')
    expect(decision.reasons).toEqual([])
    const { before } = decision
    expect(before).toMatchObject({
      fromLayoutIds: ['layout_long-games'],
      toLayoutId: 'layout_long-banquet',
      releaseAt: at('2026-06-05T21:00'),
      dueAt: at('2026-06-05T22:10'),
      staffedWindowSeconds: 70 * 60,
    })
    expect(before!.readyAt! + before!.slackSeconds! * 1000).toBe(before!.dueAt)
    expect(before!.lowerBoundSeconds!).toBeLessThanOrEqual(before!.neededSeconds!)
    expect(before!.neededSeconds!).toBeLessThanOrEqual(before!.staffedWindowSeconds)
  })

  test('has a list of work: each task with its time, hands, places and words, none before the room is clear', () => {
    const { changes } = decide(afterGamesNight({ hands: 6 }), [dinner('2026-06-05T22:10')])
    const turn = changes!.turns.find((change) => change.after.id === 'turn_dinner')!.after
    const tasks = turn.plan!.tasks
    expect(tasks.length).toBeGreaterThan(20)
    expect(tasks.map((task) => task.kind)).toEqual(
      expect.arrayContaining(['strike', 'clean', 'set', 'switch', 'sign-off']),
    )
    for (const task of tasks) {
      expect(task.startsAt).toBeGreaterThanOrEqual(at('2026-06-05T21:00'))
      expect(task.endsAt).toBeLessThanOrEqual(at('2026-06-05T22:10'))
      expect(task.laneIds).toHaveLength(task.hands)
      expect(task.text.length).toBeGreaterThan(10)
    }
    const count = (kind: string, furnishing: string) =>
      tasks
        .filter((task) => task.kind === kind && task.furnishingId === `furnishing_${furnishing}`)
        .reduce((sum, task) => sum + (task.count ?? 0), 0)
    expect(count('set', 'round-table')).toBe(15)
    expect(count('set', 'chair')).toBe(120)
    expect(count('linen-on', 'cloth')).toBe(15)
    expect(count('strike', 'post-pair')).toBe(2)
    // Wanted again, so they wait in the room.
    expect(count('park', 'chair')).toBe(20)
    expect(tasks.at(-1)?.kind).toBe('sign-off')
    expect(turn.plan!.readyAt).toBe(Math.max(...tasks.map((task) => task.endsAt)))
  })

  test('is refused when the reset does not fit: minutes short, the hands that would do it, the earliest doors', () => {
    const snapshot = afterGamesNight({ hands: 4 })
    const decision = decide(snapshot, [dinner('2026-06-05T21:50')])
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.changes).toBeNull()
    const reason = decision.reasons[0]!
    if (reason.code !== 'hands-short') throw new Error(`expected hands-short, got ${reason.code}`)
    expect(reason.availableSeconds).toBe(50 * 60)
    expect(reason.shortSeconds).toBe(reason.neededSeconds! - reason.availableSeconds)
    expect(reason.handsNeeded).toBeGreaterThan(reason.handsOnDuty)
    // With as many hands as it says, it does fit; with one fewer no plan is found.
    const withHands = (hands: number) =>
      decide(afterGamesNight({ hands }), [dinner('2026-06-05T21:50')]).verdict
    expect(withHands(reason.handsNeeded)).not.toBe('does-not-fit')
    expect(withHands(reason.handsNeeded - 1)).toBe('does-not-fit')
    const [alternative] = decision.alternatives
    if (alternative?.kind !== 'other-doors') throw new Error(`expected other doors, got ${alternative?.kind}`)
    expect(alternative.doorsAt).toBeGreaterThanOrEqual(reason.readyAt!)
    expect(alternative.doorsAt - reason.readyAt!).toBeLessThan(5 * 60_000)
  })

  test('is refused with the word that no number of hands would do, when none would', () => {
    const decision = decide(afterGamesNight({ hands: 4 }), [dinner('2026-06-05T21:10')])
    const reason = decision.reasons[0]!
    if (reason.code !== 'turn-before-too-long')
      throw new Error(`expected turn-before-too-long, got ${reason.code}`)
    expect(reason.proof).toBe('bound')
    expect(reason.message).toContain('No number of hands up to 12 can do it in time.')
    expect(decision.before!.lowerBoundSeconds!).toBeGreaterThan(10 * 60)
  })

  test('the doors it offers are accepted when they are taken on the same snapshot', () => {
    for (const [hands, doors] of [
      [2, '2026-06-05T22:00'],
      [4, '2026-06-05T21:50'],
      [6, '2026-06-05T21:10'],
    ] as const) {
      const snapshot = afterGamesNight({ hands })
      const asked = dinner(doors)
      if (asked.kind !== 'book') throw new Error('expected a booking')
      const [alternative] = decide(snapshot, [asked]).alternatives
      if (alternative?.kind !== 'other-doors')
        throw new Error(`expected other doors, got ${alternative?.kind}`)
      const { doorsAt, startsAt, endsAt, clearAt, verdict } = alternative
      const taken = decide(snapshot, [
        { kind: 'book', booking: { ...asked.booking, doorsAt, startsAt, endsAt, clearAt } },
      ])
      expect(taken.verdict).toBe(verdict)
    }
  })
})

describe('the same hands', () => {
  test('are never promised to two rooms: the second turn is planned with those that are left', () => {
    // Both rooms stand empty and both must be ready at 10:00; from 09:00 two hands are on duty.
    const shifts = [
      {
        id: 'shift_morning',
        name: 'morning',
        crew: { kind: 'hands', hands: 2, skills: [], adults: true },
        times: { kind: 'once', startsAt: at('2026-06-05T09:00'), endsAt: at('2026-06-05T10:00') },
      },
    ]
    const hall = aHall({ shifts, slackWantedSeconds: 0 })
    const side = decide(hall, [
      book({ name: 'side', layout: 'side-meeting', doors: '2026-06-05T10:00', clear: '2026-06-05T11:00' }),
    ])
    expect(side.verdict).toBe('fits')
    const south = book({
      name: 'south',
      layout: 'south-meeting',
      doors: '2026-06-05T10:00',
      clear: '2026-06-05T11:00',
    })
    const alone = decide(hall, [south])
    const after = decide(snapshotAfter(hall, side.changes!), [south])
    expect(alone.before!.readyAt!).toBeLessThan(after.before!.readyAt!)
    if (after.changes)
      expect(brokenInvariants(snapshotAfter(snapshotAfter(hall, side.changes!), after.changes))).toEqual([])
  })
})

describe('a decision', () => {
  test('is the same, byte for byte, each time it is asked for', () => {
    const snapshot = afterGamesNight({ hands: 4 })
    const ask = () => JSON.stringify(decide(snapshot, [dinner('2026-06-05T21:50')]))
    expect(ask()).toBe(ask())
  })

  test('on several operations is all or nothing: a place given up and taken in one go', () => {
    const snapshot = afterGamesNight()
    const swap = decide(snapshot, [
      { kind: 'cancel', bookingId: 'booking_games' as never, versionExpected: 1 },
      book({ name: 'other', layout: 'long-games', doors: '2026-06-05T18:00', clear: '2026-06-05T20:00' }),
    ])
    expect(swap.verdict).toBe('fits')
    expect(swap.changes!.bookings.map((change) => change.after.status)).toEqual(['CANCELLED', 'CONFIRMED'])
    const refused = decide(snapshot, [
      { kind: 'cancel', bookingId: 'booking_games' as never, versionExpected: 1 },
      book({
        name: 'full',
        layout: 'side-meeting',
        doors: '2026-06-05T18:00',
        clear: '2026-06-05T20:00',
        headcount: 50,
      }),
    ])
    expect(refused.changes).toBeNull()
  })

  test('keeps the plan people have read when only the title changes', () => {
    const snapshot = afterGamesNight()
    const renamed = {
      ...aBooking({
        name: 'games',
        layout: 'long-games',
        doors: '2026-06-05T18:00',
        clear: '2026-06-05T21:00',
        version: 2,
      }),
      title: 'Games evening',
    }
    const decision = decide(snapshot, [{ kind: 'change', booking: renamed }])
    expect(decision.changes!.turns).toEqual([])
    expect(decision.before?.turnId).toBe('turn_games')
  })

  test('to cancel always succeeds, and says when the next turn fails by it', () => {
    // Banquet stays as it is between two dinners; without the first, twenty minutes from games are not enough.
    let snapshot = aHall({ hands: 4 })
    for (const operation of [
      book({ name: 'games', layout: 'long-games', doors: '2026-06-05T10:00', clear: '2026-06-05T11:00' }),
      book({ name: 'first', layout: 'long-banquet', doors: '2026-06-05T12:30', clear: '2026-06-05T13:00' }),
      book({ name: 'second', layout: 'long-banquet', doors: '2026-06-05T14:10', clear: '2026-06-05T15:00' }),
    ]) {
      const { changes } = decide(snapshot, [operation])
      snapshot = snapshotAfter(snapshot, changes!)
    }
    const cancelled = decide(snapshot, [
      { kind: 'cancel', bookingId: 'booking_first' as never, versionExpected: null },
    ])
    expect(cancelled.changes).not.toBeNull()
    const next = cancelled.changes!.turns.find((change) => change.after.id === 'turn_second')!.after
    expect(next.predecessorBookingIds).toEqual(['booking_games'])
    expect(next.releaseAt).toBe(at('2026-06-05T11:00'))
    expect(cancelled.after?.turnId).toBe('turn_second')
    expect(brokenInvariants(snapshotAfter(snapshot, cancelled.changes!))).toEqual([])
  })

  test('to close a room always succeeds, and leaves the booking in it failing with that reason', () => {
    const snapshot = afterGamesNight()
    const closure = Closure.parse({
      id: 'closure_leak',
      siteId: snapshot.site.id,
      sectionIds: ['section_north' as never],
      fromAt: at('2026-06-05T12:00'),
      toAt: at('2026-06-08T12:00'),
      reason: 'leak in the roof',
    })
    const decision = decide(snapshot, [close(closure)])
    expect(decision.verdict).toBe('does-not-fit')
    const turn = decision.changes!.turns[0]!.after
    expect(turn).toMatchObject({ id: 'turn_games', status: 'failing' })
    // Its hands stay with it, as long as nobody has to be in the room while it is closed.
    for (const { endsAt } of turn.plan?.tasks ?? []) expect(endsAt).toBeLessThanOrEqual(closure.fromAt)
    expect(turn.judgement.reasons[0]?.code).toBe('room-closed')
    expect(brokenInvariants(snapshotAfter(snapshot, decision.changes!))).toEqual([])
  })

  test('to add a shift mends what failed for want of hands', () => {
    let snapshot = aHall({ hands: 4 })
    const { changes } = decide(snapshot, [gamesNight])
    snapshot = snapshotAfter(snapshot, changes!)
    const before = snapshot.shifts[0]!
    const oneHand: Shift = { ...before, crew: { kind: 'hands', hands: 1, skills: [], adults: true } }
    const fewer = decide(snapshot, [setUp({ kind: 'shift', before, after: oneHand, retire: false })])
    expect(fewer.changes!.turns[0]!.after.status).toBe('failing')
    snapshot = snapshotAfter(snapshot, fewer.changes!)
    const mended = decide(snapshot, [
      addShift({ ...aHall({ hands: 3 }).shifts[0]!, id: ShiftId.parse('shift_more') }),
    ])
    expect(mended.changes!.turns[0]!.after.status).toBe('ready')
    expect(brokenInvariants(snapshotAfter(snapshot, mended.changes!))).toEqual([])
  })
})
