/** A plan that people have read is kept as long as it holds; then moved in time; only then made anew. */
import { describe, expect, test } from 'vitest'
import { Observation } from '../../../src/domain/observation.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { Plan } from '../../../src/domain/plan.ts'
import { RateSet, Rates } from '../../../src/domain/rate-set.ts'
import { Shift } from '../../../src/domain/shift.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/index.ts'
import {
  aCrew,
  asked,
  aUse,
  changed,
  decided,
  duty,
  handsAt,
  on5th,
  planOf,
  turnOf,
  withBookings,
} from './a-crew.ts'
import { addShift, setUp } from './a-hall.ts'

/** These kinds take so many times as long. */
function timesSlower(factor: number, kinds: readonly string[]): Rates {
  const slower = (rates: Rates['fromTrolley']) =>
    Object.fromEntries(
      Object.entries(rates).map(([kind, { setPersonSeconds, strikePersonSeconds }]) => {
        const times = kinds.includes(kind) ? factor : 1
        return [
          kind,
          {
            setPersonSeconds: setPersonSeconds * times,
            strikePersonSeconds: strikePersonSeconds * times,
          },
        ]
      }),
    )
  return Rates.parse({
    ...DEFAULT_RATES,
    fromTrolley: slower(DEFAULT_RATES.fromTrolley),
    byHand: slower(DEFAULT_RATES.byHand),
  })
}
const rateSet = (rates: Rates): Operation =>
  setUp({
    kind: 'rateSet',
    before: null,
    after: RateSet.parse({
      id: 'rateset_new',
      siteId: 'site_test',
      number: 1,
      name: 'Our stopwatch',
      rates,
      marks: {},
    }),
    retire: false,
  })
const movables = ['stacking-chair', 'round-table', 'table-cloth']

/** Who does what with whom, in which order: all but the times. */
const whoAndWhat = ({ tasks }: Plan) => tasks.map(({ key, hands, laneIds }) => ({ key, hands, laneIds }))

const aHallWith = (hands: number, from = '09:00'): SiteSnapshot =>
  aCrew({ shifts: [duty('day', hands, from, '14:00')] })
const supper = (doors: string) => aUse('supper', 'side-supper', doors, '14:00')
const meeting = (doors: string) => aUse('meeting', 'side-meeting', doors, '14:00')

/** So many more are found to be on duty. */
const more = (hands: number): Operation =>
  addShift(Shift.parse({ ...duty('more', hands, '09:00', '14:00'), siteId: 'site_test' }))

describe('when the work takes a little longer than it did', () => {
  const before = withBookings(aHallWith(3), supper('12:00'))
  const { decision, snapshot } = decided(before, rateSet(timesSlower(1.05, movables)))

  test('the plan keeps its order, its hands and who they are, and moves its times', () => {
    expect(decision.verdict).toBe('fits')
    expect(whoAndWhat(planOf(snapshot, 'supper'))).toEqual(whoAndWhat(planOf(before, 'supper')))
    expect(planOf(snapshot, 'supper').readyAt).toBeGreaterThan(planOf(before, 'supper').readyAt)
    expect(planOf(snapshot, 'supper').startsAt).toBe(planOf(before, 'supper').startsAt)
  })

  test('the turn says by which rates it was judged', () => {
    expect(turnOf(snapshot, 'supper').judgement.rateSetId).toBe('rateset_new')
    expect(decision.affected.map(({ turnId }) => turnId)).toEqual(['turn_supper'])
  })

  test('nothing is tried that costs a search: the effort that found it is the effort it has', () => {
    expect(planOf(snapshot, 'supper').workDone).toBe(planOf(before, 'supper').workDone)
  })
})

test('when the work takes less time, the plan comes forward with the same people', () => {
  const before = withBookings(aHallWith(3), supper('12:00'))
  const { snapshot } = decided(before, rateSet(timesSlower(0.97, movables)))
  expect(whoAndWhat(planOf(snapshot, 'supper'))).toEqual(whoAndWhat(planOf(before, 'supper')))
  expect(planOf(snapshot, 'supper').readyAt).toBeLessThan(planOf(before, 'supper').readyAt)
})

