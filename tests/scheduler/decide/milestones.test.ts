/** What must be there before doors, or soon after clear: tables for the caterer, a clear floor for the dancers. */
import { describe, expect, test } from 'vitest'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import type { Milestone } from '../../../src/domain/task.ts'
import { operationProblems } from '../../../src/scheduler/decide/index.ts'
import {
  aCrew,
  asked,
  aUse,
  changed,
  decided,
  duty,
  on5th,
  planOf,
  reasonIn,
  turnOf,
  withBookings,
} from './a-crew.ts'

const by = (milestone: Milestone, time: string) => ({ milestones: [{ milestone, byAt: on5th(time) }] })
const morningCrew = aCrew({ shifts: [duty('morning', 2, '09:00', '15:00')] })
const supper = (beside: object) => aUse('supper', 'side-supper', '12:00', '14:00', beside)

const tablesUpAt = (plan: ReturnType<typeof planOf>): number =>
  Math.max(
    ...plan.tasks
      .filter(({ kind, furnishingId }) => kind === 'set' && furnishingId === 'furnishing_round-table')
      .map(({ endsAt }) => endsAt),
  )

describe('a milestone before doors', () => {
  test('is reached when there is a plan that reaches it', () => {
    const snapshot = withBookings(morningCrew, supper(by('tables-up', '09:30')))
    expect(turnOf(snapshot, 'supper').judgement.verdict).toBe('fits')
    expect(tablesUpAt(planOf(snapshot, 'supper'))).toBeLessThanOrEqual(on5th('09:30'))
  })

  test('makes the plan do first what it waits for', () => {
    const banquet = (beside: object) =>
      withBookings(morningCrew, aUse('banquet', 'long-banquet', '14:00', '15:00', beside))
    expect(tablesUpAt(planOf(banquet({}), 'banquet'))).toBeGreaterThan(on5th('09:45'))
    const wanted = planOf(banquet(by('tables-up', '09:45')), 'banquet')
    expect(tablesUpAt(wanted)).toBeLessThanOrEqual(on5th('09:45'))
  })

  test('that no plan can reach is said, with when it would be reached, and that this is proven', () => {
    const { decision } = decided(morningCrew, asked(supper(by('tables-up', '09:10'))))
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.changes).toBeNull()
    expect(decision.reasons).toEqual([
      {
        code: 'milestone-missed',
        turnId: 'turn_supper',
        side: 'before',
        milestone: 'tables-up',
        byAt: on5th('09:10'),
        reachedAt: on5th('09:26'),
        proof: 'bound',
        bookingId: null,
        overridable: true,
        message:
          'In the turn before it, tables would be up at Fri 5 Jun 09:26, 16 min late: they are to be up by Fri 5 Jun 09:10. No plan can be in time.',
      },
    ])
  })

  test('that is missed says nothing against the room: it is ready by doors all the same', () => {
    const { decision } = decided(morningCrew, asked(supper(by('tables-up', '09:10'))))
    expect(decision.before!.readyAt!).toBeLessThanOrEqual(on5th('12:00'))
    expect(decision.before!.slackSeconds!).toBeGreaterThan(0)
  })

  test('may be one of several: each is held, and each that is missed is said', () => {
    const two = {
      milestones: [
        { milestone: 'tables-up', byAt: on5th('09:30') },
        { milestone: 'seats-up', byAt: on5th('10:00') },
      ],
    }
    const plan = planOf(withBookings(morningCrew, supper(two)), 'supper')
    const chairs = plan.tasks.filter(({ furnishingId }) => furnishingId === 'furnishing_chair')
    expect(Math.max(...chairs.map(({ endsAt }) => endsAt))).toBeLessThanOrEqual(on5th('10:00'))
    const tooSoon = { milestones: two.milestones.map((one) => ({ ...one, byAt: on5th('09:10') })) }
    const { decision } = decided(morningCrew, asked(supper(tooSoon)))
    expect(decision.reasons.map((reason) => 'milestone' in reason && reason.milestone)).toEqual([
      'seats-up',
      'tables-up',
    ])
  })

  test('that nothing in the turn touches is reached', () => {
    const meeting = aUse('meeting', 'side-meeting', '12:00', '14:00', by('tables-up', '09:01'))
    expect(decided(morningCrew, asked(meeting)).decision.verdict).toBe('fits')
  })

  test('that stands already when the guests before go is reached, however early it was wanted', () => {
    const hall = withBookings(morningCrew, aUse('first', 'side-meeting', '10:00', '13:00'))
    const second = aUse('second', 'side-meeting', '14:00', '15:00', by('seats-up', '12:30'))
    const { decision } = decided(hall, asked(second))
    expect(decision.reasons).toEqual([])
  })

  test('of which the time passes makes no plan worse that has reached it', () => {
    const before = withBookings(morningCrew, supper(by('tables-up', '09:30')))
    const { snapshot } = decided(
      { ...before, now: on5th('09:40') },
      changed({ ...supper(by('tables-up', '09:30')), title: 'Late supper' }),
    )
    expect(planOf(snapshot, 'supper')).toEqual(planOf(before, 'supper'))
  })

  test('is felt when it is added: the plan that reaches it is kept, one that does not is made anew', () => {
    const before = withBookings(morningCrew, supper({}))
    const reached = decided(before, changed(supper(by('tables-up', '09:30'))))
    expect(reached.decision.verdict).toBe('fits')
    expect(planOf(reached.snapshot, 'supper').tasks).toEqual(planOf(before, 'supper').tasks)
    expect(decided(before, changed(supper(by('tables-up', '09:10')))).decision.changes).toBeNull()
  })
})

