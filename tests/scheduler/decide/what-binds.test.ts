import { describe, expect, test } from 'vitest'
import { ChainLink } from '../../../src/domain/chain-link.ts'
import { LaneId } from '../../../src/domain/ids.ts'
import { PlannedTask } from '../../../src/domain/plan.ts'
import type { Task } from '../../../src/domain/task.ts'
import { chainLinks, chainSentence } from '../../../src/scheduler/decide/plan/what-binds.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import { type ChainStep, criticalChain, solve, TICK_SECONDS } from '../../../src/scheduler/turn/index.ts'
import { gamesToBanquet } from '../network/golden-turns/games-to-banquet.ts'
import { instanceOfNetwork } from '../turn/instance-of-network.ts'

const ana = LaneId.parse('person_ana')
const second = LaneId.parse('shift_evening#2')

const evening = Date.UTC(2026, 10, 25, 18)

/** Tasks at minutes of the evening, by key; all by Ana, but for those of another hand. */
const at = (
  times: Readonly<Record<string, readonly [number, number]>>,
  byOther: readonly string[] = [],
): PlannedTask[] =>
  Object.entries(times).map(([key, [from, to]]) =>
    PlannedTask.parse({
      ...aTask(key),
      hands: 1,
      laneIds: [byOther.includes(key) ? second : ana],
      startsAt: evening + from * 60_000,
      endsAt: evening + to * 60_000,
    }),
  )

const aTask = (key: string): Task => ({
  key,
  kind: 'set',
  zone: 1,
  text: `Do ${key}.`,
  count: null,
  furnishingId: null,
  equipmentId: null,
  fromPlace: null,
  toPlace: null,
  workPersonSeconds: 60,
  modes: [{ hands: 1, seconds: 60 }],
  skill: null,
  adultsOnly: false,
  uses: [],
  after: [],
  safetyNotes: [],
})

const link = (taskKey: string, binds: ChainLink['binds']): ChainLink => ChainLink.parse({ taskKey, binds })
const released = (taskKey: string) => link(taskKey, { kind: 'release' })
const trolley = {
  kind: 'resource',
  key: 'trolley:furnishing_round-table',
  label: 'Trolley for round tables',
} as const

/** What a chain of two says of the twelve minutes until the second starts, which another hand does. */
const waitsFor = (binds: ChainLink['binds']) =>
  chainSentence([released('a'), link('b', binds)], at({ a: [0, 12], b: [12, 15] }, ['b']))

/** The same where the same hand does both. */
const worksUntil = (binds: ChainLink['binds']) =>
  chainSentence([released('a'), link('b', binds)], at({ a: [0, 12], b: [12, 15] }))

/** How a chain of one begins. */
const begins = (binds: ChainLink['binds']) => chainSentence([link('a', binds)], at({ a: [5, 15] }))