describe('when moving it in time is not enough', () => {
  /** Planned when one hand was there; a second has been found since, and nothing was changed for it. */
  const alone = withBookings(aHallWith(1), meeting('09:40'))
  const joined = decided(alone, more(1))

  test('the plan is made anew with the hands that there are', () => {
    expect(planOf(joined.snapshot, 'meeting')).toEqual(planOf(alone, 'meeting'))
    const { decision, snapshot } = decided(joined.snapshot, rateSet(timesSlower(2, movables)))
    expect(decision.verdict).toBe('fits')
    expect(handsAt(planOf(snapshot, 'meeting').tasks)).toEqual(['shift_day#1', 'shift_more#1'])
  })

  test('and there is none, the turn fails with the best there is', () => {
    const { decision, snapshot } = decided(alone, rateSet(timesSlower(2, movables)))
    expect(decision.verdict).toBe('does-not-fit')
    expect(turnOf(snapshot, 'meeting')).toMatchObject({ status: 'failing', judgement: { proof: 'bound' } })
    expect(planOf(snapshot, 'meeting').readyAt).toBeGreaterThan(on5th('09:40'))
  })
})

describe('when hours change', () => {
  const before = withBookings(aHallWith(2), supper('12:00'))
  const hours = (startsAt: number, endsAt: number): Operation => {
    const [shift] = before.shifts
    const after = Shift.parse({ ...shift, times: { kind: 'once', startsAt, endsAt } })
    return setUp({ kind: 'shift', before: shift!, after, retire: false })
  }

  test('a crew that comes ten minutes later does the same ten minutes later', () => {
    const { snapshot } = decided(before, hours(on5th('09:10'), on5th('14:00')))
    const minutes = 10 * 60_000
    expect(whoAndWhat(planOf(snapshot, 'supper'))).toEqual(whoAndWhat(planOf(before, 'supper')))
    expect(planOf(snapshot, 'supper').tasks.map(({ startsAt }) => startsAt)).toEqual(
      planOf(before, 'supper').tasks.map(({ startsAt }) => startsAt + minutes),
    )
  })

  test('a crew that goes home earlier, when all is done, leaves the plan as it is', () => {
    const { snapshot } = decided(before, hours(on5th('09:00'), on5th('11:00')))
    expect(planOf(snapshot, 'supper')).toEqual(planOf(before, 'supper'))
    // Only what is said of the crew is news.
    expect(turnOf(snapshot, 'supper').judgement.staffedWindowSeconds).toBe(2 * 3600)
  })
})

describe('when the guests before stay longer', () => {
  test('the same people do the same in the same order, as much later as it takes', () => {
    const first = aUse('first', 'side-supper', '10:00', '11:00')
    const planned = withBookings(aHallWith(2), first, meeting('13:30'))
    // More are there now; who asks anew would get a plan with all of them.
    const before = decided(planned, more(3)).snapshot
    const later = decided(
      { ...before, now: on5th('10:30') },
      { kind: 'clear-later', bookingId: first.id, clearAt: on5th('11:12'), versionExpected: null },
    )
    expect(later.decision.verdict).toBe('fits')
    expect(whoAndWhat(planOf(later.snapshot, 'meeting'))).toEqual(whoAndWhat(planOf(planned, 'meeting')))
    expect(planOf(later.snapshot, 'meeting').startsAt).toBe(on5th('11:12'))
  })
})

describe('when nothing that it feels has changed, the plan is left to the letter', () => {
  const before = withBookings(aHallWith(3), supper('12:00'), aUse('south', 'south-meeting', '12:30', '14:00'))
  const isLeft = (operation: Operation) => {
    const { snapshot } = decided(before, operation)
    expect(turnOf(snapshot, 'supper')).toEqual(turnOf(before, 'supper'))
  }

  test('by a shift that is added', () => {
    const { snapshot } = decided(before, more(4))
    expect(planOf(snapshot, 'supper')).toEqual(planOf(before, 'supper'))
    expect(turnOf(snapshot, 'supper').judgement.hands.onDuty).toBe(7)
  })

  test('by a booking in another room', () => {
    isLeft(asked(aUse('games', 'long-games', '2026-06-06T12:00', '2026-06-06T14:00')))
    isLeft(changed({ ...aUse('south', 'south-meeting', '12:30', '14:00'), headcount: 30 }))
  })

  test('by what was seen in another room', () => {
    isLeft(
      setUp({
        kind: 'observation',
        before: null,
        after: Observation.parse({
          id: 'observation_south',
          siteId: 'site_test',
          roomId: 'room_south',
          seenAt: on5th('06:00'),
          pieces: [{ furnishingId: 'furnishing_chair', count: 10 }],
          equipment: [],
          standsLike: 'meeting',
        }),
        retire: false,
      }),
    )
  })

  test('by rates of things that it does not move: only the rates it was judged by are others', () => {
    const { snapshot } = decided(before, rateSet(timesSlower(3, ['post-pair'])))
    expect(planOf(snapshot, 'supper').tasks).toEqual(planOf(before, 'supper').tasks)
    expect(turnOf(snapshot, 'supper').judgement.rateSetId).toBe('rateset_new')
  })
})
