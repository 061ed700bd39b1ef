import { describe, expect, test } from 'vitest'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aFurnishing,
  aLayout,
  aNetworkInput,
  aPolicy,
  aTurn,
  banquet,
  chair,
  furnishings,
  games,
  pieces,
  roundTable,
  tableCloth,
  worship,
} from './a-network-input.ts'
import { keyed, mustPrecede, ofKind, piecesIn } from './a-network-question.ts'

const setting = aFurnishing('place setting', 'place settings', { kind: 'place-setting', massKilograms: 1.5 })
const dinner = aLayout('banquet', {
  furnishings: [pieces(roundTable, 15), pieces(chair, 120), pieces(tableCloth, 15), pieces(setting, 120)],
})
const stock = [...furnishings, setting]
const afterFood = { kind: 'banquet', foodServed: true, floorWet: false, headcount: 110 } as const

describe('bins', () => {
  const bins = (headcount: number, binsPerHundredGuests = 4) =>
    ofKind(
      taskNetwork(
        aTurn(games, banquet, {
          outgoing: { kind: 'games', foodServed: false, floorWet: false, headcount },
          policy: aPolicy({ binsPerHundredGuests }),
        }),
      ),
      'bins',
    )

  test('are emptied by the guests there were, rounded up, any time after the walkthrough', () => {
    expect(bins(40)).toMatchObject([{ key: 'bins', count: 2, after: ['walkthrough'] }])
    expect(bins(101)[0]!.count).toBe(5)
  })

  test('are left where nobody was, or the policy counts none', () => {
    expect(bins(0)).toEqual([])
    expect(bins(100, 0)).toEqual([])
    expect(ofKind(taskNetwork(aNetworkInput({ toLayout: banquet })), 'bins')).toEqual([])
  })
})

describe('a room after a meal', () => {
  const network = taskNetwork(aTurn(dinner, worship, { furnishings: stock, outgoing: afterFood }))
  const order = (kindBefore: string, kindAfter: string) => {
    for (const task of network.tasks.filter((one) => one.key.startsWith(kindAfter) && one.zone === 2)) {
      const before = network.tasks.filter((one) => one.key.startsWith(kindBefore) && one.zone === 2)
      expect(before.length).toBeGreaterThan(0)
      for (const { key } of before) expect(mustPrecede(network, task.key)).toContain(key)
    }
  }

  test('is cleared of settings, then cloths, then tables are wiped, then chairs go, then tables', () => {
    order(`bus/${setting.id}`, 'linen-off/')
    order('linen-off/', 'bus/wipe-tables/')
    order('bus/wipe-tables/', `park/${chair.id}`)
    order(`park/${chair.id}`, `strike/${roundTable.id}`)
    order(`strike/${roundTable.id}`, 'clean/')
  })

  test('has all its tables wiped', () => {
    expect(piecesIn(network.tasks.filter((task) => task.key.startsWith('bus/wipe-tables/')))).toBe(15)
  })

  test('without food has no tables wiped', () => {
    const dry = taskNetwork(aTurn(dinner, worship, { furnishings: stock }))
    expect(dry.tasks.some((task) => task.key.startsWith('bus/wipe-tables/'))).toBe(false)
  })
})

describe('a dinner that is laid', () => {
  test('has cloths, then settings, then chairs', () => {
    const network = taskNetwork(aTurn(games, dinner, { furnishings: stock }))
    const settings = ofKind(network, 'settings')
    expect(piecesIn(settings)).toBe(120)
    for (const task of settings) {
      expect(task.after.every((key) => key.startsWith(`linen-on/${tableCloth.id}/zone-${task.zone}`))).toBe(
        true,
      )
    }
    expect(keyed(network, `set/${chair.id}/zone-1/1`).after.every((key) => key.startsWith('settings/'))).toBe(
      true,
    )
  })
})

