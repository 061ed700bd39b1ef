/** Plans gone over at leisure: sooner ready or easier to follow, and never worse than what stands. */
import { describe, expect, test } from 'vitest'
import type { Instant } from '../../../src/domain/instant.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { Plan, PlannedTask } from '../../../src/domain/plan.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide } from '../../../src/scheduler/decide/index.ts'
import { aCrew, aUse, decided, duty, on5th, planOf, turnOf, withBookings } from './a-crew.ts'
import { addShift } from './a-hall.ts'

const polish = (snapshot: SiteSnapshot, ...names: readonly string[]): Operation => ({
  kind: 'polish',
  turnIds: names.map((name) => turnOf(snapshot, name).id),
})
const later = (snapshot: SiteSnapshot): SiteSnapshot => ({
  ...snapshot,
  now: (snapshot.now + 3_600_000) as Instant,
})
const polished = (snapshot: SiteSnapshot, name: string) => decided(later(snapshot), polish(snapshot, name))

/** Worked out here from the tasks alone: how often people change their work, and their company. */
function calmness({ tasks }: Plan) {
  const byLane = new Map<string, PlannedTask[]>()
  for (const task of tasks)
    for (const laneId of task.laneIds) byLane.set(laneId, [...(byLane.get(laneId) ?? []), task])
  // Briefing and walkthrough are one task to people, and so is taking pieces away or to the side; pieces of two kinds are two.
  const sameToPeople = new Map([
    ['briefing', 'walkthrough'],
    ['park', 'strike'],
  ])
  const workOf = ({ key, kind, furnishingId }: PlannedTask) => {
    const same = sameToPeople.get(kind) ?? kind
    if (kind === 'duty') return key
    return ['strike', 'set', 'restack'].includes(same) ? `${same} ${furnishingId}` : same
  }
  let changes = 0
  let zoneChanges = 0
  let stintsOver = 0
  let stintsMost = 0
  let partings = 0
  for (const [laneId, own] of byLane) {
    const pairs = own.slice(1).map((task, index) => [own[index]!, task] as const)
    const ownChanges = pairs.filter(([one, next]) => workOf(one) !== workOf(next)).length
    changes += ownChanges
    zoneChanges += pairs.filter(
      ([one, next]) => workOf(one) === workOf(next) && one.zone !== next.zone,
    ).length
    stintsMost = Math.max(stintsMost, ownChanges + 1)
    // The sixth task of somebody counts once, the seventh twice, and so on.
    for (let count = 6; count <= ownChanges + 1; count++) stintsOver += count - 5
    partings += pairs.filter(([one, next]) => {
      const company = one.laneIds.filter((other) => other !== laneId)
      return company.length > 0 && !company.some((other) => next.laneIds.includes(other))
    }).length
  }
  return { stintsOver, smoothness: { changes, zoneChanges, stintsMost, partings } }
}

const day = (hands: number) => [duty('day', hands, '08:00', '22:00')]
/** What stood before, what is to come, and how many are there for it. */
const turns = [
  ['side-supper', 'side-meeting', 3],
  ['side-meeting', 'side-supper', 2],
  ['long-games', 'long-banquet', 4],
  ['long-banquet', 'long-worship', 5],
  ['long-worship', 'long-games', 3],
] as const
const worlds = turns.map(([from, to, hands]) => ({
  name: `${from} to ${to} with ${hands} hands`,
  before: withBookings(
    aCrew({ shifts: day(hands) }),
    aUse('first', from, '11:00', '12:00'),
    aUse('next', to, '18:00', '20:00'),
  ),
}))

describe.each(worlds)('a turn from $name that is gone over', ({ before }) => {
  const { decision, snapshot } = polished(before, 'next')
  const was = planOf(before, 'next')
  const is = planOf(snapshot, 'next')

  test('is ready no later than two minutes, or three in a hundred, after the soonest that is known', () => {
    const soonest = Math.min(was.readyAt, is.readyAt - is.smoothness!.priceSeconds! * 1000)
    const allowed = Math.max(120_000, (soonest - on5th('12:00')) * 0.03)
    expect(is.readyAt - soonest).toBeLessThanOrEqual(allowed)
  })

  test('is no harder to follow than it was: fewer tasks too many, then fewer changes of task, of zone, of company', () => {
    const order = (plan: Plan) => {
      const { stintsOver, smoothness } = calmness(plan)
      const { changes, zoneChanges, partings } = smoothness
      return ((stintsOver * 1_000 + changes) * 1_000 + zoneChanges) * 1_000 + partings
    }
    expect(order(is)).toBeLessThanOrEqual(order(was))
  })

  test('says how easily it is followed, and when it was gone over', () => {
    expect(was.smoothness).toEqual({ ...calmness(was).smoothness, priceSeconds: null })
    expect(is.smoothness).toMatchObject(calmness(is).smoothness)
    expect(is.smoothness!.priceSeconds).toBeGreaterThanOrEqual(0)
    expect(turnOf(snapshot, 'next').judgement.polishedAt).toBe(before.now + 3_600_000)
    expect(decision.verdict).toBe('fits')
  })

  test('is the same work: nothing is left out and nothing is added', () => {
    const keys = (plan: Plan) => plan.tasks.map(({ key }) => key).toSorted()
    expect(keys(is)).toEqual(keys(was))
  })

  test('stays as it is when it is gone over again: only when that was is news', () => {
    const again = polished(snapshot, 'next').snapshot
    expect(planOf(again, 'next')).toEqual(is)
    const { polishedAt, ...judgement } = turnOf(again, 'next').judgement
    expect(turnOf(snapshot, 'next').judgement).toMatchObject({ ...judgement, judgedAt: expect.anything() })
    expect(polishedAt).toBe(again.now)
    const atOnce = decided(snapshot, polish(snapshot, 'next')).decision
    expect(atOnce.changes!.turns.map(({ after }) => after.id)).toEqual([])
  })
})

