/** Four tasks, two hands: every number is worked by hand. */
import { describe, expect, test } from 'vitest'
import { Person } from '../../../src/domain/person.ts'
import type { Task } from '../../../src/domain/task.ts'
import { TurnProgress } from '../../../src/domain/turn-progress.ts'
import { replannedTurn } from '../../../src/scheduler/replan/index.ts'
import { aShift, at } from '../decide/a-hall.ts'
import {
  askedAt,
  evening,
  fourTasks,
  lane,
  NOTHING_TOLD,
  partDone,
  plannedTask,
  replannedAt,
  shown,
  told,
} from './a-part-done-turn.ts'

describe('paid time', () => {
  // 10 + 15 + 10 + 2 × 10 min of work: 55 min.
  const shift = { ...aShift('crew', 2, '2026-06-05T06:00', '2026-06-06T23:59'), paid: true }
  const paidFor = (minutes: number) =>
    partDone(fourTasks(), { hall: { shifts: [shift], policy: { paidPersonSecondsMost: minutes * 60 } } })

  test('that was worked is not there any more, and what is left is enough as planned', () => {
    const replanned = replannedAt(paidFor(55), '21:10', told({ done: ['clear'], running: { clean: 5 } }))
    expect(replanned.readyAt).toEqual(evening('21:30'))
  })

  test('that what is running takes longer is missed at the end: 10 and 20 min are worked, and 30 more are wanted', () => {
    const progress = told({ done: ['clear'], running: { clean: 10 } })
    expect(replannedAt(paidFor(55), '21:10', progress)).toMatchObject({
      plan: null,
      sentence:
        'What is left cannot be done: it takes 30 min of work at least, and 25 min of paid time are left.',
    })
    expect(replannedAt(paidFor(60), '21:10', progress).readyAt).toEqual(evening('21:30'))
  })
})

describe('a turn that goes as planned', () => {
  test('is kept to the letter before it begins', () => {
    const replanned = replannedAt(partDone(), '20:50', NOTHING_TOLD)
    expect(shown(replanned)).toEqual([
      'clean 21:00–21:15 2',
      'clear 21:00–21:10 1',
      'mark 21:10–21:20 1',
      'check 21:20–21:30 1+2',
    ])
    expect(replanned).toMatchObject({ way: 'as-planned', changes: [], slackSeconds: 600, warnings: [] })
    expect(replanned.sentence).toBe('Ready at 21:30, 10 min before it must be, at 21:40.')
  })

  test('is ready when it was to be, what is done is not in it, and what runs keeps its hand until it ends', () => {
    const replanned = replannedAt(partDone(), '21:10', told({ done: ['clear'], running: { clean: 5 } }))
    expect(shown(replanned)).toEqual(['clean 21:10–21:15 2', 'mark 21:10–21:20 1', 'check 21:20–21:30 1+2'])
    expect(replanned).toMatchObject({ way: 're-timed', changes: [], readyAt: evening('21:30') })
  })

  test('says what leaving out the marks saves: five minutes, for the floor is clean only at 21:15', () => {
    const { dropList } = replannedAt(partDone(), '21:10', told({ done: ['clear'], running: { clean: 5 } }))
    expect(dropList).toEqual({
      items: [
        {
          taskKeys: ['mark'],
          savedSeconds: 300,
          readyAt: evening('21:25'),
          sentence: 'Leave out marking out in Long Room: ready 5 min sooner, at 21:25.',
        },
      ],
      all: null,
      notListed: 0,
    })
  })
})

describe('a turn that is ready on another day', () => {
  test('is said to be so with the day', () => {
    const long = fourTasks().map((task) =>
      task.key === 'check' ? { ...task, modes: [{ hands: 2, seconds: 4 * 3600 }] } : task,
    )
    expect(replannedAt(partDone(long), '21:10', told({ done: ['clear', 'clean', 'mark'] })).sentence).toBe(
      'Ready Sat 6 Jun 01:10, 3 h 30 min after it must be, Fri 5 Jun 21:40.',
    )
  })

  test('or just when it must be is said to be so', () => {
    const { sentence } = replannedAt(partDone(fourTasks(), { doors: '21:30' }), '20:50', NOTHING_TOLD)
    expect(sentence).toBe('Ready at 21:30, just when it must be.')
  })
})

