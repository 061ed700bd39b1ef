import { describe, expect, test } from 'vitest'
import { loadDemo } from '../../../seed/load-demo.ts'
import type { CurvePoint, FewestHands } from '../../../src/domain/hands-curve.ts'
import { type Instant, secondsBetween } from '../../../src/domain/instant.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { circumstancesOf } from '../../../src/scheduler/answers/circumstances.ts'
import { crewInOrder, windowUntil } from '../../../src/scheduler/answers/crew-members.ts'
import { doorsTickOf } from '../../../src/scheduler/answers/curve-of-turn.ts'
import { curveSentences } from '../../../src/scheduler/answers/curve-sentences.ts'
import { lanesKept } from '../../../src/scheduler/answers/hands.ts'
import { handsCurve, whatWouldHelp } from '../../../src/scheduler/answers/index.ts'
import { solve } from '../../../src/scheduler/turn/index.ts'
import { openSqliteStore } from '../../../src/store/open-sqlite-store.ts'
import { inProcessDecider } from '../../../src/worker/in-process-decider.ts'
import { aCrew, asked, aUse, decided, duty, on5th, turnOf, withBookings } from '../decide/a-crew.ts'
import { at, setUp, ZONE } from '../decide/a-hall.ts'
import { soonestReally } from './really-changed.ts'

const games = aUse('games', 'long-games', '08:00', '12:00')
const dinner = aUse('dinner', 'long-banquet', '13:30', '15:00', { headcount: 100 })
const policy = { workMost: 60 }
const aDay = (hall = aCrew({ hands: 4, policy })) => withBookings(hall, games, dinner)

function curveOf(
  snapshot: SiteSnapshot,
  name = 'dinner',
  { handsMost = 8, doorsAt = null }: { handsMost?: number; doorsAt?: Instant | null } = {},
) {
  return handsCurve(snapshot, turnOf(snapshot, name), { handsMost, doorsAt }, solve)
}
const readyAts = (points: readonly CurvePoint[]) =>
  points.map(({ readyAt }) => readyAt ?? Number.POSITIVE_INFINITY)

