import { describe, expect, test } from 'vitest'
import { Passage } from '../../../src/domain/passage.ts'
import { Tool } from '../../../src/domain/tool.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aLayout,
  aTurn,
  banquet,
  chair,
  games,
  hall,
  northStore,
  pieces,
  roundTable,
  stageDeck,
} from './a-network-input.ts'
import { keyed, ofKind } from './a-network-question.ts'

const aPassage = (id: string, overrides: Partial<Passage>): Passage =>
  Passage.parse({ id: `passage_${id}`, siteId: hall.siteId, name: id, kind: 'doorway', ...overrides })
const through = (...passages: Passage[]) => ({
  passages,
  storagePlaces: [
    {
      ...northStore,
      routes: northStore.routes.map((route) => ({ ...route, passageIds: passages.map(({ id }) => id) })),
    },
  ],
})
const aTool = (id: string, overrides: Partial<Tool>): Tool =>
  Tool.parse({
    id: `tool_${id}`,
    siteId: hall.siteId,
    name: id,
    namePlural: `${id}s`,
    countOwned: 1,
    ...overrides,
  })

describe('a lot that goes through a doorway', () => {
  const network = taskNetwork(aTurn(games, banquet, through(aPassage('door', {}))))

  test('holds for each hand the share of its time that its trolley is in it, which is little', () => {
    const use = keyed(network, `set/${chair.id}/zone-1/1`).uses.find(
      ({ resource }) => resource === 'passage:passage_door',
    )
    // 17 chairs on a trolley: 4 m at 10 m in 15 s + 4 m at 1.6 m/s = 8.5 s of 253 s: 3.4 %
    expect(use).toEqual({ resource: 'passage:passage_door', amount: 4, perHand: true })
  })

  test('does not, when it stays in the room', () => {
    expect(keyed(network, `park/${chair.id}/zone-1/1`).uses).toEqual([])
  })

  test('shares the doorway with others: it has 100 for each trolley that passes at once', () => {
    expect(network.resources).toContainEqual({
      key: 'passage:passage_door',
      label: 'door',
      capacity: 100,
    })
    const wide = taskNetwork(aTurn(games, banquet, through(aPassage('gate', { trolleysAtOnce: 2 }))))
    expect(wide.resources.find(({ key }) => key === 'passage:passage_gate')!.capacity).toBe(200)
  })
})

describe('a lot that goes through a slow lift', () => {
  const network = taskNetwork(
    aTurn(games, banquet, through(aPassage('lift', { kind: 'lift', rideSeconds: 120 }))),
  )

  test('holds much of it, and has no more hands than it lets through', () => {
    for (const task of network.tasks) {
      const use = task.uses.find(({ resource }) => resource === 'passage:passage_lift')
      if (!use) continue
      for (const { hands } of task.modes) expect(use.amount * hands).toBeLessThanOrEqual(100)
    }
    const chairs = keyed(network, `set/${chair.id}/zone-1/1`)
    expect(chairs.uses.find(({ resource }) => resource === 'passage:passage_lift')!.amount).toBeGreaterThan(
      25,
    )
    expect(chairs.modes.at(-1)!.hands).toBeLessThan(4)
  })

  test('takes the ride on top of its work, without pace', () => {
    const without = taskNetwork(aTurn(games, banquet))
    const work = (of: typeof network) =>
      ofKind(of, 'set')
        .filter((task) => task.furnishingId === chair.id && task.fromPlace === northStore.name)
        .reduce((sum, task) => sum + task.workPersonSeconds, 0)
    // Two loads for the 33 or 34 chairs of each zone, one pusher, 240 s there and back.
    expect(Math.abs(work(network) - work(without) - 6 * 240)).toBeLessThan(12)
  })
})

describe('a way with stairs', () => {
  const network = taskNetwork(aTurn(games, banquet, through(aPassage('steps', { kind: 'stairs' }))))

  test('is gone without trolleys, at the times of work by hand', () => {
    expect(network.resources.some(({ key }) => key.startsWith('trolley:'))).toBe(false)
    expect(keyed(network, `set/${chair.id}/zone-1/1`).text).toMatch(/, 2 at a time, and/)
    // 7 chairs at 15.5 s instead of 7.5 s off a trolley, × 1.725
    expect(keyed(network, `park/${chair.id}/zone-1/1`).workPersonSeconds).toBe(Math.ceil(7 * 15.5 * 1.725))
  })

  test('has a note on who carries most', () => {
    expect(keyed(network, `set/${roundTable.id}/zone-1/1`).safetyNotes.join(' ')).toMatch(
      /On stairs and slopes the lower person may carry most/,
    )
  })
})

describe('tools', () => {
  test('are held one by each cleaner, and there are no more cleaners than tools', () => {
    const mop = aTool('mop', { cleaningMethods: ['dust-mop'] })
    const network = taskNetwork(aTurn(games, banquet, { tools: [mop] }))
    for (const task of ofKind(network, 'clean')) {
      expect(task.uses).toEqual([{ resource: 'tool:tool_mop', amount: 1, perHand: true }])
      expect(task.modes.map(({ hands }) => hands)).toEqual([1])
    }
    expect(network.resources).toContainEqual({ key: 'tool:tool_mop', label: 'mops', capacity: 1 })
  })

  test('for other methods make nobody wait', () => {
    const network = taskNetwork(
      aTurn(games, banquet, { tools: [aTool('mop', { cleaningMethods: ['wet-mop'] })] }),
    )
    for (const task of ofKind(network, 'clean')) expect(task.uses).toEqual([])
  })

  test('that several kinds of serve are those there are most of', () => {
    const few = aTool('a', { cleaningMethods: ['dust-mop'], countOwned: 1 })
    const many = aTool('b', { cleaningMethods: ['dust-mop'], countOwned: 3 })
    const network = taskNetwork(aTurn(games, banquet, { tools: [few, many] }))
    expect(ofKind(network, 'clean')[0]!.uses[0]!.resource).toBe('tool:tool_b')
  })

  test('for a furnishing are held one by the team that sets it up or takes it down', () => {
    const lifter = aTool('deck-lifter', { furnishingIds: [stageDeck.id], countOwned: 2 })
    const stage = aLayout('worship', { furnishings: [pieces(stageDeck, 6)] })
    const network = taskNetwork(aTurn(games, stage, { tools: [lifter] }))
    const decks = ofKind(network, 'set').filter((task) => task.furnishingId === stageDeck.id)
    for (const task of decks) {
      expect(task.uses).toEqual([{ resource: 'tool:tool_deck-lifter', amount: 1 }])
      expect(task.modes.map(({ hands }) => hands)).toEqual([2])
    }
  })
})
