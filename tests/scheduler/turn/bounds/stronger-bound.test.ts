/** What the stronger bound knows and the other one does not: one case for each kind of reasoning, worked by hand. */
import { describe, expect, test } from 'vitest'
import { randomTurn } from '../../../../bench/turns/random-turn.ts'
import { strongerBoundTicks } from '../../../../src/scheduler/turn/bounds/stronger-bound.ts'
import { solve } from '../../../../src/scheduler/turn/index.ts'
import type { TurnInstance } from '../../../../src/scheduler/turn/instance.ts'
import { lowerBoundTicks } from '../../../../src/scheduler/turn/lower-bound.ts'
import { prepared } from '../../../../src/scheduler/turn/prepared-instance.ts'
import { aTurn, consuming, duty, dutyTurn, hands, lane, mode, resource, task, turn } from '../a-turn.ts'

/** The other bound, the stronger one, and the plan of a search: where the last two are equal, both are right. */
function boundsAndPlan(instance: TurnInstance): { weak: number; stronger: number; planned: number } {
  const weak = lowerBoundTicks(instance, 0).readyTick ?? Number.NaN
  const stronger = strongerBoundTicks(prepared(instance), 0, weak, instance.horizonTick)
  const planned = solve(instance, { workMost: 2000, seed: 1 }).schedule?.readyTicks[0] ?? Number.NaN
  return { weak, stronger, planned }
}

const tasks = (keys: string, modes: Parameters<typeof mode>, after: number[] = []) =>
  [...keys].map((key) => task(key, { modes: [mode(...modes)], after }))

/** Done by itself, with so much of each resource. */
const alone = (key: string, ticks: number, amounts: number[], after: number[] = []) => {
  const uses = amounts.flatMap((amount, index) => (amount > 0 ? [{ resource: index, amount }] : []))
  return task(key, { modes: [mode(ticks, 0, uses)], after })
}