describe('the curve of hands of a turn', () => {
  test('says what one alone cannot do, and with each more when it is ready, never later', () => {
    const { points, crew, doorsAt } = curveOf(aDay())
    expect(crew).toBe(4)
    expect(doorsAt).toBe(dinner.doorsAt)
    expect(points.map(({ hands, ofCrew, added }) => [hands, ofCrew, added])).toEqual([
      [1, 1, 0],
      [2, 2, 0],
      [3, 3, 0],
      [4, 4, 0],
      [5, 4, 1],
      [6, 4, 2],
      [7, 4, 3],
      [8, 4, 4],
    ])
    expect(points[0]).toMatchObject({
      readyAt: null,
      slackSeconds: null,
      proof: 'bound',
      why: { kind: 'hands-at-once', handsNeeded: 2, handsMost: 1 },
    })
    const ready = readyAts(points)
    expect(ready).toEqual(ready.toSorted((a, b) => b - a))
    for (const { readyAt, slackSeconds } of points.slice(1))
      expect(slackSeconds).toBe(secondsBetween(readyAt ?? doorsAt, doorsAt))
  })

  test('has with all of the crew what a decision would find, and no later than the stored plan', () => {
    const day = aDay()
    const { points } = curveOf(day)
    const all = points[3]?.readyAt ?? Number.POSITIVE_INFINITY
    const really = soonestReally(day, 'dinner')
    expect(all - really).toBeLessThanOrEqual((really - games.clearAt) / 20)
    expect(all).toBeLessThanOrEqual(turnOf(day, 'dinner').plan?.readyAt ?? 0)
  })

  test('has with fewer what a hall with so small a crew would find', () => {
    const { points } = curveOf(aDay())
    for (const hands of [3, 5, 6]) {
      const really = soonestReally(aDay(aCrew({ hands, policy })), 'dinner')
      const { readyAt } = points[hands - 1] ?? {}
      // Two searches by chance: within a twentieth of the time since those before were out.
      const apart = Math.abs(secondsBetween(readyAt ?? games.clearAt, really))
      expect(apart).toBeLessThanOrEqual(secondsBetween(games.clearAt, really) / 20)
    }
  })

  test('agrees with what would help: the crew and two more are ready when the curve says', () => {
    const day = aDay()
    const { points } = curveOf(day)
    const { items, readyAt } = whatWouldHelp(day, turnOf(day, 'dinner'), solve)
    expect(readyAt).toBe(points[3]?.readyAt)
    for (const { change, readyAt: with_ } of items)
      if (change.kind === 'hands') expect(with_).toBe(points[3 + change.hands]?.readyAt)
  })

  test('names the skill that the first ones lack, and keeps those who have it', () => {
    const shifts = [duty('able', 1, '11:30', '15:00', ['sound']), duty('crew', 3, '06:00', '23:00')]
    const day = aDay(aCrew({ soundSkill: 'sound', shifts, policy }))
    const { points, mix, fewest } = curveOf(day)
    // Whoever has the skill is one of two, though there for the shortest time.
    expect(points[1]?.readyAt).not.toBeNull()
    expect(mix?.skills).toEqual([{ skill: 'sound', hands: 1 }])
    expect(fewest.atAll.hands).toBeGreaterThan(1)
    const [able] = day.shifts.filter(({ id }) => id === 'shift_able')
    if (able?.crew.kind !== 'hands') throw new Error('there is a shift of one')
    const after = { ...able, crew: { ...able.crew, skills: [] } }
    const write = { kind: 'shift', before: able, after, retire: false } as const
    const without = curveOf(decided(day, setUp(write)).snapshot)
    expect(without.points.map(({ readyAt }) => readyAt)).toEqual(Array.from({ length: 8 }, () => null))
    expect(without.points.at(-1)?.why).toEqual({
      kind: 'skill',
      skill: 'sound',
      handsNeeded: 1,
      handsMost: 0,
    })
    expect(without.fewest.atAll).toMatchObject({ hands: null, readyAt: null })
    expect(without.mix).toBeNull()
    expect(without.sentences.at(-1)).toBe(
      'With 8 pairs of hands it cannot be done: the skill sound is missing.',
    )
  })

  test('has of a group that helps no more than those who are there can lead', () => {
    const worship = aUse('worship', 'long-worship', '08:00', '12:00', {
      ownHelp: { hands: 10, seconds: 1200 },
    })
    const evening = aUse('evening', 'long-games', '13:30', '15:00')
    const day = withBookings(aCrew({ hands: 3, policy }), worship, evening)
    const around = circumstancesOf(day, turnOf(day, 'evening'))
    if (!around) throw new Error('the turn is there')
    const crew = crewInOrder(around, windowUntil(around, doorsTickOf(around, evening.doorsAt)))
    const helpers = [0, 1, 2, 3].map(
      (hands) =>
        [...lanesKept(around, crew.slice(0, hands))].filter((lane) => !around.built.lanes[lane]?.crew).length,
    )
    expect(helpers).toEqual([0, 6, 10, 10])
  })

  test('has those who are added there only while the crew is', () => {
    const shifts = [
      duty('dawn', 2, '06:00', '08:00'),
      duty('noon', 2, '12:00', '12:30'),
      duty('late', 2, '14:30', '23:00'),
    ]
    const evening = aUse('dinner', 'long-banquet', '18:00', '20:00', { headcount: 100 })
    const day = withBookings(aCrew({ shifts, policy }), games, evening)
    const { points, crew } = curveOf(day)
    expect(crew).toBe(4)
    for (const { readyAt } of points) {
      const isWithinDuty = readyAt === null || readyAt <= on5th('12:30') || readyAt > on5th('14:30')
      expect(isWithinDuty).toBe(true)
    }
  })
})

