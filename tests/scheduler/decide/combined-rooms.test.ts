/** A long room that is let whole, or as two halves with a wall between them. */
import { describe, expect, test } from 'vitest'
import { BookingId } from '../../../src/domain/ids.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import { aBooking, aHall, at, book, type HallWishes, setUp } from './a-hall.ts'
import { carriedOut, planIn, refusalOf, turnIn } from './carried-out.ts'

const hall = (wishes: HallWishes = {}): SiteSnapshot =>
  aHall({ hands: 6, northRoom: true, movableWall: true, ...wishes })
const north = {
  name: 'north',
  layout: 'north-meeting',
  doors: '2026-06-05T10:00',
  clear: '2026-06-05T12:00',
  headcount: 50,
}
const south = {
  name: 'south',
  layout: 'south-meeting',
  doors: '2026-06-05T10:00',
  clear: '2026-06-05T12:30',
  headcount: 40,
}
const worship = {
  name: 'worship',
  layout: 'long-worship',
  doors: '2026-06-05T15:00',
  clear: '2026-06-05T17:00',
  headcount: 100,
}
const cancel = (name: string): Operation => ({
  kind: 'cancel',
  bookingId: BookingId.parse(`booking_${name}`),
  versionExpected: null,
})
const tasksIn = (snapshot: SiteSnapshot, name: string, is: (task: PlannedTask) => boolean) =>
  planIn(snapshot, name).tasks.filter(is)
const wallTasks = (snapshot: SiteSnapshot, name: string) =>
  tasksIn(snapshot, name, ({ equipmentId }) => equipmentId === 'equipment_wall')
const chairs = (snapshot: SiteSnapshot, name: string, kinds: readonly string[]) =>
  tasksIn(
    snapshot,
    name,
    ({ kind, furnishingId }) => kinds.includes(kind) && furnishingId === 'furnishing_chair',
  )
    .map(({ count }) => count ?? 0)
    .reduce((sum, count) => sum + count, 0)

describe('the whole room after both halves', () => {
  const turned = () => carriedOut(hall(), book(north), book(south), book(worship))

  test('has two predecessors, by clear, and begins when the last of them is clear', () => {
    expect(turnIn(turned(), 'worship')).toMatchObject({
      predecessorBookingIds: ['booking_north', 'booking_south'],
      fromLayoutIds: ['layout_north-meeting', 'layout_south-meeting'],
      releaseAt: at('2026-06-05T12:30'),
      dueAt: at('2026-06-05T15:00'),
      status: 'ready',
    })
    for (const { startsAt } of planIn(turned(), 'worship').tasks)
      expect(startsAt).toBeGreaterThanOrEqual(at('2026-06-05T12:30'))
  })

  test('is turned from what stands in both of them', () => {
    expect(chairs(turned(), 'worship', ['park', 'strike'])).toBe(90)
    expect(chairs(turned(), 'worship', ['set'])).toBe(150)
  })

  test('waits for who stays longer in either of them', () => {
    for (const name of ['north', 'south']) {
      const later = carriedOut(turned(), {
        kind: 'clear-later',
        bookingId: BookingId.parse(`booking_${name}`),
        clearAt: at('2026-06-05T12:45'),
        versionExpected: null,
      })
      expect(turnIn(later, 'worship').releaseAt).toBe(at('2026-06-05T12:45'))
    }
  })

  test('has the wall opened by two hands, when nothing stands on the floor any more and before anything is set', () => {
    const [opened, ...more] = wallTasks(turned(), 'worship')
    expect(more).toEqual([])
    expect(opened).toMatchObject({ kind: 'switch', hands: 2 })
    const { tasks } = planIn(turned(), 'worship')
    const off = tasks.filter(({ kind }) => kind === 'park' || kind === 'strike')
    const on = tasks.filter(({ kind }) => kind === 'set')
    expect(off.length).toBeGreaterThan(0)
    for (const { endsAt } of off) expect(endsAt).toBeLessThanOrEqual(opened!.startsAt)
    for (const { startsAt } of on) expect(startsAt).toBeGreaterThanOrEqual(opened!.endsAt)
  })

  test('starts from one half and from what was before in the other, when the other booking is cancelled', () => {
    const gone = carriedOut(turned(), cancel('north'))
    expect(turnIn(gone, 'worship')).toMatchObject({
      predecessorBookingIds: ['booking_south'],
      fromLayoutIds: ['layout_south-meeting'],
    })
    expect(chairs(gone, 'worship', ['park', 'strike'])).toBe(40)
  })

  test('starts from the whole as it was and from the half that was used since', () => {
    const games = {
      name: 'games',
      layout: 'long-games',
      doors: '2026-06-05T07:00',
      clear: '2026-06-05T08:00',
    }
    const snapshot = carriedOut(hall(), book(games), book(south), book(worship))
    expect(turnIn(snapshot, 'worship')).toMatchObject({
      predecessorBookingIds: ['booking_games', 'booking_south'],
      releaseAt: at('2026-06-05T12:30'),
    })
    // 10 of the 20 chairs of the games are left in the north half, 40 of the meeting in the south half.
    expect(chairs(snapshot, 'worship', ['park', 'strike'])).toBe(50)
  })

  test('is refused when a device cannot get there from how a half leaves it', () => {
    const snapshot = hall()
    const wall = snapshot.equipment.find(({ id }) => id === 'equipment_wall')!
    if (wall.control.kind !== 'states') throw new Error('the wall has states')
    const stuck = {
      ...wall,
      control: { ...wall.control, transitions: wall.control.transitions.filter(({ to }) => to === 'closed') },
    }
    const jammed = carriedOut(
      snapshot,
      setUp({ kind: 'equipment', before: wall, after: stuck, retire: false }),
      book(south),
    )
    const { changes, reasons } = decide(jammed, [book(worship)])
    expect(changes).toBeNull()
    expect(reasons[0]).toMatchObject({
      code: 'state-unreachable',
      equipmentId: 'equipment_wall',
      from: 'closed',
      to: 'open',
      overridable: false,
    })
  })
})

