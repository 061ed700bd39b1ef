/** Hands that nobody has promised: counted on only where the others do not suffice, and never said to fit. */
import { describe, expect, test } from 'vitest'
import type { LaneId } from '../../../src/domain/ids.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
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
  turnOf,
  withBookings,
} from './a-crew.ts'
import { addShift, at } from './a-hall.ts'

/** The tables take two, and this is how many are on duty. */
const aHallWith = (crew: number, planningHands: number) =>
  aCrew({ shifts: crew === 0 ? [] : [duty('day', crew, '09:00', '14:00')], policy: { planningHands } })
const supper = (doors = '12:00') => aUse('supper', 'side-supper', doors, '14:00')
const isAssumed = (laneId: LaneId) => laneId.startsWith('assumed#')
const assumedIn = (snapshot: SiteSnapshot, name: string) =>
  handsAt(planOf(snapshot, name).tasks).filter(isAssumed)
const oneMore = addShift(Shift.parse({ ...duty('more', 1, '09:00', '14:00'), siteId: 'site_test' }))

describe('hands that nobody has promised', () => {
  test('are not counted on where the policy does not count on them', () => {
    const { decision } = decided(aHallWith(1, 0), asked(supper()))
    expect(decision.changes).toBeNull()
    expect(decision.reasons.map(({ code }) => code)).toEqual(['hands-short'])
  })

  test('are not counted on where those on duty suffice', () => {
    const snapshot = withBookings(aHallWith(2, 4), supper())
    expect(turnOf(snapshot, 'supper').judgement).toMatchObject({ verdict: 'fits', hands: { assumed: 0 } })
    expect(assumedIn(snapshot, 'supper')).toEqual([])
  })

  test('make a turn tight that could not be done without them, and the answer says how many and when', () => {
    const { decision, snapshot } = decided(aHallWith(1, 4), asked(supper()))
    expect(decision.verdict).toBe('tight')
    const plan = planOf(snapshot, 'supper')
    const assumed = plan.tasks.filter(({ laneIds }) => laneIds.some(isAssumed))
    expect(decision.reasons).toEqual([
      {
        code: 'hands-assumed',
        turnId: 'turn_supper',
        side: 'before',
        handsAssumed: 1,
        fromAt: Math.min(...assumed.map(({ startsAt }) => startsAt)),
        toAt: Math.max(...assumed.map(({ endsAt }) => endsAt)),
        overridable: true,
        message: expect.stringMatching(
          /^The turn before it counts on 1 hand that nobody has promised, from Fri 5 Jun \d\d:\d\d to Fri 5 Jun \d\d:\d\d\.$/,
        ),
      },
    ])
    expect(decision.before!.hands).toMatchObject({ onDuty: 1, assumed: 1 })
  })

  test('are on the watch list from the moment they are counted on', () => {
    const { snapshot } = decided(aHallWith(1, 4), asked(supper()))
    const turn = turnOf(snapshot, 'supper')
    expect(turn.status).toBe('ready')
    expect(turn.judgement.warnedSince).toBe(at('2026-06-01T09:00'))
  })

  test('are as few as will do, and never more than the policy allows', () => {
    const doors = '09:50'
    const needed = [1, 2, 3, 4, 5, 6].find(
      (hands) => decided(aHallWith(1 + hands, 0), asked(supper(doors))).decision.changes !== null,
    )
    expect(needed).toBeGreaterThan(1)
    // Those of the crew come at nine, whoever is assumed may be there before.
    const snapshot = withBookings(aHallWith(1, 6), supper(doors))
    const counted = turnOf(snapshot, 'supper').judgement.hands.assumed
    expect(counted).toBeLessThanOrEqual(needed!)
    expect(decided(aHallWith(1, counted), asked(supper(doors))).decision.verdict).toBe('tight')
    expect(decided(aHallWith(1, counted - 1), asked(supper(doors))).decision.changes).toBeNull()
  })

  test('are not counted on twice: two rooms at one time have no more of them than the policy says', () => {
    const twoRooms = withBookings(aHallWith(1, 2), supper(), aUse('games', 'long-games', '12:00', '14:00'))
    const held = ['supper', 'games'].flatMap((name) =>
      planOf(twoRooms, name).tasks.flatMap(({ laneIds, startsAt, endsAt }) =>
        laneIds.filter(isAssumed).map((laneId) => ({ laneId, startsAt, endsAt })),
      ),
    )
    expect(held.length).toBeGreaterThan(0)
    for (const { startsAt } of held) {
      const now = held.filter((one) => one.startsAt <= startsAt && startsAt < one.endsAt)
      expect(new Set(now.map(({ laneId }) => laneId)).size).toBe(now.length)
      expect(now.length).toBeLessThanOrEqual(2)
    }
  })

  test('are adults without special skills: a skill that nobody has stays missing', () => {
    const hall = aCrew({
      shifts: [duty('day', 4, '09:00', '14:00')],
      soundSkill: 'sound',
      policy: { planningHands: 6 },
    })
    const { decision } = decided(hall, asked(aUse('banquet', 'long-banquet', '13:30', '14:00')))
    expect(decision.changes).toBeNull()
    expect(reasonIn(decision, 'skill-missing').skill).toBe('sound')
  })

  test('usher too, where the event itself asks for more than are there', () => {
    const crewDemands = [{ what: 'ushers', hands: 2, fromAt: on5th('12:00'), toAt: on5th('13:00') }]
    const meeting = aUse('meeting', 'side-meeting', '12:00', '14:00', { crewDemands })
    const { decision, snapshot } = decided(aHallWith(1, 4), asked(meeting))
    expect(decision.verdict).toBe('tight')
    expect(reasonIn(decision, 'hands-assumed')).toMatchObject({ handsAssumed: 1, toAt: on5th('13:00') })
    const [ushers] = planOf(snapshot, 'meeting').tasks.filter(({ kind }) => kind === 'duty')
    expect(ushers!.laneIds.toSorted()).toEqual(['assumed#1', 'shift_day#1'])
    expect(turnOf(snapshot, 'meeting').judgement.hands.assumed).toBe(1)
  })

  test('are not looked for days before the others: they begin no earlier than the room asks for', () => {
    const snapshot = withBookings(aHallWith(1, 4), supper())
    const { startsAt, readyAt } = planOf(snapshot, 'supper')
    expect(readyAt).toBe(on5th('09:46:30'))
    expect(startsAt).toBeGreaterThan(on5th('08:30'))
  })
})