describe('a turn that does not go as planned', () => {
  test('waits for what takes longer, and then the marks hold nobody up', () => {
    const replanned = replannedAt(partDone(), '21:10', told({ done: ['clear'], running: { clean: 12 } }))
    expect(shown(replanned)).toEqual(['clean 21:10–21:22 2', 'mark 21:10–21:20 1', 'check 21:22–21:32 1+2'])
    expect(replanned.dropList.items.map(({ sentence }) => sentence)).toEqual([
      'Leave out marking out in Long Room: that saves no time now.',
    ])
  })

  test('goes on at once where it is ahead', () => {
    const replanned = replannedAt(partDone(), '21:05', told({ done: ['clear', 'clean'] }))
    expect(shown(replanned)).toEqual(['mark 21:05–21:15 1', 'check 21:15–21:25 1+2'])
    expect(replanned.changes).toEqual([])
  })

  test('goes over to who is left when a hand goes home, and tells both of them', () => {
    const replanned = replannedAt(
      partDone(),
      '21:10',
      told({ done: ['clear'], running: { clean: 5 }, missing: [{ laneId: lane(1) }] }),
    )
    expect(shown(replanned)).toEqual(['clean 21:10–21:15 2', 'mark 21:15–21:25 2', 'check 21:25–21:45 2'])
    expect(replanned.way).toBe('made-anew')
    expect(replanned.slackSeconds).toBe(-300)
    expect(replanned.sentence).toBe('Ready at 21:45, 5 min after it must be, at 21:40.')
    const check = { key: 'check', text: 'Do check. For whoever has it.' }
    const mark = { key: 'mark', text: 'Do mark. For whoever has it.' }
    expect(replanned.changes).toEqual([
      { laneId: lane(1), newTasks: [], goneTasks: [mark, check] },
      { laneId: lane(2), newTasks: [mark], goneTasks: [] },
    ])
    expect(replanned.dropList.items).toEqual([
      {
        taskKeys: ['mark'],
        savedSeconds: 600,
        readyAt: evening('21:35'),
        sentence: 'Leave out marking out in Long Room: ready 10 min sooner, at 21:35.',
      },
    ])
  })

  test('is not put off to the next day by a hand that goes home, where those who stay can do it', () => {
    const shifts = [
      aShift('crew', 2, '2026-06-05T06:00', '2026-06-05T23:59'),
      aShift('day', 2, '2026-06-06T08:00', '2026-06-06T16:00'),
    ]
    const part = partDone(fourTasks(), { doors: '2026-06-06T16:00', hall: { shifts } })
    const progress = told({ done: ['clear'], running: { clean: 5 }, missing: [{ laneId: lane(1) }] })
    // Both at the check would have to wait for the morning.
    expect(shown(replannedAt(part, '21:10', progress))).toEqual([
      'clean 21:10–21:15 2',
      'mark 21:15–21:25 2',
      'check 21:25–21:45 2',
    ])
  })

  test('waits for a hand that is only away for a while', () => {
    const away = { laneId: lane(1), fromAt: evening('21:10'), toAt: evening('21:12') }
    const replanned = replannedAt(
      partDone(),
      '21:10',
      told({ done: ['clear'], running: { clean: 5 }, missing: [away] }),
    )
    expect(shown(replanned)).toEqual(['clean 21:10–21:15 2', 'mark 21:12–21:22 1', 'check 21:22–21:32 1+2'])
    expect(replanned.changes).toEqual([])
  })

  test('is as quick as planned with somebody who comes in place of who goes', () => {
    const replanned = replannedAt(
      partDone(fourTasks(), { doors: '21:31' }),
      '21:10',
      told({ done: ['clear'], running: { clean: 5 }, missing: [{ laneId: lane(1) }], added: [{}] }),
    )
    expect(replanned.addedLaneIds).toEqual(['assumed#1'])
    expect(replanned.readyAt).toBe(evening('21:30'))
    expect(replanned.plan?.tasks.find(({ key }) => key === 'mark')?.laneIds).toEqual(['assumed#1'])
    // Who has come is no assumption.
    expect(replanned.warnings).toEqual([])
  })

  test('that nobody is there for any more has no plan, and says so', () => {
    const missing = [{ laneId: lane(1) }, { laneId: lane(2) }]
    const replanned = replannedAt(partDone(), '21:10', told({ done: ['clear', 'clean'], missing }))
    expect(replanned).toMatchObject({
      plan: null,
      way: null,
      readyAt: null,
      slackSeconds: null,
      sentence: 'What is left cannot be done: nobody is there.',
      changes: [],
      dropList: { items: [], all: null },
    })
  })
})