describe('the fewest hands for doors', () => {
  test('are more for earlier doors, and the same for doors that they have to spare', () => {
    const day = aDay()
    const hands = (time: string) => curveOf(day, 'dinner', { doorsAt: on5th(time) }).fewest.atAll.hands
    const counts = ['13:30', '13:10', '12:58', '12:50'].map((time) => hands(time) ?? 99)
    expect(counts).toEqual(counts.toSorted((a, b) => a - b))
    expect(counts[0]).toBeLessThan(counts.at(-1) ?? 0)
  })

  test('are none where no number has it ready: proven where a bound excludes it', () => {
    const day = aDay()
    const { fewest, mix, sentences } = curveOf(day, 'dinner', { doorsAt: on5th('12:15'), handsMost: 6 })
    expect(fewest.atAll).toEqual({ hands: null, readyAt: null, proof: 'bound' })
    expect(mix).toBeNull()
    expect(sentences[0]).toBe(
      'By doors at 12:15 it cannot be ready with up to 6 pairs of hands, whoever they are.',
    )
  })

  test('cannot do with one fewer what it is proven they cannot, in a hall with so small a crew', () => {
    const day = aDay()
    const { fewest } = curveOf(day)
    expect(fewest.atAll).toMatchObject({ hands: 3, proof: 'bound' })
    const { decision } = decided(withBookings(aCrew({ hands: 2, policy }), games), asked(dinner))
    expect(decision.verdict).toBe('does-not-fit')
    const enough = decided(withBookings(aCrew({ hands: 3, policy }), games), asked(dinner))
    expect(enough.decision.changes).not.toBeNull()
  })
})

describe('the curve in words', () => {
  const doorsAt = on5th('18:00')
  const point = (hands: number, readyAt: string | null): CurvePoint => ({
    hands,
    ofCrew: hands,
    added: 0,
    atWork: [],
    readyAt: readyAt === null ? null : on5th(readyAt),
    slackSeconds: null,
    milestonesReached: readyAt !== null,
    proof: 'none-found',
    why: readyAt === null ? { kind: 'hands-at-once', handsNeeded: 2, handsMost: 1 } : null,
  })
  const fewest = (
    hands: number | null,
    readyAt: string | null,
    proof: FewestHands['proof'],
  ): FewestHands => ({
    hands,
    readyAt: readyAt === null ? null : readyAt.includes('T') ? at(readyAt) : on5th(readyAt),
    proof,
  })
  const said = (
    atAll: FewestHands,
    withSlack: FewestHands,
    mix: Parameters<typeof curveSentences>[0]['mix'] = null,
    points = [point(1, null), point(2, '18:10'), point(3, '17:50')],
  ) =>
    curveSentences(
      {
        turnId: turnOf(aDay(), 'dinner').id,
        releaseAt: on5th('17:00'),
        doorsAt,
        crew: 3,
        points,
        fewest: { atAll, withSlack },
        mix,
      },
      ZONE,
    )

  test('says how many are enough, who they must be, and how sure it is that fewer are not', () => {
    const enough = fewest(3, '17:50', 'bound')
    const mix = {
      skills: [{ skill: 'sound', hands: 1 }],
      adults: 2,
      readyAt: on5th('17:52'),
      isSearched: true,
    }
    expect(said(enough, enough, mix)).toEqual([
      '3 pairs of hands are enough for doors at 18:00: ready at 17:52; among them 1 with the skill sound and 2 adults. 2 pairs of hands cannot do it, whoever they are.',
    ])
    const unproven = fewest(3, '17:50', 'none-found')
    const anybody = { skills: [], adults: 0, readyAt: on5th('17:50'), isSearched: true }
    expect(said(unproven, fewest(null, null, 'none-found'), anybody)).toEqual([
      '3 pairs of hands are enough for doors at 18:00: ready at 17:50; anybody will do. With 2 pairs of hands no plan was found, which proves nothing.',
      'The time to spare that is wanted was not found with up to 3 pairs of hands.',
    ])
    const one = fewest(1, '17:50', 'bound')
    expect(
      said(one, fewest(2, '17:40', 'bound'), {
        skills: [],
        adults: 1,
        readyAt: on5th('17:50'),
        isSearched: true,
      }),
    ).toEqual([
      '1 pair of hands is enough for doors at 18:00: ready at 17:50; it must be an adult.',
      'With the time to spare that is wanted it takes 2 pairs of hands: ready at 17:40.',
    ])
  })

  test('names the days where it is ready on another day than doors, and what is missed before', () => {
    const enough = fewest(2, '2026-06-04T17:50', 'bound')
    const mix = {
      skills: [{ skill: 'sound', hands: 1 }],
      adults: 2,
      readyAt: at('2026-06-04T17:52'),
      isSearched: true,
    }
    expect(said(enough, enough, mix)).toEqual([
      '2 pairs of hands are enough for doors at Fri 5 Jun 18:00: ready at Thu 4 Jun 17:52; among them 1 with the skill sound, all of them adults. 1 pair of hands cannot do it, whoever they are.',
    ])
    const none = fewest(null, null, 'none-found')
    const missed = { ...point(1, '17:50'), milestonesReached: false }
    expect(said(none, none, null, [missed]).at(-1)).toBe(
      'With 1 pair of hands it is ready at 17:50, and not all that was asked for earlier is reached in time.',
    )
  })

  test('says that none are enough, and what the most come to', () => {
    const none = fewest(null, null, 'none-found')
    expect(said(none, none, null, [point(1, null), point(2, '18:10')])).toEqual([
      'No plan was found in which it is ready by doors at 18:00 with up to 2 pairs of hands.',
      'With 2 pairs of hands it is ready at 18:10.',
    ])
    expect(said(none, none, null, [point(1, null)])).toEqual([
      'No plan was found in which it is ready by doors at 18:00 with up to 1 pair of hands.',
      'With 1 pair of hands it cannot be done: something takes 2 pairs of hands at one time, and there is 1.',
    ])
  })
})

