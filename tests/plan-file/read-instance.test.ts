import { describe, expect, test } from 'vitest'
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { readInstance } from '../../src/plan-file/read-instance.ts'
import { aDocument } from './a-document.ts'

const instanceOf = (parts: Parameters<typeof aDocument>[0]) =>
  readInstance(JSON.stringify(aDocument(parts))).instance

function faultOf(text: string): string {
  try {
    readInstance(text)
  } catch (fault) {
    if (fault instanceof InputFault) return fault.message
    throw fault
  }
  return 'none'
}

describe('a file', () => {
  test('is refused where a walk is longer one way than the other, with the names of the places', () => {
    const places = {
      keys: ['hall', 'attic'],
      walkTicks: [
        [0, 1],
        [2, 0],
      ],
    }
    expect(faultOf(JSON.stringify(aDocument({ places })))).toBe(
      '/places/walkTicks: 1 from hall to attic and 2 back; it must be the same both ways.',
    )
  })

  test('that says only what it must is one turn, whenever, in one place', () => {
    expect(instanceOf({})).toEqual({
      horizonTick: 100,
      turns: [{ releaseTick: 0, dueTick: 100, weight: 1 }],
      activities: [
        {
          key: 'sweep',
          turn: 0,
          place: 0,
          after: [],
          modes: [{ durationTicks: 10, hands: [{ count: 1, skillMask: 0 }], uses: [], consumes: [] }],
        },
      ],
      resources: [],
      consumables: [],
      budgets: [],
      lanes: [{ key: 'Ada', skillMask: 0, available: [{ from: 0, to: 100 }], busy: [] }],
      walkTicks: [[0]],
    })
  })

  test('names things by key, in any order', () => {
    const instance = instanceOf({
      turns: [{ key: 'hall' }, { key: 'garden', releaseTick: 5, dueTick: 40, weight: 3 }],
      activities: [
        { key: 'lay', turn: 'garden', place: 'attic', after: ['mop'], modes: [{ durationTicks: 1 }] },
        {
          key: 'mop',
          turn: 'hall',
          modes: [
            {
              durationTicks: 2,
              hands: [{ count: 2, skills: ['wet', 'dry'] }],
              uses: [{ resource: 'bucket', amount: 2 }],
              consumes: [{ consumable: 'soap', amount: 7 }],
            },
          ],
        },
      ],
      resources: [
        { key: 'trolley', capacity: [{ fromTick: 4, amount: 1 }] },
        { key: 'bucket', capacity: 2 },
      ],
      consumables: [
        { key: 'salt', amountMost: 1 },
        { key: 'soap', amountMost: 9 },
      ],
      budgets: [
        { key: 'grant', laneTicksMost: 4 },
        { key: 'wages', laneTicksMost: 5 },
      ],
      lanes: [
        {
          key: 'Ada',
          skills: ['wet'],
          available: [{ fromTick: 0, toTick: 9 }],
          busy: [{ fromTick: 1, toTick: 2, place: 'attic' }],
          budget: 'wages',
        },
      ],
      places: {
        keys: ['cellar', 'attic'],
        walkTicks: [
          [0, 3],
          [3, 0],
        ],
      },
    })
    expect(instance).toEqual({
      horizonTick: 100,
      turns: [
        { releaseTick: 0, dueTick: 100, weight: 1 },
        { releaseTick: 5, dueTick: 40, weight: 3 },
      ],
      activities: [
        {
          key: 'lay',
          turn: 1,
          place: 1,
          after: [1],
          modes: [{ durationTicks: 1, hands: [], uses: [], consumes: [] }],
        },
        {
          key: 'mop',
          turn: 0,
          place: 0,
          after: [],
          modes: [
            {
              durationTicks: 2,
              // Bits in order of name: dry 1, wet 2.
              hands: [{ count: 2, skillMask: 3 }],
              uses: [{ resource: 1, amount: 2 }],
              consumes: [{ consumable: 1, amount: 7 }],
            },
          ],
        },
      ],
      resources: [
        { key: 'trolley', capacity: [{ fromTick: 4, amount: 1 }] },
        { key: 'bucket', capacity: [{ fromTick: 0, amount: 2 }] },
      ],
      consumables: [
        { key: 'salt', amountMost: 1 },
        { key: 'soap', amountMost: 9 },
      ],
      budgets: [
        { key: 'grant', laneTicksMost: 4 },
        { key: 'wages', laneTicksMost: 5 },
      ],
      lanes: [
        {
          key: 'Ada',
          skillMask: 2,
          available: [{ from: 0, to: 9 }],
          busy: [{ from: 1, to: 2, place: 1 }],
          budget: 1,
        },
      ],
      walkTicks: [
        [0, 3],
        [3, 0],
      ],
    })
  })

  const sweep = aDocument().activities[0]!
  const ada = aDocument().lanes![0]!
  const doing = (mode: object) => ({ activities: [{ ...sweep, modes: [{ durationTicks: 1, ...mode }] }] })
  test.each<[string, Parameters<typeof aDocument>[0], string]>([
    [
      'a key twice',
      { activities: [sweep, sweep] },
      '/activities: the key sweep occurs twice; give each its own.',
    ],
    ['a hand twice', { lanes: [ada, ada] }, '/lanes: the key Ada occurs twice; give each its own.'],
    [
      'a task after one that is not there',
      { activities: [{ ...sweep, after: ['mop'] }] },
      '/activities/0 (sweep)/after: there is no mop among /activities.',
    ],
    [
      'a task of no turn where there are two',
      { turns: [{ key: 'hall' }, { key: 'garden' }] },
      '/activities/0 (sweep): there are 2 turns, so it must say which is its own.',
    ],
    [
      'a turn that is not there',
      { activities: [{ ...sweep, turn: 'attic' }] },
      '/activities/0 (sweep)/turn: there is no attic among /turns.',
    ],
    [
      'a place that is not there',
      { activities: [{ ...sweep, place: 'attic' }] },
      '/activities/0 (sweep)/place: there is no attic among /places.',
    ],
    [
      'a resource that is not there',
      doing({ uses: [{ resource: 'mop', amount: 1 }] }),
      '/activities/0 (sweep)/modes/0/uses: there is no mop among /resources.',
    ],
    [
      'a consumable that is not there',
      doing({ consumes: [{ consumable: 'soap', amount: 1 }] }),
      '/activities/0 (sweep)/modes/0/consumes: there is no soap among /consumables.',
    ],
    [
      'a budget that is not there',
      { lanes: [{ ...ada, budget: 'wages' }] },
      '/lanes/0 (Ada)/budget: there is no wages among /budgets.',
    ],
    [
      'a row of walks too few',
      { places: { keys: ['cellar', 'attic'], walkTicks: [[0, 1]] } },
      '/places/walkTicks: 1 rows for 2 places.',
    ],
    [
      'more skills than can be told apart',
      {
        lanes: [...'ab'].map((key) => ({
          ...ada,
          key,
          skills: Array.from({ length: 16 }, (_, n) => `${key}${n}`),
        })),
      },
      'There are 32 different skills; 31 can be told apart.',
    ],
    [
      'tasks that wait for each other',
      {
        activities: [
          { ...sweep, after: ['mop'] },
          { ...sweep, key: 'mop', after: ['sweep'] },
        ],
      },
      'It cannot be planned:\nactivities wait for each other: sweep → mop → sweep',
    ],
    [
      'hands held for no time, and duty that overlaps',
      {
        ...doing({ durationTicks: 0, hands: [{ count: 1 }] }),
        lanes: [
          {
            ...ada,
            available: [
              { fromTick: 0, toTick: 5 },
              { fromTick: 4, toTick: 9 },
            ],
          },
        ],
      },
      'It cannot be planned:\n' +
        'activity sweep, mode 0: without a duration it can hold neither hands nor resources\n' +
        'lane Ada, on duty: 4 to 9 begins before 0 to 5 has ended',
    ],
  ])('is refused for %s', (_, parts, message) => {
    expect(faultOf(JSON.stringify(aDocument(parts)))).toBe(message)
  })

  test('is refused for everything that is wrong with its form together, each with its place', () => {
    const message = faultOf(JSON.stringify({ ...aDocument(), version: 2, horizonTick: -1, colour: 'red' }))
    expect(message).toContain('It is no turnwright-instance 1:\n')
    for (const where of ['at version', 'at horizonTick', '"colour"']) expect(message).toContain(where)
  })

  test('is refused when it is not JSON', () => {
    expect(faultOf('{')).toMatch(/^It is not JSON: /)
  })
})