describe('a turn cannot be ready before', () => {
  test('everything in front of a pause is done by the hands there are, and everything behind it', () => {
    const activities = [
      ...tasks('abcd', [10]),
      task('dry', { modes: [mode(20, 0)], after: [0, 1, 2, 3] }),
      ...tasks('efgh', [10], [4]),
    ]
    // Four times 10 for two hands: 20. Then 20 of drying, and 20 again. The other bound sees one of the two rounds.
    expect(boundsAndPlan(aTurn({ activities }))).toEqual({ weak: 50, stronger: 60, planned: 60 })
  })

  test('three equal tasks are done by two hands: one of them does two', () => {
    // 30 hand-ticks are 15 for two, but no task is cut in half.
    expect(boundsAndPlan(aTurn({ activities: tasks('abc', [10]) }))).toEqual({
      weak: 15,
      stronger: 20,
      planned: 20,
    })
  })

  test('work has gone through a doorway that two pieces fill, though nearly a third of it is left over', () => {
    const activities = [
      ...tasks('abcd', [10, 0, [{ resource: 0, amount: 350 }]]),
      ...tasks('e', [1, 0, [{ resource: 0, amount: 10 }]]),
    ]
    // 4 × 350 × 10 of 1,000, and a little, are 15 ticks; two and two are 20.
    expect(boundsAndPlan(aTurn({ activities, resources: [resource('doorway', 1000)] }))).toEqual({
      weak: 15,
      stronger: 20,
      planned: 20,
    })
  })

  test('a task finds room beside what must be going on meanwhile, though it could go on with each of that alone', () => {
    const activities = [
      alone('a', 10, [1]),
      alone('dry a', 10, [], [0]),
      alone('b', 10, [1]),
      alone('dry b', 10, [], [2]),
      alone('wait', 5, []),
      alone('wide', 6, [2], [4]),
      alone('air', 5, [], [5]),
    ]
    // Ready by 20, a and b would go on from 0 to 10 and the wide one from 5 at the earliest until 15 at the latest: with
    // 3 of it there it has to wait until 10. By 21 it does: 10 + 6 + 5.
    expect(boundsAndPlan(aTurn({ activities, resources: [resource('doorway', 3)] }))).toEqual({
      weak: 20,
      stronger: 21,
      planned: 21,
    })
  })

  test('three tasks that must all be going on at one time have what they hold then, though any two of them do', () => {
    const activities = [
      alone('a', 10, [1]),
      alone('dry a', 8, [], [0]),
      alone('wait', 3, []),
      alone('b', 10, [1], [2]),
      alone('dry b', 5, [], [3]),
      alone('wait longer', 6, []),
      alone('wide', 10, [2], [5]),
      alone('air', 2, [], [6]),
    ]
    // Ready by 21, a goes on from 3 to 10 whatever happens, b from 6 to 13 and the wide one from 9 to 16: at 9 they hold 4
    // of 3. By 22 the wide one goes on when a is over: 10 + 10 + 2.
    expect(boundsAndPlan(aTurn({ activities, resources: [resource('doorway', 3)] }))).toEqual({
      weak: 18,
      stronger: 22,
      planned: 22,
    })
  })

  const doorwayAndTrolleys = [resource('doorway', 3), resource('trolley', 2)]

  test('trolleys have done what waits for a task that waits for the doorway, and what only comes later anyway', () => {
    const activities = [
      alone('a', 10, [1]),
      alone('dry a', 15, [], [0]),
      alone('b', 10, [1]),
      alone('dry b', 15, [], [2]),
      alone('wait', 5, []),
      alone('wide', 6, [2], [4]),
      ...['c', 'd'].map((key) => alone(key, 4, [0, 1], [5])),
      alone('wait longer', 16, []),
      ...['e', 'f', 'g', 'h'].map((key) => alone(key, 3, [0, 1], [8])),
    ]
    // Ready by 25, a and b are in the doorway until 10 and the wide one until 16: from then on c to h take 2 × 4 + 4 × 3
    // of two trolleys, so 10. Without the doorway c and d could begin at 11.
    expect(boundsAndPlan(aTurn({ activities, resources: doorwayAndTrolleys }))).toEqual({
      weak: 25,
      stronger: 26,
      planned: 26,
    })
  })

  test('trolleys have done what must be over for a task to be out of the doorway, and what must be over early anyway', () => {
    const activities = [
      alone('dry a', 15, []),
      alone('a', 10, [1], [0]),
      alone('dry b', 15, []),
      alone('b', 10, [1], [2]),
      ...['c', 'd'].map((key) => alone(key, 4, [0, 1])),
      alone('wide', 6, [2], [4, 5]),
      alone('air', 5, [], [6]),
      ...['e', 'f', 'g', 'h'].map((key) => alone(key, 3, [0, 1])),
      alone('set', 16, [], [8, 9, 10, 11]),
    ]
    // The same backwards. Ready by 25, a and b are in the doorway from 15 on and the wide one from 9 at the latest; e to h
    // are over by 9 too: 2 × 4 + 4 × 3 for two trolleys are 10.
    expect(boundsAndPlan(aTurn({ activities, resources: doorwayAndTrolleys }))).toEqual({
      weak: 25,
      stronger: 26,
      planned: 26,
    })
  })

  test('tasks that share one trolley have it long with one pair of hands, or quickly with all of them', () => {
    const uses = [{ resource: 0, amount: 1 }]
    const withTrolley = { modes: [mode(9, 1, uses), mode(6, 3, uses)] }
    const activities = [...[...'abcd'].map((key) => task(key, withTrolley)), ...tasks('efgh', [9])]
    const lanes = [lane('ada'), lane('ben'), lane('cem')]
    // By hands alone 8 × 9 = 72, 24 for three; by the trolley alone 4 × 6 = 24. Half of the trolley and a sixth for each
    // hand: a to d take 9 × 2/3 or 6 × 1, 6 either way, and e to h take 9 × 1/6 = 1.5: 24 + 6.
    expect(boundsAndPlan(aTurn({ activities, lanes, resources: [resource('trolley', 1)] }))).toEqual({
      weak: 24,
      stronger: 30,
      planned: 30,
    })
  })

  test('the slow way no longer fits in, and the quick way then keeps all hands from other work', () => {
    const activities = [
      task('strike', { modes: [mode(20, 1), mode(12, 2)] }),
      task('dry', { modes: [mode(30, 0)], after: [0] }),
      task('cloths', { modes: [mode(35, 1)] }),
    ]
    // Ready by 46, striking ends by 16: in 12 with both hands. Before it there is no time for the 35 of the cloths,
    // and behind it they end at 47.
    expect(boundsAndPlan(aTurn({ activities }))).toEqual({ weak: 42, stronger: 47, planned: 47 })
  })

  test('of two tasks that cannot go on at once the one that cannot wait is done, and then the other', () => {
    const activities = [
      task('lift', { modes: [mode(10, 2)] }),
      task('dry', { modes: [mode(30, 0)], after: [0] }),
      task('cloths', { modes: [mode(35, 1)] }),
    ]
    // Both hands lift. After the cloths, the floor would be dry at 75; before them, they are on at 45.
    expect(boundsAndPlan(aTurn({ activities }))).toEqual({ weak: 40, stronger: 45, planned: 45 })
  })

  test('work that must begin behind one pause and end before the next finds its hands in between', () => {
    const activities = tasks('abcd', [10])
    for (const first of [4, 7, 10, 13]) {
      activities.push(task(`dry ${first}`, { modes: [mode(20, 0)], after: [0, 1, 2, 3] }))
      activities.push(task(`wax ${first}`, { after: [first] }))
      activities.push(task(`set ${first}`, { modes: [mode(30, 0)], after: [first + 1] }))
    }
    // 20 for two hands, 20 of drying, four times 10 of waxing for two hands, 30 until the last of it has set. The other
    // bound lets the first of it dry from 10 on.
    expect(boundsAndPlan(aTurn({ activities }))).toEqual({ weak: 80, stronger: 90, planned: 90 })
  })

  test('the way that takes too long of one thing is not counted on for what it spares of another', () => {
    const uses = (power: number) => [
      { resource: 0, amount: 1 },
      { resource: 1, amount: power },
    ]
    const scrub = { modes: [mode(10, 0, uses(1)), mode(6, 0, uses(3))] }
    const activities = [
      ...[...'abc'].map((key) => task(key, scrub)),
      ...tasks('de', [10, 0, [{ resource: 1, amount: 1 }]]),
    ]
    // The machine alone: 3 × 6. Ready by 21, it has 3 ticks to spare, and the slow way takes 4 more: three times 6 × 3
    // of power and 20 are 74, of 63. By 22, one goes slowly, with the other two pieces of work beside it.
    const resources = [resource('machine', 1), resource('power', 3)]
    expect(boundsAndPlan(aTurn({ activities, resources }))).toEqual({ weak: 18, stronger: 22, planned: 22 })
  })

  test('a mode is left out that would use up what others must have', () => {
    const sparing = (key: string) =>
      task(key, {
        modes: [consuming(5, 0, 3), consuming(12, 0, 1)].map((of) => ({ ...of, hands: hands(1) })),
      })
    const instance = aTurn({
      activities: [sparing('a'), sparing('b')],
      lanes: [lane('ada')],
      consumables: [{ key: 'soap', amountMost: 3 }],
    })
    // Whichever takes 3, nothing is left for the other: 12 and 12.
    expect(boundsAndPlan(instance)).toEqual({ weak: 12, stronger: 24, planned: 24 })
  })

  test('who has one of two skills has done what asks for the one and what asks for the other', () => {
    const asking = (key: string, skillMask: number) =>
      task(key, { modes: [{ durationTicks: 10, hands: hands(1, skillMask), uses: [] }] })
    const lanes = [
      lane('ada', { skillMask: 3 }),
      lane('ben', { skillMask: 1 }),
      lane('cem', { skillMask: 2 }),
      lane('dan'),
      lane('eve'),
    ]
    const activities = [asking('a', 1), asking('b', 1), asking('c', 2), asking('d', 2)]
    // Two have the one skill, two have the other, but they are three: one does two things.
    expect(boundsAndPlan(aTurn({ activities, lanes }))).toEqual({ weak: 10, stronger: 20, planned: 20 })
  })

  test('the only one with either of two skills has done what asks for the one, and then for the other', () => {
    const asking = (key: string, skillMask: number) =>
      task(key, { modes: [{ durationTicks: 10, hands: hands(1, skillMask), uses: [] }] })
    const lanes = [lane('ada', { skillMask: 3 }), lane('ben'), lane('cem')]
    const activities = [asking('rig', 1), asking('focus', 2)]
    expect(boundsAndPlan(aTurn({ activities, lanes }))).toEqual({ weak: 10, stronger: 20, planned: 20 })
  })

  test('enough hands have come for what is behind a pause', () => {
    const lanes = [lane('ada'), lane('ben', { available: [{ from: 0, to: 30 }] })]
    const activities = [
      ...tasks('abcd', [10]),
      task('dry', { modes: [mode(5, 0)], after: [0, 1, 2, 3] }),
      task('both', { modes: [mode(6, 2), mode(20, 1)], after: [4] }),
    ]
    // Both until 20, dry until 25, and of the 6 that two would take ben has 5: ada alone takes 20.
    expect(boundsAndPlan(aTurn({ activities, lanes }))).toEqual({ weak: 31, stronger: 45, planned: 45 })
  })
})