describe('a milestone after clear', () => {
  const banquet = (beside: object) => aUse('banquet', 'long-banquet', '10:30', '13:00', beside)
  const games = aUse('games', 'long-games', '19:00', '21:00')
  const allDay = duty('day', 4, '08:00', '18:30')
  const untilClear = [duty('morning', 4, '08:00', '13:00'), duty('evening', 4, '16:00', '18:30')]

  test('binds the turn that follows', () => {
    const snapshot = withBookings(aCrew({ shifts: [allDay] }), games, banquet(by('floor-clear', '13:40')))
    const gone = planOf(snapshot, 'games').tasks.filter(({ kind }) => kind === 'strike' || kind === 'park')
    expect(gone.length).toBeGreaterThan(0)
    expect(Math.max(...gone.map(({ endsAt }) => endsAt))).toBeLessThanOrEqual(on5th('13:40'))
  })

  test('that the turn that follows cannot reach is said to who asks for that turn', () => {
    const hall = withBookings(aCrew({ shifts: untilClear }), banquet(by('floor-clear', '13:40')))
    const { decision } = decided(hall, asked(games))
    const missed = reasonIn(decision, 'milestone-missed')
    expect(missed).toMatchObject({
      turnId: 'turn_games',
      side: 'before',
      milestone: 'floor-clear',
      byAt: on5th('13:40'),
      proof: 'bound',
    })
    expect(missed.reachedAt!).toBeGreaterThan(on5th('16:00'))
  })

  test('that is added later is said as what the turn after it misses', () => {
    const hall = withBookings(aCrew({ shifts: untilClear }), banquet({}), games)
    const { decision } = decided(hall, changed(banquet(by('floor-clear', '13:40'))))
    expect(decision.changes).toBeNull()
    expect(reasonIn(decision, 'milestone-missed')).toMatchObject({ turnId: 'turn_games', side: 'after' })
    expect(decision.reasons[0]!.message).toMatch(
      /^In the turn after it, the floor would be clear at Fri 5 Jun 1[67]:\d\d, \d h \d+ min late: it is to be clear by Fri 5 Jun 13:40\. No plan can be in time\.$/,
    )
  })

  test('of which no turn follows is no order to anybody: it is not taken, and it is said what to do', () => {
    const problems = (snapshot: SiteSnapshot, ...operations: readonly Operation[]) =>
      operationProblems(snapshot, operations)
    const hall = aCrew({ shifts: untilClear })
    const wanted = banquet(by('floor-clear', '13:40'))
    expect(problems(hall, asked(wanted))).toEqual([
      {
        code: 'wrong-order',
        at: '/milestones/0/byAt',
        message:
          'nobody turns the room after it is clear at Fri 5 Jun 13:00, so nobody would do this; book first what comes next, let the policy put the room back into its home layout, or leave it out',
      },
    ])
    // Each of these is what to do.
    expect(problems(hall, asked(banquet({})))).toEqual([])
    expect(problems(withBookings(hall, games), asked(wanted))).toEqual([])
    expect(problems(hall, asked(wanted), asked(games))).toEqual([])
    const home = aCrew({
      shifts: untilClear,
      homeLayouts: { long: 'games' },
      policy: { returnHomeAfterSeconds: 7200 },
    })
    expect(problems(home, asked(wanted))).toEqual([])
    expect(problems(hall, asked(banquet(by('tables-up', '10:00'))))).toEqual([])
  })

  test('that was taken stays when nobody comes after it any more, until it is asked for anew', () => {
    const wanted = banquet(by('floor-clear', '13:40'))
    const hall = withBookings(aCrew({ shifts: [allDay] }), games, wanted)
    const { snapshot } = decided(hall, { kind: 'cancel', bookingId: games.id, versionExpected: null })
    expect(operationProblems(snapshot, [changed({ ...wanted, title: 'Late banquet' })])).toEqual([])
    const later = changed(banquet(by('floor-clear', '14:00')))
    expect(operationProblems(snapshot, [later]).map(({ at }) => at)).toEqual(['/milestones/0/byAt'])
  })

  test('that nobody is left to reach when the next booking is given up is said, with what to do', () => {
    const wanted = banquet(by('floor-clear', '13:40'))
    const hall = withBookings(aCrew({ shifts: [allDay] }), games, wanted)
    const { decision } = decided(hall, { kind: 'cancel', bookingId: games.id, versionExpected: null })
    expect(decision.changes).not.toBeNull()
    expect(decision.verdict).toBe('does-not-fit')
    expect(decision.reasons).toEqual([
      {
        code: 'milestone-missed',
        turnId: wanted.turnId,
        side: 'after',
        milestone: 'floor-clear',
        byAt: on5th('13:40'),
        reachedAt: null,
        proof: 'bound',
        bookingId: wanted.id,
        overridable: true,
        message:
          'After “banquet” the floor is to be clear by Fri 5 Jun 13:40, and nobody turns that room any more: book what comes next, let the policy put the room back into its home layout, or take the milestone out.',
      },
    ])
  })

  test('is nobody’s loss when something is given up and another booking still follows', () => {
    const wanted = banquet(by('floor-clear', '13:40'))
    const between = aUse('talk', 'long-games', '16:00', '17:00')
    const hall = withBookings(aCrew({ shifts: [allDay] }), games, wanted, between)
    const { decision } = decided(hall, { kind: 'cancel', bookingId: between.id, versionExpected: null })
    expect(decision.reasons).toEqual([])
  })

  test('that nobody reaches any more goes along with an end that is moved, and is not asked for by that', () => {
    const wanted = banquet(by('floor-clear', '13:40'))
    const hall = withBookings(aCrew({ shifts: [allDay] }), games, wanted)
    const { snapshot } = decided(hall, { kind: 'cancel', bookingId: games.id, versionExpected: null })
    const later = aUse('banquet', 'long-banquet', '10:30', '13:30', by('floor-clear', '14:10'))
    expect(operationProblems(snapshot, [changed(later)])).toEqual([])
    // While somebody came after it, moving it away from them is another matter.
    const away = { ...later, roomId: games.roomId, doorsAt: on5th('21:30'), startsAt: on5th('21:45') }
    const moved = { ...away, endsAt: on5th('22:30'), clearAt: on5th('22:45'), ...by('floor-clear', '23:25') }
    expect(operationProblems(hall, [changed(moved)]).map(({ at }) => at)).toEqual(['/milestones/0/byAt'])
  })
})