describe('what cannot be done by those who are there', () => {
  const sentence = (parts: Partial<Task>) => {
    const tasks = fourTasks().map((task) => (task.key === 'check' ? { ...task, ...parts } : task))
    const missing = [{ laneId: lane(1) }]
    return replannedAt(partDone(tasks), '21:10', told({ done: ['clear', 'clean'], missing })).sentence
  }

  test('for want of a skill names the skill', () => {
    expect(sentence({ skill: 'sound' })).toBe(
      'What is left cannot be done: nobody who is there has the skill sound.',
    )
  })

  test('for want of hands names the task', () => {
    expect(sentence({ modes: [{ hands: 2, seconds: 600 }] })).toBe(
      'What is left cannot be done: “Do check” takes 2 hands, and there is 1.',
    )
  })

  test('before the shift is over is not done at all', () => {
    expect(sentence({ modes: [{ hands: 1, seconds: 40 * 3600 }] })).toBe(
      'What is left cannot be done with those who are there within a day.',
    )
  })
})

describe('what is told in another order than planned', () => {
  test('is taken with a warning, and what comes after still waits for what is not done', () => {
    const replanned = replannedAt(partDone(), '21:10', told({ done: ['mark'], running: { clean: 5 } }))
    expect(shown(replanned)).toEqual(['clean 21:10–21:15 2', 'clear 21:10–21:20 1', 'check 21:20–21:30 1+2'])
    expect(replanned.warnings).toEqual([
      {
        code: 'out-of-order',
        taskKey: 'mark',
        laneIds: [],
        message:
          '“Do mark” is told as done, and what comes before it is not done: “Do clear”. What comes after it still waits for that.',
      },
    ])
  })
})