describe('when somebody has promised to come', () => {
  test('the turn counts on nobody else any more, fits, and leaves the watch list', () => {
    const before = withBookings(aHallWith(1, 4), supper())
    const { decision, snapshot } = decided(before, oneMore)
    expect(decision.verdict).toBe('fits')
    expect(decision.affected).toEqual([
      { turnId: 'turn_supper', bookingId: 'booking_supper', verdict: 'fits', message: null },
    ])
    expect(turnOf(snapshot, 'supper').judgement).toMatchObject({
      verdict: 'fits',
      reasons: [],
      hands: { assumed: 0, onDuty: 2 },
      warnedSince: null,
    })
    expect(assumedIn(snapshot, 'supper')).toEqual([])
  })

  test('and who had promised stays away, the turn counts on somebody, and is watched since then', () => {
    const before = { ...withBookings(aHallWith(2, 4), supper()), now: at('2026-06-03T10:00') }
    const [shift] = before.shifts
    const { decision, snapshot } = decided(before, {
      kind: 'set-up',
      writes: [
        {
          kind: 'shift',
          before: shift!,
          after: { ...shift!, crew: { kind: 'hands', hands: 1, skills: [], adults: true } },
          retire: false,
        },
      ],
      span: { fromAt: at('2026-06-01T00:00'), toAt: at('2026-06-30T00:00') },
      restFromAt: null,
    })
    expect(decision.verdict).toBe('tight')
    expect(turnOf(snapshot, 'supper').judgement).toMatchObject({
      verdict: 'tight',
      hands: { assumed: 1 },
      warnedSince: at('2026-06-03T10:00'),
    })
  })

  test('a turn that is judged again stays on the watch list since when it came there', () => {
    const before = { ...withBookings(aHallWith(1, 4), supper()), now: at('2026-06-03T10:00') }
    const { snapshot } = decided(before, {
      kind: 'judge',
      span: { fromAt: at('2026-06-01T00:00'), toAt: at('2026-06-30T00:00') },
      judgedThroughAt: null,
    })
    expect(turnOf(snapshot, 'supper').judgement.warnedSince).toBe(at('2026-06-01T09:00'))
  })
})