describe('the sentence that says what decides when a room is ready', () => {
  test('adds up where the time goes, the longest first, with the last task at the end', () => {
    const links = [
      released('briefing'),
      link('strike', { kind: 'after', taskKey: 'briefing' }),
      link('clean', { kind: 'hands', laneId: ana, taskKey: 'strike' }),
      link('tables', { ...trolley, taskKey: 'clean' }),
      link('cloths', { kind: 'after', taskKey: 'tables' }),
      link('chairs', { kind: 'hands', laneId: second, taskKey: 'cloths' }),
      link('sign-off', { kind: 'after', taskKey: 'chairs' }),
    ]
    const tasks = at(
      {
        briefing: [0, 5],
        strike: [5, 20],
        clean: [21, 32],
        tables: [32, 37],
        cloths: [37, 64],
        chairs: [64, 70],
        'sign-off': [70, 76],
      },
      ['tables'],
    )
    expect(chainSentence(links, tasks)).toBe(
      'Ready at the end of a chain of 7 tasks: 42 of its 76 min keep the same hands at other work, 16 follow one task after the other, 11 wait for a trolley for round tables, 1 waits for a free hand, 6 are the last task.',
    )
  })

  test('counts as waiting only the time in which hands are idle, walks among it', () => {
    const links = [released('a'), link('b', { kind: 'hands', laneId: ana, taskKey: 'a' })]
    expect(chainSentence(links, at({ a: [0, 10], b: [13, 20] }))).toBe(
      'Ready at the end of a chain of 2 tasks: 10 of its 20 min keep the same hands at other work, 3 wait for a free hand, 7 are the last task.',
    )
  })

  test('names everything that can be waited for', () => {
    const chain = (wait: string) =>
      `Ready at the end of a chain of 2 tasks: 12 of its 15 min ${wait}, 3 are the last task.`
    const taskKey = 'a'
    const resource = (key: string, label: string) => waitsFor({ kind: 'resource', key, label, taskKey })
    expect(waitsFor({ kind: 'after', taskKey })).toBe(chain('follow one task after the other'))
    expect(waitsFor({ kind: 'hands', laneId: ana, taskKey })).toBe(chain('wait for a free hand'))
    expect(waitsFor({ kind: 'skill', skill: 'sound', taskKey })).toBe(
      chain('wait for somebody who has the skill sound'),
    )
    expect(waitsFor({ kind: 'skill', skill: 'adult', taskKey })).toBe(chain('wait for an adult'))
    expect(waitsFor({ kind: 'skill', skill: 'crew', taskKey })).toBe(chain('wait for one of the crew'))
    expect(waitsFor({ ...trolley, taskKey })).toBe(chain('wait for a trolley for round tables'))
    expect(resource('tool:tool_vacuum', 'vacuum cleaners')).toBe(chain('wait for one of the vacuum cleaners'))
    expect(resource('passage:passage_lift', 'Goods lift')).toBe(chain('wait for the way through Goods lift'))
    expect(resource('quiet:room_hall', 'Quiet in Hall')).toBe(chain('wait because of quiet in Hall'))
    expect(resource('dark:room_hall', 'Dark in Hall')).toBe(chain('wait because of dark in Hall'))
    expect(resource('open:room_hall', 'Hall')).toBe(chain('wait for Hall to open'))
  })

  test('does not say that hands wait while they are at work', () => {
    const chain = (work: string) =>
      `Ready at the end of a chain of 2 tasks: 12 of its 15 min ${work}, 3 are the last task.`
    const taskKey = 'a'
    expect(worksUntil({ kind: 'hands', laneId: ana, taskKey })).toBe(
      chain('keep the same hands at other work'),
    )
    expect(worksUntil({ ...trolley, taskKey })).toBe(chain('keep the same hands at other work'))
    expect(worksUntil({ kind: 'skill', skill: 'sound', taskKey })).toBe(
      chain('keep somebody who has the skill sound at other work'),
    )
    expect(worksUntil({ kind: 'skill', skill: 'adult', taskKey })).toBe(chain('keep an adult at other work'))
  })

  test('says with what it begins, where that is not the room being clear', () => {
    const one = (start: string) => `Ready at the end of one task of 10 min that ${start}.`
    const taskKey = null
    const resource = (key: string, label: string) => begins({ kind: 'resource', key, label, taskKey })
    expect(begins({ kind: 'release' })).toBe(one('begins when the room is clear'))
    expect(begins({ kind: 'duty-begins', laneId: ana })).toBe(one('begins when a hand comes on duty'))
    expect(begins({ kind: 'held-elsewhere', laneId: ana })).toBe(one('begins when a hand comes free'))
    expect(begins({ kind: 'skill', skill: 'adult', taskKey })).toBe(one('begins when an adult comes free'))
    expect(begins({ ...trolley, taskKey })).toBe(one('begins when a trolley for round tables is free'))
    expect(resource('tool:tool_vacuum', 'vacuum cleaners')).toBe(
      one('begins when one of the vacuum cleaners is free'),
    )
    expect(resource('passage:passage_lift', 'Goods lift')).toBe(
      one('begins when the way through Goods lift is free'),
    )
    expect(resource('quiet:room_hall', 'Quiet in Hall')).toBe(one('begins when quiet in Hall allows it'))
    expect(resource('open:room_hall', 'Hall')).toBe(one('begins when Hall opens'))
    expect(begins({ kind: 'nothing' })).toBe(one('could begin earlier'))
    const links = [
      link('a', { kind: 'duty-begins', laneId: ana }),
      link('b', { kind: 'after', taskKey: 'a' }),
    ]
    expect(chainSentence(links, at({ a: [5, 15], b: [15, 19] }))).toBe(
      'Ready at the end of a chain of 2 tasks that begins when a hand comes on duty: 10 of its 14 min follow one task after the other, 4 are the last task.',
    )
  })

  test('has whole minutes that add up, and leaves out what comes to none', () => {
    const links = [
      released('a'),
      link('b', { kind: 'hands', laneId: ana, taskKey: 'a' }),
      link('c', { kind: 'after', taskKey: 'b' }),
      link('d', { ...trolley, taskKey: 'c' }),
    ]
    // 3.2 + 2.7 + 0.4 + 1.7 min are eight; the two that lose most by rounding down are rounded up.
    const tasks = at({ a: [0, 3.2], b: [3.2, 5.9], c: [5.9, 6.3], d: [6.3, 8] })
    expect(chainSentence(links, tasks)).toBe(
      'Ready at the end of a chain of 4 tasks: 3 of its 8 min keep the same hands at other work, 3 follow one task after the other, 2 are the last task.',
    )
  })

  test('speaks of one minute as one', () => {
    const links = [released('a'), link('b', { kind: 'hands', laneId: ana, taskKey: 'a' })]
    expect(chainSentence(links, at({ a: [0, 1], b: [1, 2] }))).toBe(
      'Ready at the end of a chain of 2 tasks: 1 of its 2 min keeps the same hands at other work, 1 is the last task.',
    )
  })

  test('of no work is that there is none', () => {
    expect(chainSentence([], [])).toBe('Ready at once: there is nothing to do.')
  })
})