describe('what is told that cannot be', () => {
  test('is refused, each fault with its place', () => {
    const progress = TurnProgress.parse({
      done: [
        { taskKey: 'clear' },
        { taskKey: 'clear' },
        { taskKey: 'polish' },
        { taskKey: 'check', doneAt: evening('21:11') },
      ],
      running: [
        { taskKey: 'clear', secondsLeft: 60 },
        { taskKey: 'clean', secondsLeft: 60, laneIds: [lane(1), 'shift_night#1'] },
        { taskKey: 'mark', secondsLeft: 60 },
      ],
      missing: [{ laneId: 'shift_night#2', fromAt: evening('21:20'), toAt: evening('21:20') }],
      added: [{ personId: 'person_stranger' }],
      stands: {
        pieces: [
          { furnishingId: 'furnishing_chair', count: 4, inPlace: 5 },
          { furnishingId: 'furnishing_chair', count: 4 },
          { furnishingId: 'furnishing_throne', count: 1 },
        ],
        equipment: [{ equipmentId: 'equipment_organ', setting: { kind: 'off' } }],
      },
    })
    const answer = askedAt(partDone(), '21:10', progress)
    expect(answer).toEqual({
      kind: 'faults',
      faults: [
        { at: '/done/1/taskKey', message: 'task clear is listed twice; list it once' },
        { at: '/done/2/taskKey', message: 'the plan of this turn has no task polish' },
        {
          at: '/running/0/taskKey',
          message: 'task clear is told as done and as running; it is one or the other',
        },
        {
          at: '/done/3/doneAt',
          message: 'nothing is done yet that is done later: it must not be after the moment asked about',
        },
        {
          at: '/running/1/laneIds/0',
          message: 'shift_crew#1 is at clear already; say who is at which of them',
        },
        {
          at: '/running/1/laneIds/1',
          message: 'shift_night#1 is neither on duty nor in the plan of this turn',
        },
        { at: '/running/2', message: 'shift_crew#1 is at clean already; say who is at which of them' },
        {
          at: '/missing/0/laneId',
          message: 'shift_night#2 is neither on duty nor in the plan of this turn',
        },
        { at: '/missing/0/toAt', message: 'it must be after fromAt' },
        { at: '/added/0/personId', message: 'there is no person person_stranger in this site' },
        { at: '/stands/pieces/0/inPlace', message: '5 of 4 cannot be in place' },
        {
          at: '/stands/pieces/1/furnishingId',
          message: 'furnishing furnishing_chair is listed twice; list it once',
        },
        {
          at: '/stands/pieces/2/furnishingId',
          message: 'there is no furnishing furnishing_throne in this site',
        },
        { at: '/stands/equipment/0/equipmentId', message: 'Long Room has no equipment equipment_organ' },
      ],
    })
  })

  test('is refused where one thing contradicts another', () => {
    const progress = TurnProgress.parse({
      done: [{ taskKey: 'clear' }],
      running: [
        { taskKey: 'clean', secondsLeft: 60, laneIds: [] },
        { taskKey: 'mark', secondsLeft: 60, laneIds: [lane(1)] },
      ],
      missing: [],
      added: [],
      stands: {
        pieces: [
          { furnishingId: 'furnishing_chair', count: 999 },
          { furnishingId: 'furnishing_cloth', count: 4, inPlace: 1, strayByZone: [{ zone: 1, count: 2 }] },
          { furnishingId: 'furnishing_round-table', count: 2, strayByZone: [{ zone: 12, count: 2 }] },
        ],
      },
    })
    expect(askedAt(partDone(), '21:10', progress)).toEqual({
      kind: 'faults',
      faults: [
        {
          at: '/running/0/laneIds',
          message: 'somebody must be at it: name them, or leave laneIds out for those the plan has for it',
        },
        {
          at: '/stands/pieces/0/count',
          message:
            '999 chairs cannot stand there: the site owns 320; enter what else is borrowed as a stock change',
        },
        {
          at: '/stands/pieces/1/strayByZone',
          message: '3 of 4 are not in place, and 2 are named by zone',
        },
        { at: '/stands/pieces/2/strayByZone/0/zone', message: 'the floor has 3 zones' },
        {
          at: '/stands/pieces/2/inPlace',
          message: 'say how many are in place where you say where the others are',
        },
      ],
    })
  })

  test('is refused where somebody has come and is missing, is told twice, or more is in place than is wanted', () => {
    const { snapshot } = partDone()
    const person = { id: 'person_ada', siteId: 'site_test', adult: true, skills: [], skillDates: [] }
    const part = { ...partDone(), snapshot: { ...snapshot, people: [Person.parse(person)] } }
    const progress = TurnProgress.parse({
      done: [],
      running: [],
      missing: [{ laneId: 'person_ada' }, { laneId: 'person_ada' }],
      added: [{ personId: 'person_ada' }, { personId: 'person_ada', skills: ['sound'] }],
      stands: {
        pieces: [
          { furnishingId: 'furnishing_chair', count: 300, inPlace: 300 },
          {
            furnishingId: 'furnishing_cloth',
            count: 4,
            inPlace: 0,
            strayByZone: [
              { zone: 1, count: 2 },
              { zone: 1, count: 2 },
            ],
          },
        ],
      },
    })
    const answer = askedAt(part, '21:10', progress)
    if (answer.kind !== 'faults') throw new Error(answer.kind)
    expect(answer.faults.map(({ at, message }) => `${at}: ${message}`)).toEqual([
      '/missing/1/laneId: person_ada is listed twice; list it once',
      '/added/0/personId: person_ada is told as missing at the same time',
      '/added/1/personId: person_ada is listed twice; list them once',
      '/added/1/skills: the skills of somebody listed are on record; leave them out',
      '/added/1/personId: person_ada is told as missing at the same time',
      expect.stringMatching(/^\/stands\/pieces\/0\/inPlace: 300 cannot be in place: .+ has \d+$/),
      '/stands/pieces/1/strayByZone/1/zone: zone 1 is listed twice; list it once',
    ])
  })

  test('is warned of where somebody is at work who is told to be missing', () => {
    const progress = TurnProgress.parse({
      done: [{ taskKey: 'clear' }],
      running: [{ taskKey: 'clean', secondsLeft: 120, laneIds: [lane(1)] }],
      missing: [{ laneId: lane(1) }],
      added: [],
      stands: null,
    })
    const answer = askedAt(partDone(), '21:10', progress)
    if (answer.kind !== 'replanned') throw new Error(answer.kind)
    expect(answer.replanned.warnings).toContainEqual({
      code: 'missing-at-work',
      taskKey: 'clean',
      laneIds: [lane(1)],
      message: expect.stringContaining('is told to be missing before that is over'),
    })
  })

  test('is refused where it is told days before the turn can begin', () => {
    const { snapshot, turn } = partDone()
    const early = { ...snapshot, now: at('2026-06-03T20:59') }
    expect(replannedTurn(early, turn, told({ done: ['clear'] }))).toEqual({
      kind: 'faults',
      faults: [
        {
          at: '/done',
          message: 'more than 48 h before those before are out nothing of it can be done or running',
        },
      ],
    })
    expect(replannedTurn(early, turn, NOTHING_TOLD).kind).toBe('replanned')
  })

  test('with everything done leaves nothing, and the room is ready since the last of it was', () => {
    const all = told({ done: ['clear', 'clean', 'mark', 'check'] })
    const answer = askedAt(partDone(), '21:30', all)
    if (answer.kind !== 'replanned') throw new Error(answer.kind)
    const { plan, readyAt, dropList, sentence } = answer.replanned
    expect([plan?.tasks, dropList.items, readyAt]).toEqual([[], [], evening('21:30')])
    expect(sentence).toMatch(/^Everything of it is done\. Ready at 21:30, /)
    const known = {
      ...all,
      done: all.done.map((one, index) => ({ ...one, doneAt: evening(`21:1${index}`) })),
    }
    const since = askedAt(partDone(), '21:30', known)
    expect(since.kind === 'replanned' && since.replanned.readyAt).toBe(evening('21:13'))
  })

  test('of a turn that is over is answered by that', () => {
    expect(askedAt(partDone(), '23:50', NOTHING_TOLD)).toEqual({
      kind: 'turn-is-over',
      message: 'What the room was turned for is over.',
    })
    const { snapshot, turn } = partDone()
    const dropped = { ...turn, status: 'dropped' as const }
    expect(askedAt({ snapshot, turn: dropped }, '21:10', NOTHING_TOLD)).toEqual({
      kind: 'turn-is-over',
      message: 'The turn was given up: its room is not turned any more.',
    })
    expect(askedAt({ snapshot, turn: { ...turn, plan: null } }, '21:10', NOTHING_TOLD)).toEqual({
      kind: 'no-plan',
      message: 'The turn has no plan to go on from: it was found to be impossible.',
    })
  })
})