/** When the quickest plan found would be ready. */
const soonestOf = ({ readyAt, smoothness }: Plan): number => readyAt - smoothness!.priceSeconds! * 1000

describe('a plan that was made in a hurry, or with fewer hands', () => {
  test('is made anew where that has the room ready sooner', () => {
    const alone = withBookings(
      aCrew({ shifts: [duty('day', 1, '09:00', '14:00')] }),
      aUse('m', 'side-meeting', '12:00', '14:00'),
    )
    const more = addShift(Shift.parse({ ...duty('more', 1, '09:00', '14:00'), siteId: 'site_test' }))
    const joined = decided(alone, more).snapshot
    expect(planOf(joined, 'm').readyAt).toBe(on5th('09:36'))
    const { decision, snapshot } = polished(joined, 'm')
    expect(soonestOf(planOf(snapshot, 'm'))).toBe(on5th('09:22'))
    expect(planOf(snapshot, 'm').readyAt).toBeLessThanOrEqual(on5th('09:24'))
    expect(decision.affected.map(({ turnId }) => turnId)).toEqual(['turn_m'])
  })

  test('is made anew for that even when it was gone over while there were fewer', () => {
    const alone = withBookings(
      aCrew({ shifts: [duty('day', 1, '09:00', '14:00')] }),
      aUse('m', 'side-meeting', '12:00', '14:00'),
    )
    const goneOver = polished(alone, 'm').snapshot
    expect(planOf(goneOver, 'm').smoothness).toMatchObject({ partings: 0, priceSeconds: 0 })
    const more = addShift(Shift.parse({ ...duty('more', 1, '09:00', '14:00'), siteId: 'site_test' }))
    const { snapshot } = polished(decided(goneOver, more).snapshot, 'm')
    expect(soonestOf(planOf(snapshot, 'm'))).toBe(on5th('09:22'))
    expect(planOf(snapshot, 'm').readyAt).toBeLessThanOrEqual(on5th('09:24'))
  })

  test('is never made later bit by bit: what it costs already counts', () => {
    const before = withBookings(
      aCrew({ shifts: day(4) }),
      aUse('first', 'side-meeting', '11:00', '12:00'),
      aUse('next', 'side-supper', '18:00', '20:00'),
    )
    const plan = planOf(before, 'next')
    const costing = (priceSeconds: number): SiteSnapshot => ({
      ...before,
      turns: before.turns.map((turn) =>
        turn.id === 'turn_next'
          ? { ...turn, plan: { ...plan, smoothness: { ...calmness(plan).smoothness, priceSeconds } } }
          : turn,
      ),
    })
    expect(planOf(polished(costing(0), 'next').snapshot, 'next').readyAt).toBeGreaterThan(plan.readyAt)
    const { snapshot } = polished(costing(120), 'next')
    expect(planOf(snapshot, 'next').readyAt).toBeLessThanOrEqual(plan.readyAt)
  })

  test('takes no hands that another turn has, and moves no other turn', () => {
    const before = withBookings(
      aCrew({ shifts: day(3) }),
      aUse('side', 'side-supper', '12:00', '14:00'),
      aUse('south', 'south-meeting', '12:00', '14:00'),
    )
    const { snapshot } = polished(before, 'side')
    expect(turnOf(snapshot, 'south')).toEqual(turnOf(before, 'south'))
  })

  test('is gone over together with others, each with what the others leave', () => {
    const before = withBookings(
      aCrew({ shifts: day(3) }),
      aUse('side', 'side-supper', '12:00', '14:00'),
      aUse('south', 'south-meeting', '12:00', '14:00'),
    )
    const { snapshot } = decided(before, polish(before, 'side', 'south'))
    for (const name of ['side', 'south'])
      expect(planOf(snapshot, name).readyAt).toBeLessThanOrEqual(planOf(before, name).readyAt + 120_000)
  })
})