describe('the names in a chain', () => {
  const place = {
    room: { id: 'room_hall', name: 'Hall' },
    network: { storagePlaces: [{ id: 'storage_north', name: 'North store' }], equipmentFrom: [] },
  }
  const part = (firstActivity: number, ...keys: string[]) => ({
    firstActivity,
    input: place,
    network: {
      tasks: keys.map(aTask),
      resources: [{ key: trolley.key, label: trolley.label, capacity: 2 }],
    },
  })
  const named = (parts: ReturnType<typeof part>[], steps: readonly ChainStep[]) =>
    chainLinks(
      {
        instance: { resources: [trolley, { key: 'open:storage_north' }, { key: 'open:room_hall' }] },
        lanes: [{ laneId: ana }, { laneId: second }],
        skills: ['lights', 'sound', 'adult', 'crew'],
        parts,
      },
      steps,
    )

  test('are those of the tasks, hands, things and skills', () => {
    const steps: ChainStep[] = [
      { activity: 0, binds: { kind: 'duty', lane: 1 } },
      { activity: 1, binds: { kind: 'after', activity: 0 } },
      { activity: 2, binds: { kind: 'lane', lane: 0, activity: 1 } },
      { activity: 3, binds: { kind: 'resource', resource: 0, activity: 2 } },
      { activity: 4, binds: { kind: 'skill', skillMask: 0b0110, activity: 3 } },
    ]
    const links = named([part(0, 'a', 'b', 'c', 'd', 'e')], steps)
    expect(links).toEqual([
      { taskKey: 'a', binds: { kind: 'duty-begins', laneId: second } },
      { taskKey: 'b', binds: { kind: 'after', taskKey: 'a' } },
      { taskKey: 'c', binds: { kind: 'hands', laneId: ana, taskKey: 'b' } },
      { taskKey: 'd', binds: { ...trolley, taskKey: 'c' } },
      { taskKey: 'e', binds: { kind: 'skill', skill: 'sound', taskKey: 'd' } },
    ])
    expect(links.map((one) => ChainLink.parse(one))).toEqual(links)
  })

  test('of what it begins with are those too', () => {
    const first = (binds: ChainStep['binds']) => named([part(0, 'a')], [{ activity: 0, binds }])[0]?.binds
    expect(first({ kind: 'release' })).toEqual({ kind: 'release' })
    expect(first({ kind: 'lane-held', lane: 0 })).toEqual({ kind: 'held-elsewhere', laneId: ana })
    expect(first({ kind: 'none' })).toEqual({ kind: 'nothing' })
    expect(first({ kind: 'skill', skillMask: 0b0100, activity: null })).toEqual({
      kind: 'skill',
      skill: 'adult',
      taskKey: null,
    })
    expect(first({ kind: 'resource', resource: 1, activity: null })).toEqual({
      kind: 'resource',
      key: 'open:storage_north',
      label: 'North store',
      taskKey: null,
    })
    expect(first({ kind: 'resource', resource: 2, activity: null })).toMatchObject({ label: 'Hall' })
  })

  test('are only those of its own turn, where the chain comes from another one planned with it', () => {
    const parts = [part(0, 'a', 'b'), part(2, 'a', 'c')]
    const steps: ChainStep[] = [
      { activity: 2, binds: { kind: 'release' } },
      { activity: 0, binds: { kind: 'lane', lane: 0, activity: 2 } },
      { activity: 3, binds: { kind: 'lane', lane: 1, activity: 0 } },
    ]
    expect(named(parts, steps)).toEqual([{ taskKey: 'c', binds: { kind: 'held-elsewhere', laneId: second } }])
    expect(named(parts, steps.slice(0, 2))).toEqual([
      { taskKey: 'a', binds: { kind: 'held-elsewhere', laneId: ana } },
    ])
  })

  test('are none where nothing is to be done', () => {
    expect(named([part(0)], [])).toEqual([])
  })
})

