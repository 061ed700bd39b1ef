import { describe, expect, test } from 'vitest'
import type { TaskNetwork } from '../../../src/domain/task.ts'
import { taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aNetworkInput,
  aTurn,
  banquet,
  chair,
  games,
  hall,
  northStore,
  postPair,
  roundTable,
  stageDeck,
  tableCloth,
  worship,
} from './a-network-input.ts'
import { keyed, mustPrecede, ofKind, piecesIn } from './a-network-question.ts'

/** Moved out of the way, and put back. */
const movedOut = (network: TaskNetwork) =>
  ofKind(network, 'restack').filter(({ key }) => key.includes('out-'))
const putBack = (network: TaskNetwork) =>
  ofKind(network, 'restack').filter(({ key }) => key.includes('back-'))

/** 200 owned of each; 20 chairs and 2 post pairs stand in the hall. */
const storeWith = (...depthOrder: (typeof northStore)['depthOrder']) => ({
  storagePlaces: [{ ...northStore, depthOrder }],
})

describe('a store where something stands in front of what is wanted', () => {
  const network = taskNetwork(aTurn(games, banquet, storeWith(chair.id, roundTable.id)))

  test('has it moved out of the way before the first of what stands behind is fetched', () => {
    const restack = movedOut(network)
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
    expect(piecesIn(movedOut(network))).toBe(180)
  })

  test('has put back what is left of it when all that stands behind is out, and not before', () => {
    // 100 of the 180 are wanted in the hall, 20 more stand there.
    expect(piecesIn(putBack(network))).toBe(80)
    const tables = network.tasks.filter(({ key }) => key.startsWith(`set/${roundTable.id}/`))
    for (const back of putBack(network)) {
      for (const { key } of tables) expect(mustPrecede(network, back.key)).toContain(key)
    }
    for (const { key } of putBack(network)) expect(mustPrecede(network, 'sign-off')).toContain(key)
  })

  test('costs each trolley once on the way out, and once on the way back', () => {
    const work = (tasks: TaskNetwork['tasks']) => tasks.reduce((sum, task) => sum + task.workPersonSeconds, 0)
    // 180 chairs on 8 trolleys: 8 × 60 s, × 1.725; 80 on 4.
    expect(work(movedOut(network))).toBeGreaterThanOrEqual(828)
    expect(work(movedOut(network))).toBeLessThanOrEqual(832)
    expect(work(putBack(network))).toBeGreaterThanOrEqual(414)
    expect(work(putBack(network))).toBeLessThanOrEqual(417)
  })

  test('says what is in the way of what, and when it goes back', () => {
    expect(movedOut(network)[0]!.text).toMatch(
      /^In the North store, move \d+ stacking chairs out of the way: the round tables stand behind them\. For /,
    )
    expect(putBack(network)[0]!.text).toMatch(
      /^Put \d+ stacking chairs back in their place in the North store, now that the round tables are out\. For /,
    )
  })

  test('has one pile moved for everything behind it', () => {
    const both = taskNetwork(aTurn(games, banquet, storeWith(chair.id, roundTable.id, tableCloth.id)))
    const chairLots = movedOut(both).filter((task) => task.furnishingId === chair.id)
    expect(piecesIn(chairLots)).toBe(180)
    expect(chairLots[0]!.text).toMatch(/the round tables and table cloths stand behind them/)
    const tableLots = movedOut(both).filter((task) => task.furnishingId === roundTable.id)
    expect(piecesIn(tableLots)).toBe(200)
  })
})

describe('a store where nothing stands in front', () => {
  test('of what is wanted, as its place is nearest the door, makes nobody move anything', () => {
    const network = taskNetwork(
      aNetworkInput({ ...storeWith(roundTable.id, postPair.id), toLayout: banquet }),
    )
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

describe('a store into which the turn itself puts something in front of what is wanted', () => {
  /** Two post pairs are owned, and both stand in the hall. */
  const posts = { ...postPair, countOwned: 2 }
  const furnishings = aTurn(games, worship).furnishings.map((one) => (one.id === posts.id ? posts : one))
  const network = taskNetwork(aTurn(games, worship, { ...storeWith(posts.id, stageDeck.id), furnishings }))
  const restack = movedOut(network)
  const decks = network.tasks.filter((task) => task.furnishingId === stageDeck.id)

  test('has it moved out of the way once it is all there, before the first of what stands behind', () => {
    expect(piecesIn(restack)).toBe(2)
    const struck = ofKind(network, 'strike').filter((task) => task.furnishingId === posts.id)
    expect(piecesIn(struck)).toBe(2)
    for (const task of restack) {
      for (const { key } of struck) expect(mustPrecede(network, task.key)).toContain(key)
      for (const deck of decks) expect(mustPrecede(network, deck.key)).toContain(task.key)
    }
  })

  test('says that it was just put there', () => {
    expect(restack[0]!.text).toMatch(
      /^In the North store, move 2 post pairs, just put away, out of the way: the stage decks stand behind them\. For /,
    )
  })

  test('has what stood there before moved at once', () => {
    const more = taskNetwork(aTurn(games, worship, storeWith(postPair.id, stageDeck.id)))
    const before = movedOut(more).filter((task) => !task.key.includes('just-struck'))
    expect(piecesIn(before)).toBe(198)
    for (const task of before) expect(task.after).toEqual(['walkthrough'])
    expect(piecesIn(movedOut(more))).toBe(200)
    expect(piecesIn(putBack(more))).toBe(200)
  })
})

describe('a store where something is put away behind what stands in front', () => {
  const network = taskNetwork(aTurn(worship, games, storeWith(postPair.id, stageDeck.id)))
  const restack = movedOut(network)

  test('has that moved out of the way first, and put back when they are in', () => {
    expect(piecesIn(restack)).toBe(200)
    const decks = ofKind(network, 'strike').filter((task) => task.furnishingId === stageDeck.id)
    expect(piecesIn(decks)).toBe(6)
    for (const deck of decks) for (const { key } of restack) expect(deck.after).toContain(key)
    expect(restack[0]!.text).toMatch(/the stage decks go behind them\. For /)
    const [back] = putBack(network)
    expect(back!.text).toMatch(/now that the stage decks are in\./)
    for (const deck of decks) expect(mustPrecede(network, back!.key)).toContain(deck.key)
  })

  test('does not have moved what goes to be washed', () => {
    const food = { kind: 'banquet', foodServed: true, floorWet: false, headcount: 0 } as const
    const cloths = storeWith(postPair.id, tableCloth.id)
    const eaten = taskNetwork(aTurn(banquet, worship, { ...cloths, outgoing: food }))
    expect(ofKind(eaten, 'restack')).toEqual([])
    expect(piecesIn(movedOut(taskNetwork(aTurn(banquet, worship, cloths))))).toBe(200)
  })

  test('makes nothing wait in a circle where pieces go out and come back', () => {
    const mixed = storeWith(roundTable.id, chair.id, postPair.id, stageDeck.id)
    for (const [from, to] of [
      [games, banquet],
      [banquet, worship],
      [worship, games],
    ] as const) {
      const { tasks } = taskNetwork(
        aTurn(from, to, { ...mixed, room: { ...hall, parking: [{ name: 'Wall', areaSquareMetres: 1 }] } }),
      )
      const earlier = new Set<string>()
      for (const { key, after } of tasks) {
        expect(after.filter((one) => !earlier.has(one))).toEqual([])
        earlier.add(key)
      }
    }
  })
})