describe('who is told something new', () => {
  test('is only who takes over, where a hand goes home and the rest goes on in order', () => {
    const tasks = [
      plannedTask({ key: 'first', hands: [1], startsAt: '21:00', minutes: 5 }),
      plannedTask({ key: 'north', hands: [1], startsAt: '21:05', minutes: 15, after: ['first'] }),
      plannedTask({ key: 'south', hands: [2], startsAt: '21:05', minutes: 15, after: ['first'] }),
      plannedTask({ key: 'side', hands: [3], startsAt: '21:05', minutes: 5, after: ['first'] }),
    ]
    const part = partDone(tasks, { hands: 3, doors: '21:25' })
    const { way, readyAt, changes } = replannedAt(
      part,
      '21:05',
      told({ done: ['first'], missing: [{ laneId: lane(3) }] }),
    )
    expect({ way, readyAt }).toEqual({ way: 're-timed', readyAt: evening('21:25') })
    expect(changes.flatMap(({ goneTasks }) => goneTasks.map(({ key }) => key))).toEqual(['side'])
    expect(changes.flatMap(({ newTasks }) => newTasks.map(({ key }) => key))).toEqual(['side'])
  })

  test('is only who helps out, where the plan is made anew and hands can stand in for each other', () => {
    // Hand 2 stands by; hand 1 has ten minutes three times over. Half an hour is too long.
    const tasks = [
      plannedTask({ key: 'one', hands: [1], startsAt: '21:00', minutes: 10 }),
      plannedTask({ key: 'two', hands: [1], startsAt: '21:10', minutes: 10 }),
      plannedTask({ key: 'three', hands: [1], startsAt: '21:20', minutes: 10 }),
      plannedTask({ key: 'long', hands: [3], startsAt: '21:00', minutes: 20 }),
    ]
    const { way, readyAt, changes } = replannedAt(
      partDone(tasks, { hands: 3, doors: '21:20' }),
      '21:00',
      NOTHING_TOLD,
    )
    expect({ way, readyAt }).toEqual({ way: 'made-anew', readyAt: evening('21:20') })
    expect(changes.map(({ laneId }) => laneId)).toEqual([lane(1), lane(2)])
    expect(changes[0]?.newTasks).toEqual([])
    expect(changes[0]?.goneTasks).toEqual(changes[1]?.newTasks)
    expect(changes[1]?.newTasks).toHaveLength(1)
  })
})
