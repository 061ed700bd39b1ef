/** Early, or just in time: what a policy says for gaps of a certain length. */
import { describe, expect, test } from 'vitest'
import { PolicyId } from '../../../src/domain/ids.ts'
import {
  aCrew,
  aUse,
  decided,
  during,
  duty,
  handsAt,
  on5th,
  planOf,
  turnOf,
  withBookings,
  workIn,
} from './a-crew.ts'
import { setUp } from './a-hall.ts'

/** Two hands are there all day; what is to spare is ten minutes. */
const aHallWith = (hours: number | null, hands = 2) =>
  aCrew({
    shifts: [duty('day', hands, '08:00', '20:00')],
    slackWantedSeconds: 600,
    policy: { justInTimeFromGapSeconds: hours === null ? null : hours * 3600 },
  })
/** The side room is free from ten on. */
const first = aUse('first', 'side-meeting', '09:00', '10:00')
const supper = (doors: string, beside: object = {}) => aUse('supper', 'side-supper', doors, '20:00', beside)

describe('a gap as long as the policy says', () => {
  test('is turned as late as leaves the time to spare that is wanted', () => {
    const snapshot = withBookings(aHallWith(4), first, supper('16:00'))
    const { startsAt, readyAt } = planOf(snapshot, 'supper')
    expect(readyAt).toBe(on5th('15:50'))
    expect(startsAt).toBeGreaterThan(on5th('14:00'))
    expect(turnOf(snapshot, 'supper').judgement).toMatchObject({ verdict: 'fits', slackSeconds: 600 })
  })

  test('is just as long as that when it is not a second shorter', () => {
    expect(planOf(withBookings(aHallWith(4), first, supper('14:00')), 'supper').readyAt).toBe(on5th('13:50'))
    const shorter = planOf(withBookings(aHallWith(4), first, supper('13:59')), 'supper')
    expect(shorter.startsAt).toBe(on5th('10:00'))
  })

  test('takes no longer than the same turn at once, and no other hands', () => {
    const early = planOf(withBookings(aHallWith(null), first, supper('16:00')), 'supper')
    const late = planOf(withBookings(aHallWith(4), first, supper('16:00')), 'supper')
    expect(late.readyAt - late.startsAt).toBeLessThanOrEqual(early.readyAt - early.startsAt)
    expect(handsAt(late.tasks)).toEqual(handsAt(early.tasks))
  })

  test('still has its milestones in time, and only the rest late', () => {
    const milestones = [{ milestone: 'tables-up', byAt: on5th('12:00') }]
    const plan = planOf(withBookings(aHallWith(4), first, supper('16:00', { milestones })), 'supper')
    const tables = plan.tasks.filter(
      ({ kind, furnishingId }) => kind === 'set' && furnishingId === 'furnishing_round-table',
    )
    expect(Math.max(...tables.map(({ endsAt }) => endsAt))).toBe(on5th('12:00'))
    expect(plan.readyAt).toBe(on5th('15:50'))
  })

  test('is begun early enough where the crew goes home before doors', () => {
    const hall = aCrew({
      shifts: [duty('day', 2, '08:00', '14:00')],
      policy: { justInTimeFromGapSeconds: 4 * 3600 },
    })
    const { readyAt } = planOf(withBookings(hall, first, supper('19:00')), 'supper')
    expect(readyAt).toBe(on5th('14:00'))
  })

  test('leaves the crew to what is asked for in the meantime', () => {
    const snapshot = withBookings(
      aHallWith(4),
      first,
      supper('16:00'),
      aUse('meeting', 'south-meeting', '11:00', '12:00'),
    )
    expect(during(workIn(planOf(snapshot, 'supper')), on5th('10:00'), on5th('14:00'))).toEqual([])
    expect(turnOf(snapshot, 'meeting').judgement.verdict).toBe('fits')
  })
})

describe('a gap that is shorter, or a policy that says nothing', () => {
  test('is turned at once', () => {
    expect(planOf(withBookings(aHallWith(7), first, supper('16:00')), 'supper').startsAt).toBe(on5th('10:00'))
    expect(planOf(withBookings(aHallWith(null), first, supper('16:00')), 'supper').startsAt).toBe(
      on5th('10:00'),
    )
  })
})

describe('when the policy changes', () => {
  test('the plans that stand are moved late, with the same work in the same hands', () => {
    const before = withBookings(aHallWith(null), first, supper('16:00'))
    const after = { ...before.policy, id: PolicyId.parse('policy_late'), justInTimeFromGapSeconds: 4 * 3600 }
    const { snapshot } = decided(before, setUp({ kind: 'policy', before: null, after, retire: false }))
    const late = planOf(snapshot, 'supper')
    expect(late.readyAt).toBe(on5th('15:50'))
    expect(late.tasks.map(({ key, hands }) => [key, hands]).toSorted()).toEqual(
      planOf(before, 'supper')
        .tasks.map(({ key, hands }) => [key, hands])
        .toSorted(),
    )
  })

  test('and nothing else about a turn has, its plan is left as people have read it', () => {
    const before = withBookings(aHallWith(4), first, supper('16:00'))
    const { snapshot } = decided(before, {
      kind: 'judge',
      span: { fromAt: on5th('00:00'), toAt: on5th('23:00') },
      judgedThroughAt: null,
    })
    expect(planOf(snapshot, 'supper')).toEqual(planOf(before, 'supper'))
  })
})