describe('the stronger bound', () => {
  const stages = [
    ...tasks('abcd', [10]),
    task('dry', { modes: [mode(20, 0)], after: [0, 1, 2, 3] }),
    ...tasks('efgh', [10], [4]),
  ]

  test('never goes beyond the tick that it is asked about', () => {
    const problem = prepared(aTurn({ activities: stages }))
    expect([0, 49, 55, 60, 61, 900].map((until) => strongerBoundTicks(problem, 0, 30, until))).toEqual([
      30, 49, 55, 60, 60, 60,
    ])
  })

  test('counts from the release, and only what the turn needs', () => {
    const turns = [turn({ releaseTick: 100 }), turn()]
    const other = task('elsewhere', { turn: 1, modes: [mode(500, 2)] })
    const problem = prepared(aTurn({ turns, activities: [...stages, other] }))
    expect(strongerBoundTicks(problem, 0, 150, 900)).toBe(160)
  })

  test('counts out the hands that a duty of another turn must have', () => {
    const turns = [turn(), dutyTurn(5, 20)]
    const problem = prepared(
      aTurn({ turns, activities: [...stages, duty('event', 1, { modes: [mode(20, 1)] })] }),
    )
    // One pair of hands from 5 to 25: 40 hand-ticks are 5 × 2, 20 × 1, 5 × 2, so 30; 20 of drying, and 20 again.
    expect(strongerBoundTicks(problem, 0, 50, 900)).toBe(70)
  })

  test('says nothing new of a turn that is a duty, nor of a turn without work', () => {
    const problem = prepared(aTurn({ turns: [dutyTurn(5), turn()], activities: [duty('event', 0)] }))
    expect(strongerBoundTicks(problem, 0, 15, 900)).toBe(15)
    expect(strongerBoundTicks(problem, 1, 0, 900)).toBe(0)
  })

  test('of turns drawn at random is no later than any plan, and nearer to it by a third on average', () => {
    let weakGap = 0
    let strongerGap = 0
    for (const seed of Array.from({ length: 16 }, (_, index) => index + 1)) {
      const instance = randomTurn(seed)
      const { schedule } = solve(instance, { workMost: 60, seed: 1 })
      const planned = schedule?.readyTicks[0] ?? Number.NaN
      const weak = lowerBoundTicks(instance, 0).readyTick ?? Number.NaN
      const stronger = strongerBoundTicks(prepared(instance), 0, weak, instance.horizonTick)
      expect(stronger).toBeGreaterThanOrEqual(weak)
      expect(stronger).toBeLessThanOrEqual(planned)
      weakGap += planned / weak - 1
      strongerGap += planned / stronger - 1
    }
    expect(strongerGap).toBeLessThan((weakGap * 2) / 3)
  })
})