describe('a half after the whole room', () => {
  const half = { ...south, doors: '2026-06-05T19:00', clear: '2026-06-05T21:00' }
  const turned = () => carriedOut(hall(), book(worship), book(half))

  test('is turned from its share of what stood in the whole', () => {
    expect(turnIn(turned(), 'south')).toMatchObject({
      predecessorBookingIds: ['booking_worship'],
      releaseAt: at('2026-06-05T17:00'),
    })
    expect(chairs(turned(), 'south', ['park', 'strike'])).toBeGreaterThanOrEqual(75 - 40)
  })

  test('has the wall closed while its floor is clear', () => {
    const [closed, ...more] = wallTasks(turned(), 'south')
    expect(more).toEqual([])
    const { tasks } = planIn(turned(), 'south')
    for (const { kind, startsAt, endsAt } of tasks) {
      if (kind === 'park' || kind === 'strike') expect(endsAt).toBeLessThanOrEqual(closed!.startsAt)
      if (kind === 'set') expect(startsAt).toBeGreaterThanOrEqual(closed!.endsAt)
    }
  })

  test('is not turned for the wall again when it was closed before', () => {
    const again = { ...half, name: 'again', doors: '2026-06-06T09:00', clear: '2026-06-06T10:00' }
    expect(wallTasks(carriedOut(turned(), book(again)), 'again')).toEqual([])
  })
})

describe('whole and halves', () => {
  test('keep each other out, while the two halves do not', () => {
    const during = { ...worship, doors: '2026-06-05T11:00', clear: '2026-06-05T13:00' }
    expect(refusalOf(carriedOut(hall(), book(south)), book(during))).toContain('room-occupied')
    const whole = carriedOut(hall(), book(during))
    expect(refusalOf(whole, book(south))).toContain('room-occupied')
    expect(refusalOf(whole, book(north))).toContain('room-occupied')
    carriedOut(hall(), book(north), book(south))
  })

  test('share one crew: what turns one half at a time is not there for the other', () => {
    const snapshot = carriedOut(hall({ hands: 2 }), book(north), book(south))
    for (const task of planIn(snapshot, 'north').tasks) {
      for (const other of planIn(snapshot, 'south').tasks) {
        if (task.startsAt >= other.endsAt || other.startsAt >= task.endsAt) continue
        for (const laneId of task.laneIds) expect(other.laneIds).not.toContain(laneId)
      }
    }
  })

  test('touch each other by a change: a half moved away frees the whole room for who comes sooner', () => {
    const snapshot = carriedOut(hall(), book(north), book(south), book(worship))
    const moved = aBooking({ ...south, doors: '2026-06-05T18:30', clear: '2026-06-05T20:00', version: 2 })
    const after = carriedOut(snapshot, { kind: 'change', booking: moved })
    expect(turnIn(after, 'worship')).toMatchObject({
      predecessorBookingIds: ['booking_north'],
      releaseAt: at('2026-06-05T12:00'),
    })
    expect(turnIn(after, 'south')).toMatchObject({
      predecessorBookingIds: ['booking_worship'],
      releaseAt: at('2026-06-05T17:00'),
    })
  })

  test('both follow a booking of the whole room: the answer names the turn after that is due first', () => {
    const later = (one: typeof south, doors: string, clear: string) => book({ ...one, doors, clear })
    const snapshot = carriedOut(
      hall(),
      later(north, '2026-06-05T20:00', '2026-06-05T21:00'),
      later(south, '2026-06-05T19:00', '2026-06-05T21:00'),
    )
    const asked = book(worship)
    const { after } = decide(snapshot, [asked])
    expect(after?.turnId).toBe('turn_south')
    // Told again of the same booking, with nothing new in it, the answer is the same.
    const booked = carriedOut(snapshot, asked)
    const { booking } = asked.kind === 'book' ? asked : { booking: undefined }
    const renamed: Operation = { kind: 'change', booking: { ...booking!, title: 'Vespers', version: 2 } }
    for (const turns of [booked.turns, [...booked.turns].reverse()])
      expect(decide({ ...booked, turns }, [renamed]).after?.turnId).toBe('turn_south')
  })
})