describe('the same dinner once more', () => {
  test('after a meal keeps tables and chairs, and has cloths and settings replaced', () => {
    const network = taskNetwork(aTurn(dinner, dinner, { furnishings: stock, outgoing: afterFood }))
    expect([...ofKind(network, 'strike'), ...ofKind(network, 'park'), ...ofKind(network, 'set')]).toEqual([])
    expect(piecesIn(ofKind(network, 'linen-off'))).toBe(15)
    expect(piecesIn(ofKind(network, 'linen-on'))).toBe(15)
    expect(piecesIn(ofKind(network, 'settings'))).toBe(120)
    expect(
      piecesIn(network.tasks.filter((task) => task.furnishingId === setting.id && task.kind === 'bus')),
    ).toBe(120)
  })

  test('after a meal begins with a briefing: there is more to share out than a broom', () => {
    const network = taskNetwork(aTurn(dinner, dinner, { furnishings: stock, outgoing: afterFood }))
    expect(network.tasks[0]!.key).toBe('briefing')
    expect(keyed(network, 'walkthrough').after).toEqual(['briefing'])
  })

  test('without cloths and settings has one too when there are tables to wipe', () => {
    const bare = aLayout('banquet', { furnishings: [pieces(roundTable, 15)] })
    const network = taskNetwork(aTurn(bare, bare, { outgoing: afterFood }))
    expect(ofKind(network, 'briefing').length).toBe(1)
  })

  test('without food is walked through, cleaned and signed off', () => {
    const network = taskNetwork(aTurn(dinner, dinner, { furnishings: stock }))
    expect([...new Set(network.tasks.map((task) => task.kind))]).toEqual(['walkthrough', 'clean', 'sign-off'])
  })

  test('after guests has bins too', () => {
    const guests = { kind: 'banquet', foodServed: false, floorWet: false, headcount: 90 } as const
    const network = taskNetwork(aTurn(dinner, dinner, { furnishings: stock, outgoing: guests }))
    expect([...new Set(network.tasks.map((task) => task.kind))]).toEqual([
      'walkthrough',
      'bins',
      'clean',
      'sign-off',
    ])
  })
})

describe('milestones', () => {
  const { milestones } = taskNetwork(aTurn(games, dinner, { furnishings: stock }))
  const keys = (milestone: string) => milestones.find((one) => one.milestone === milestone)?.taskKeys

  test('say after which tasks the floor is clear, tables are up and seats are up, in that order', () => {
    expect(milestones.map(({ milestone }) => milestone)).toEqual(['floor-clear', 'tables-up', 'seats-up'])
    expect(keys('floor-clear')!.every((key) => /^(strike|park)\//.test(key))).toBe(true)
    expect(keys('tables-up')!.every((key) => key.startsWith(`set/${roundTable.id}/`))).toBe(true)
    expect(keys('seats-up')!.every((key) => key.startsWith(`set/${chair.id}/`))).toBe(true)
  })

  test('that a turn does not touch are left out', () => {
    expect(taskNetwork(aTurn(dinner, dinner, { furnishings: stock })).milestones).toEqual([])
    const replaced = taskNetwork(aTurn(dinner, dinner, { furnishings: stock, outgoing: afterFood }))
    expect(replaced.milestones).toEqual([])
  })

  test('of rows are reached when they are lined up', () => {
    const rows = taskNetwork(aTurn(games, aLayout('worship', { furnishings: [pieces(chair, 60)] })))
    expect(rows.milestones.find(({ milestone }) => milestone === 'seats-up')!.taskKeys).toContain(
      'set/align-rows/zone-1',
    )
  })
})

describe('texts', () => {
  test('are in feet and square feet where the site wants that', () => {
    const network = taskNetwork(aTurn(games, banquet, { units: 'us' }))
    expect(keyed(network, 'clean/dust-mop/zone-1/1').text).toMatch(/about 768 ft²/)
    expect(keyed(network, `set/${roundTable.id}/zone-1/1`).text).toMatch(/from the North store \(82 ft\)/)
  })
})
