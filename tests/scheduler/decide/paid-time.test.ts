/** Paid hands cost: with a cap their time in a turn is counted, and who costs nothing is asked first. */
import { describe, expect, test } from 'vitest'
import type { LaneId } from '../../../src/domain/ids.ts'
import { PolicyId } from '../../../src/domain/ids.ts'
import type { PlannedTask } from '../../../src/domain/plan.ts'
import {
  aCrew,
  asked,
  aUse,
  decided,
  duty,
  handsAt,
  on5th,
  planOf,
  reasonIn,
  sentences,
  turnOf,
  withBookings,
} from './a-crew.ts'
import { setUp } from './a-hall.ts'

const paid = (hands: number) => ({ ...duty('paid', hands, '09:00', '14:00'), paid: true })
const unpaid = (hands: number) => duty('unpaid', hands, '09:00', '14:00')
const aHallWith = (shifts: readonly unknown[], paidPersonSecondsMost: number | null) =>
  aCrew({ shifts, policy: { paidPersonSecondsMost } })
const supper = (doors: string) => aUse('supper', 'side-supper', doors, '14:00')

const isPaid = (laneId: LaneId) => laneId.startsWith('shift_paid#')
const paidSeconds = (tasks: readonly PlannedTask[]) =>
  tasks.reduce(
    (sum, { laneIds, startsAt, endsAt }) =>
      sum + laneIds.filter(isPaid).length * ((endsAt - startsAt) / 1000),
    0,
  )
const paidIn = (...args: Parameters<typeof planOf>) => paidSeconds(planOf(...args).tasks)

describe('a cap on paid time', () => {
  test('is not used up where those who cost nothing are ready in time', () => {
    // Two hands take 57 min, and there are three hours.
    const snapshot = withBookings(aHallWith([paid(2), unpaid(2)], 0), supper('12:00'))
    expect(turnOf(snapshot, 'supper').judgement.verdict).toBe('fits')
    expect(paidIn(snapshot, 'supper')).toBe(0)
  })

  test('is kept: paid hands help no longer than it allows', () => {
    const capped = aHallWith([paid(2), unpaid(2)], 1200)
    const snapshot = withBookings(capped, supper('12:00'))
    expect(paidIn(snapshot, 'supper')).toBeLessThanOrEqual(1200)
    // Where there is no cap they work throughout.
    const uncapped = withBookings(aHallWith([paid(2), unpaid(2)], null), supper('12:00'))
    expect(paidIn(uncapped, 'supper')).toBeGreaterThan(1200)
  })

  test('lets a turn be ready sooner by as much of them as it allows', () => {
    const readyAt = (seconds: number) =>
      planOf(withBookings(aHallWith([paid(2), unpaid(2)], seconds), supper('12:00')), 'supper').readyAt
    expect(readyAt(3600)).toBeLessThan(readyAt(0))
  })

  test('that is wide takes paid hands only while nobody is idle who costs nothing', () => {
    const meeting = aUse('meeting', 'side-meeting', '12:00', '14:00')
    const { tasks } = planOf(withBookings(aHallWith([paid(2), unpaid(4)], 100_000), meeting), 'meeting')
    const costly = tasks.filter(({ laneIds }) => laneIds.some(isPaid))
    expect(costly.length).toBeGreaterThan(0)
    for (const { startsAt } of costly) {
      const atWork = tasks.filter((one) => one.startsAt <= startsAt && startsAt < one.endsAt)
      expect(handsAt(atWork).filter((laneId) => !isPaid(laneId))).toHaveLength(4)
    }
  })

  test('that is too low has the request refused, and says what it would take', () => {
    const { decision } = decided(aHallWith([paid(2)], 1200), asked(supper('12:00')))
    expect(decision.changes).toBeNull()
    const reason = reasonIn(decision, 'paid-hours-short')
    expect(decision.reasons).toEqual([reason])
    // Without a cap they take just that.
    const alone = withBookings(aHallWith([paid(2)], null), supper('12:00'))
    expect(reason).toMatchObject({
      paidSecondsMost: 1200,
      paidSecondsNeeded: paidIn(alone, 'supper'),
      unpaidHandsNeeded: 1,
      handsOnDuty: 2,
      overridable: true,
    })
    expect(reason.message).toBe(
      'The turn before it, to side supper, needs about 108 min of paid work to be ready by doors; the policy pays for 20 min in one turn. 1 more hand that is not paid would do it too.',
    )
  })

  test('that just suffices is accepted, and a little less is not', () => {
    const alone = withBookings(aHallWith([paid(2)], null), supper('12:00'))
    const used = paidIn(alone, 'supper')
    expect(decided(aHallWith([paid(2)], used), asked(supper('12:00'))).decision.verdict).toBe('fits')
    const least = used - 1800
    expect(decided(aHallWith([paid(2)], least), asked(supper('12:00'))).decision.changes).toBeNull()
  })

  test('counts the paid hands that usher at the event too', () => {
    const crewDemands = [{ what: 'ushers', hands: 2, fromAt: on5th('12:00'), toAt: on5th('13:00') }]
    const withUshers = aUse('meeting', 'side-meeting', '12:00', '14:00', { crewDemands })
    const hall = (seconds: number) => aHallWith([duty('unpaid', 2, '09:00', '12:00'), paid(2)], seconds)
    expect(decided(hall(7200), asked(withUshers)).decision.verdict).toBe('fits')
    const { decision } = decided(hall(7199), asked(withUshers))
    expect(decision.reasons.map(({ code, message }) => [code, message])).toEqual([
      [
        'crew-demand-short',
        'The event “meeting” needs 2 hands (ushers) from Fri 5 Jun 12:00 to Fri 5 Jun 13:00: the policy pays for no more than 119 min in one turn.',
      ],
    ])
  })

  test('that leaves too little for one hand more is met by one that is not paid, and says so', () => {
    // Two are too few in an hour, and nobody of those who are paid may help.
    const hall = aHallWith([unpaid(2), paid(1)], 0)
    const { decision } = decided(hall, asked(aUse('supper', 'side-supper', '09:50', '14:00')))
    expect(sentences(decision)).toEqual([
      'The turn before it, to side supper, needs about 57 min with the 3 hands on duty; there are 50 min: 7 min short. 4 hands would do it: 1 more, not paid.',
    ])
  })

  test('is not what is short where not even all of them paid throughout would do', () => {
    const { decision } = decided(aHallWith([paid(2)], 1200), asked(supper('09:20')))
    expect(decision.reasons.map(({ code }) => code)).toEqual(['hands-short'])
  })

  test('that a new policy brings is felt by the turns that stand: they are planned anew under it', () => {
    const before = withBookings(aHallWith([paid(2), unpaid(2)], null), supper('12:00'))
    expect(paidIn(before, 'supper')).toBeGreaterThan(0)
    const after = { ...before.policy, id: PolicyId.parse('policy_capped'), paidPersonSecondsMost: 0 }
    const { snapshot } = decided(before, setUp({ kind: 'policy', before: null, after, retire: false }))
    expect(turnOf(snapshot, 'supper').status).toBe('ready')
    expect(paidIn(snapshot, 'supper')).toBe(0)
  })
})