describe('what is asked beside the room', () => {
  test('stays: crew at the event, milestones', () => {
    const before = withBookings(
      aCrew({ shifts: day(3) }),
      aUse('supper', 'side-supper', '12:00', '14:00', {
        crewDemands: [{ what: 'ushers', hands: 2, fromAt: on5th('12:00'), toAt: on5th('13:00') }],
        milestones: [{ milestone: 'tables-up', byAt: on5th('08:30') }],
      }),
    )
    const { decision, snapshot } = polished(before, 'supper')
    expect(decision.verdict).toBe('fits')
    const { tasks } = planOf(snapshot, 'supper')
    expect(tasks.find(({ kind }) => kind === 'duty')!.laneIds).toHaveLength(2)
    const tables = tasks.filter(
      ({ kind, furnishingId }) => kind === 'set' && furnishingId === 'furnishing_round-table',
    )
    expect(Math.max(...tables.map(({ endsAt }) => endsAt))).toBeLessThanOrEqual(on5th('08:30'))
  })

  test('stays: that it is done just in time', () => {
    const before = withBookings(
      aCrew({ shifts: day(3), policy: { justInTimeFromGapSeconds: 4 * 3600 } }),
      aUse('supper', 'side-supper', '18:00', '20:00'),
    )
    const { snapshot } = polished(before, 'supper')
    expect(planOf(before, 'supper').readyAt).toBe(on5th('17:55'))
    expect(planOf(snapshot, 'supper').readyAt).toBeGreaterThanOrEqual(on5th('17:53'))
    expect(planOf(snapshot, 'supper').readyAt).toBeLessThanOrEqual(on5th('17:57'))
    expect(planOf(snapshot, 'supper').startsAt).toBeGreaterThan(on5th('16:30'))
  })
})

describe('a turn that fails', () => {
  const riskAccepted = { actorId: 'actor_kim', why: 'They start late.', acceptedAt: on5th('08:00') }
  const first = aUse('first', 'side-supper', '10:00', '11:00')
  const late = aUse('late', 'side-meeting', '11:20', '14:00', { riskAccepted })
  const before = withBookings(aCrew({ shifts: day(2) }), first, late)

  test('is given ways out, each of which would be accepted', () => {
    expect(turnOf(before, 'late')).toMatchObject({
      status: 'failing',
      judgement: { waysOut: [], polishedAt: null },
    })
    const { snapshot } = polished(before, 'late')
    const { waysOut, polishedAt } = turnOf(snapshot, 'late').judgement
    expect(polishedAt).toBe(before.now + 3_600_000)
    expect(waysOut.length).toBeGreaterThan(0)
    const doors = waysOut.find((way) => way.kind === 'other-doors')
    if (doors?.kind !== 'other-doors') throw new Error('no other doors among the ways out')
    const { doorsAt, startsAt, endsAt, clearAt } = doors
    const moved = { ...late, doorsAt, startsAt, endsAt, clearAt, version: 2, riskAccepted: null }
    expect(decided(snapshot, { kind: 'change', booking: moved }).decision.verdict).toBe(doors.verdict)
  })

  test('keeps the best plan there is, which is no later than it was', () => {
    const { snapshot } = polished(before, 'late')
    expect(planOf(snapshot, 'late').readyAt).toBeLessThanOrEqual(planOf(before, 'late').readyAt)
    expect(turnOf(snapshot, 'late').judgement.reasons.map(({ code }) => code)).toEqual(
      turnOf(before, 'late').judgement.reasons.map(({ code }) => code),
    )
  })

  test('stays as it is when it is gone over again', () => {
    const once = polished(before, 'late').snapshot
    expect(decided(once, polish(once, 'late')).decision.changes!.turns).toEqual([])
    const { snapshot } = polished(once, 'late')
    expect(planOf(snapshot, 'late')).toEqual(planOf(once, 'late'))
    expect(turnOf(snapshot, 'late').judgement.waysOut).toEqual(turnOf(once, 'late').judgement.waysOut)
  })
})

describe('not gone over', () => {
  const before = withBookings(aCrew({ shifts: day(2) }), aUse('m', 'side-meeting', '12:00', '14:00'))

  test('is a turn that has begun, or is due', () => {
    for (const now of [on5th('08:00'), on5th('12:00')])
      expect(decided({ ...before, now }, polish(before, 'm')).decision.changes!.turns).toEqual([])
  })

  test('is one under which something has changed: it is judged first', () => {
    const changedHall = {
      ...before,
      storagePlaces: before.storagePlaces.map((place) => ({ ...place, routes: [] })),
    }
    expect(decide(changedHall, [polish(before, 'm')]).changes!.turns).toEqual([])
  })
})
