import { describe, expect, test } from 'vitest'
import { cleanPiecesShort, taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aFurnishing,
  aLayout,
  aTurn,
  banquet,
  chair,
  furnishings,
  games,
  pieces,
  roundTable,
  tableCloth,
} from './a-network-input.ts'
import { keyed, ofKind, piecesIn } from './a-network-question.ts'

const setting = aFurnishing('place setting', 'place settings', { kind: 'place-setting', massKilograms: 1.5 })
const dinner = (settings: number) =>
  aLayout('banquet', {
    furnishings: [
      pieces(roundTable, 15),
      pieces(chair, 120),
      pieces(tableCloth, 15),
      pieces(setting, settings),
    ],
  })
const eaten = { kind: 'banquet', foodServed: true, floorWet: false, headcount: 110 } as const
const owning = (cloths: number, settings: number) => ({
  furnishings: [
    ...furnishings.map((one) => (one.id === tableCloth.id ? { ...tableCloth, countOwned: cloths } : one)),
    { ...setting, countOwned: settings },
  ],
  outgoing: eaten,
})

describe('cloths and settings that were eaten from', () => {
  const network = taskNetwork(aTurn(dinner(48), dinner(48), owning(40, 100)))

  test('go to the laundry and to the kitchen to be washed, and not among the clean ones', () => {
    expect(keyed(network, `linen-off/${tableCloth.id}/zone-1/1`)).toMatchObject({
      toPlace: 'the laundry',
      text: 'Take off and fold 5 table cloths in zone 1 and take them to the laundry to be washed, not to the clean ones in the North store, 5 at a time. For 1 to 4 people.',
    })
    expect(keyed(network, `bus/${setting.id}/zone-1/1`)).toMatchObject({ toPlace: 'the kitchen' })
    expect(keyed(network, `bus/${setting.id}/zone-1/1`).text).toMatch(
      /take them to the kitchen to be washed, not to the clean ones in the North store/,
    )
  })

  test('are replaced by clean ones from the store', () => {
    expect(keyed(network, `linen-on/${tableCloth.id}/zone-1/1`)).toMatchObject({ fromPlace: 'North store' })
    expect(keyed(network, `linen-on/${tableCloth.id}/zone-1/1`).text).toMatch(
      /^Bring 5 clean table cloths from the North store \(25 m\)/,
    )
  })

  test('take as long as the way to the store', () => {
    const dry = taskNetwork(aTurn(banquet, games))
    const fromFood = taskNetwork(aTurn(banquet, games, { outgoing: eaten }))
    const work = (of: typeof dry) =>
      ofKind(of, 'linen-off').reduce((sum, task) => sum + task.workPersonSeconds, 0)
    expect(work(fromFood)).toBe(work(dry))
  })

  test('are no dirty ones without food: then cloths go back to the store', () => {
    const dry = taskNetwork(aTurn(banquet, games))
    for (const task of ofKind(dry, 'linen-off')) expect(task.toPlace).toBe('North store')
  })
})

describe('clean cloths and settings', () => {
  test('are short where what is wanted and what is soiled are more than the site owns', () => {
    expect(cleanPiecesShort(aTurn(dinner(48), dinner(48), owning(18, 60)))).toMatchObject([
      { furnishing: { id: setting.id }, short: 36 },
      { furnishing: { id: tableCloth.id }, short: 12 },
    ])
  })

  test('suffice to the last one', () => {
    expect(cleanPiecesShort(aTurn(dinner(40), dinner(48), owning(30, 88)))).toEqual([])
    expect(cleanPiecesShort(aTurn(dinner(40), dinner(48), owning(29, 88)))).toMatchObject([{ short: 1 }])
  })

  test('are not asked for without food, nor by a layout that has none', () => {
    expect(cleanPiecesShort({ ...aTurn(dinner(48), dinner(48), owning(18, 60)), outgoing: null })).toEqual([])
    expect(cleanPiecesShort(aTurn(dinner(48), games, owning(1, 1)))).toEqual([])
  })

  test('that are short are on the list all the same, as many as are needed', () => {
    const network = taskNetwork(aTurn(dinner(48), dinner(48), owning(18, 60)))
    expect(piecesIn(ofKind(network, 'linen-on'))).toBe(15)
    expect(piecesIn(ofKind(network, 'settings'))).toBe(48)
  })
})
