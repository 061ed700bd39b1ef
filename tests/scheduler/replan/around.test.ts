/** Other turns, the event itself, and hands nobody has promised, when a turn is planned from now. */
import { describe, expect, test } from 'vitest'
import { LaneId, RoomId, TurnId } from '../../../src/domain/ids.ts'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import { aDinnerPlanned } from './a-dinner-planned.ts'
import {
  evening,
  fourTasks,
  lane,
  NOTHING_TOLD,
  type PartDone,
  partDone,
  plannedTask,
  replannedAt,
  shown,
  told,
} from './a-part-done-turn.ts'

/** Another turn that counts on some of the same hands, in the side room or in the same one. */
function beside(part: PartDone, tasks: readonly PlannedTask[], room = 'room_side'): PartDone {
  const { plan } = part.turn
  if (!plan) throw new Error('the turn has a plan')
  const other = {
    ...part.turn,
    id: TurnId.parse('turn_other'),
    roomId: RoomId.parse(room),
    plan: { ...plan, tasks: [...tasks] },
  }
  return { ...part, snapshot: { ...part.snapshot, turns: [part.turn, other] } }
}

describe('beside another turn', () => {
  test('a hand that is wanted there is not counted on, the way there and back included', () => {
    const there = plannedTask({ key: 'there', hands: [1], startsAt: '21:12', minutes: 4 })
    const replanned = replannedAt(
      beside(partDone(), [there]),
      '21:10',
      told({ done: ['clear'], running: { clean: 5 } }),
    )
    // Two minutes to the side room and back: hand 1 is here again at 21:18.
    expect(shown(replanned)).toEqual(['clean 21:10–21:15 2', 'mark 21:18–21:28 1', 'check 21:28–21:38 1+2'])
    expect(replanned.warnings).toEqual([])
  })

  test('who is still at work here when wanted there is told of, and goes there after', () => {
    const there = plannedTask({ key: 'there', hands: [2], startsAt: '21:20', minutes: 10 })
    const replanned = replannedAt(
      beside(partDone(), [there]),
      '21:10',
      told({ done: ['clear'], running: { clean: 12 } }),
    )
    expect(replanned.warnings).toEqual([
      {
        code: 'wanted-elsewhere',
        taskKey: 'clean',
        laneIds: [lane(2)],
        message: 'Who is at “Do clean” is counted on for “Do there” before that is over.',
      },
    ])
    const check = replanned.plan?.tasks.find(({ key }) => key === 'check')
    expect(check?.startsAt).toBeGreaterThanOrEqual(evening('21:32'))
  })

  test('a trolley that is in use where something runs is not free for the rest', () => {
    const uses = [{ resource: 'trolley:chairs', amount: 1 }]
    const tasks = fourTasks().map((task) =>
      task.key === 'clean' || task.key === 'mark' ? { ...task, uses } : task,
    )
    const { snapshot, turn } = partDone(tasks)
    if (!turn.plan) throw new Error('the turn has a plan')
    const resources = [{ key: 'trolley:chairs', label: 'Trolley', capacity: 1 }]
    const withTrolley = { ...turn, plan: { ...turn.plan, resources } }
    const part = { snapshot: { ...snapshot, turns: [withTrolley] }, turn: withTrolley }
    expect(shown(replannedAt(part, '21:10', told({ done: ['clear'], running: { clean: 5 } })))).toEqual([
      'clean 21:10–21:15 2',
      'mark 21:15–21:25 1',
      'check 21:25–21:35 1+2',
    ])
  })
})

describe('at the event itself', () => {
  const desk = plannedTask({
    key: 'duty/1',
    hands: [2],
    startsAt: '21:15',
    minutes: 60,
    parts: { kind: 'duty', text: 'At the event in Long Room: desk.' },
  })

  test('who is promised to it is not free for the turn', () => {
    const replanned = replannedAt(
      partDone([...fourTasks(), desk]),
      '21:15',
      told({ done: ['clear', 'clean'] }),
    )
    expect(shown(replanned)).toEqual(['mark 21:15–21:25 1', 'check 21:25–21:45 1'])
  })

  test('a hand that is missing then is asked for', () => {
    const { warnings } = replannedAt(
      partDone([...fourTasks(), desk]),
      '21:10',
      told({ done: ['clear', 'clean'], missing: [{ laneId: lane(2), fromAt: evening('21:20') }] }),
    )
    expect(warnings).toEqual([
      {
        code: 'missing-at-event',
        taskKey: 'duty/1',
        laneIds: [lane(2)],
        message: '1 hand short for “At the event in Long Room: desk”: find somebody else.',
      },
    ])
  })
})

describe('a plan that counts on hands nobody has promised', () => {
  const assumed = LaneId.parse('assumed#1')
  const tasks = fourTasks().map((task) => (task.key === 'mark' ? { ...task, laneIds: [assumed] } : task))

  test('goes on counting on them, and asks to be told if they have not come', () => {
    const replanned = replannedAt(partDone(tasks), '20:50', NOTHING_TOLD)
    expect(replanned.way).toBe('as-planned')
    expect(replanned.warnings).toEqual([
      {
        code: 'hands-assumed',
        taskKey: null,
        laneIds: [assumed],
        message: 'It counts on 1 hand nobody has promised: say that assumed#1 is missing if nobody has come.',
      },
    ])
  })

  test('goes over to others when they are said to be missing, and nothing is assumed any more', () => {
    const replanned = replannedAt(partDone(tasks), '20:50', told({ missing: [{ laneId: assumed }] }))
    expect(replanned.plan?.tasks.find(({ key }) => key === 'mark')?.laneIds).toEqual([lane(1)])
    expect(replanned.warnings).toEqual([])
  })
})

describe('what somebody waits for before doors', () => {
  test('and gets later than wanted is told', () => {
    const dinner = aDinnerPlanned()
    const byAt = evening('21:25')
    const bookings = dinner.snapshot.bookings.map((booking) =>
      booking.id === dinner.turn.bookingId
        ? { ...booking, milestones: [{ milestone: 'tables-up' as const, byAt }] }
        : booking,
    )
    const part = { ...dinner, snapshot: { ...dinner.snapshot, bookings } }
    const { warnings, plan } = replannedAt(part, '21:10', told({ done: ['briefing'] }))
    const upAt = Math.max(
      ...(plan?.tasks ?? [])
        .filter(({ key }) => key.startsWith('set/furnishing_round-table'))
        .map(({ endsAt }) => endsAt),
    )
    const minutes = Math.ceil((upAt - evening('21:00')) / 60_000)
    expect(minutes).toBeGreaterThan(25)
    expect(minutes).toBeLessThan(60)
    expect(warnings).toEqual([
      {
        code: 'milestone-late',
        taskKey: null,
        laneIds: [],
        message: `The tables are up at 21:${minutes}, ${minutes - 25} min later than wanted, at 21:25: tell who waits for it.`,
      },
    ])
  })
})