describe('on the demo', () => {
  test('no curve rises, and nothing makes a turn later than it stands', async () => {
    const now = Date.parse('2026-11-23T09:00:00-06:00') as Instant
    const store = await openSqliteStore({ file: ':memory:' })
    const { site } = await loadDemo(store, inProcessDecider(store), now)
    const window = { fromAt: now, toAt: (now + 10 * 86_400_000) as Instant }
    const snapshot = await store.load(site.id, window, now)
    store.close()
    if (!snapshot) throw new Error('the demo was not loaded')
    const turns = snapshot.turns.filter(({ status, dueAt }) => status !== 'dropped' && dueAt < window.toAt)
    expect(turns.length).toBeGreaterThan(5)
    for (const turn of turns) {
      const { points } = handsCurve(snapshot, turn, { handsMost: 8, doorsAt: null }, solve)
      const ready = readyAts(points)
      expect(ready, turn.id).toEqual(ready.toSorted((a, b) => b - a))
      // Whoever works in the plan that stands can do it as soon as that says.
      const atWork = new Set(
        turn.plan?.tasks.flatMap(({ laneIds }) =>
          laneIds.filter((id) => !id.includes('#') || id.startsWith('shift_')),
        ),
      )
      const asPlanned = points[atWork.size - 1]
      if (turn.plan && asPlanned) expect(asPlanned.readyAt, turn.id).toBeLessThanOrEqual(turn.plan.readyAt)
      for (const { hands, atWork: people, added } of points)
        expect(people.length + added, turn.id).toBeLessThanOrEqual(hands)
      const { readyAt, items } = whatWouldHelp(snapshot, turn, solve)
      if (turn.plan) expect(readyAt, turn.id).toBeLessThanOrEqual(turn.plan.readyAt)
      for (const { change, readyAt: withIt } of items)
        if (change.kind === 'hands') expect(withIt ?? readyAt, turn.id).toBeLessThanOrEqual(readyAt ?? now)
    }
  })
})
