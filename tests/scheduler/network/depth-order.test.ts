import { describe, expect, test } from 'vitest'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aNetworkInput,
  aTurn,
  banquet,
  chair,
  games,
  northStore,
  postPair,
  roundTable,
  tableCloth,
} from './a-network-input.ts'
import { keyed, mustPrecede, ofKind, piecesIn } from './a-network-question.ts'

/** 200 owned of each; 20 chairs and 2 post pairs stand in the hall. */
const storeWith = (...depthOrder: (typeof northStore)['depthOrder']) => ({
  storagePlaces: [{ ...northStore, depthOrder }],
})

describe('a store where something stands in front of what is wanted', () => {
  const network = taskNetwork(aTurn(games, banquet, storeWith(chair.id, roundTable.id)))

  test('has it moved out of the way before the first of what stands behind is fetched', () => {
    const restack = ofKind(network, 'restack')
    expect(restack.length).toBeGreaterThan(0)
    for (const tables of network.tasks.filter((task) => task.furnishingId === roundTable.id)) {
      for (const { key } of restack) expect(mustPrecede(network, tables.key)).toContain(key)
    }
  })

  test('does not make what stands in front wait', () => {
    const chairs = keyed(network, `set/${chair.id}/zone-1/1`)
    expect(chairs.after.some((key) => key.startsWith('restack/'))).toBe(false)
  })

  test('has as many moved as can be in it: what is owned less what stands here', () => {
    expect(piecesIn(ofKind(network, 'restack'))).toBe(180)
  })

  test('costs each trolley twice, out of the way and back', () => {
    // 180 chairs on 8 trolleys: 8 × 2 × 60 s, × 1.725
    const work = ofKind(network, 'restack').reduce((sum, task) => sum + task.workPersonSeconds, 0)
    expect(work).toBeGreaterThanOrEqual(1656)
    expect(work).toBeLessThanOrEqual(1660)
  })

  test('says what is in the way of what', () => {
    expect(ofKind(network, 'restack')[0]!.text).toMatch(
      /^In the North store, move \d+ stacking chairs out of the way: the round tables stand behind them\. Put them back when those are out\./,
    )
  })

  test('has one pile moved for everything behind it', () => {
    const both = taskNetwork(aTurn(games, banquet, storeWith(chair.id, roundTable.id, tableCloth.id)))
    const chairLots = ofKind(both, 'restack').filter((task) => task.furnishingId === chair.id)
    expect(piecesIn(chairLots)).toBe(180)
    expect(chairLots[0]!.text).toMatch(/the round tables and table cloths stand behind them/)
    const tableLots = ofKind(both, 'restack').filter((task) => task.furnishingId === roundTable.id)
    expect(piecesIn(tableLots)).toBe(200)
  })
})

describe('a store where nothing stands in front', () => {
  test('of what is wanted, as its place is nearest the door, makes nobody move anything', () => {
    const network = taskNetwork(aTurn(games, banquet, storeWith(roundTable.id, postPair.id)))
    expect(ofKind(network, 'restack')).toEqual([])
  })

  test('as all of it is out, makes nobody move anything', () => {
    const few = { ...chair, countOwned: 20 }
    const stock = aTurn(games, banquet).furnishings.map((one) => (one.id === chair.id ? few : one))
    const network = taskNetwork(
      aTurn(games, banquet, { ...storeWith(chair.id, roundTable.id), furnishings: stock }),
    )
    expect(ofKind(network, 'restack')).toEqual([])
  })

  test('as nothing is fetched, makes nobody move anything', () => {
    expect(ofKind(taskNetwork(aNetworkInput(storeWith(chair.id, roundTable.id))), 'restack')).toEqual([])
  })
})