describe('the chain of the golden turn from games to banquet', () => {
  const network = taskNetwork(gamesToBanquet.input)
  const chainWith = (handsCount: number) => {
    const instance = instanceOfNetwork(network, handsCount)
    const { schedule } = solve(instance, { workMost: 20, seed: 1 })
    const lanes = instance.lanes.map((_, index) => ({ laneId: LaneId.parse(`shift_evening#${index + 1}`) }))
    const parts = [
      {
        firstActivity: 0,
        network,
        input: { room: gamesToBanquet.input.room, network: gamesToBanquet.input },
      },
    ]
    const links = chainLinks(
      { instance, lanes, skills: ['adult'], parts },
      criticalChain(instance, schedule!, 0),
    )
    const tasks = network.tasks.map((task, index): PlannedTask => {
      const { startTick, endTick, lanes: own } = schedule!.activities[index]!
      return PlannedTask.parse({
        ...task,
        hands: own.length,
        laneIds: own.map((each) => lanes[each]!.laneId),
        startsAt: evening + startTick * TICK_SECONDS * 1000,
        endsAt: evening + endTick * TICK_SECONDS * 1000,
      })
    })
    return { links, tasks, minutes: Math.ceil((schedule!.readyTicks[0]! * TICK_SECONDS) / 60) }
  }

  test.each([2, 4, 6])(
    'with %i hands adds up to the time until ready, from the room being clear on',
    (handsCount) => {
      const { links, tasks, minutes } = chainWith(handsCount)
      expect(links[0]).toEqual({ taskKey: 'briefing', binds: { kind: 'release' } })
      expect(links.at(-1)?.taskKey).toBe('sign-off')
      const sentence = chainSentence(links, tasks)
      const numbers = [...sentence.matchAll(/(\d+)(?= (?:of its|wait|follow|keep|are))/g)].map(([found]) =>
        Number(found),
      )
      expect(numbers.reduce((sum, count) => sum + count, 0)).toBe(minutes)
      expect(sentence).toContain(`of its ${minutes} min`)
    },
  )
})
