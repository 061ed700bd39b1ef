import { describe, expect, test } from 'vitest'
import type { Reckoning } from '../../../src/domain/reckoning.ts'
import type { NetworkInput } from '../../../src/scheduler/network/index.ts'
import { reckonedNetwork } from '../../../src/scheduler/network/index.ts'
import { aTurn, banquet, chair, furnishings, games, northStore, roundTable } from './a-network-input.ts'

const reckoned = (key: string, overrides: Partial<NetworkInput> = {}): Reckoning => {
  const reckoning = reckonedNetwork(aTurn(games, banquet, overrides)).reckonings.get(key)
  if (!reckoning) throw new Error(`no reckoning of ${key}`)
  return reckoning
}
const chairs = `set/${chair.id}/zone-1/1`
const numbersOf = ({ terms }: Reckoning) => terms.flatMap((term) => [...term.times, ...term.dividedBy])

describe('the minutes of a task', () => {
  test('are pieces × handling, and loads × the trolley and the way, times pace and allowance, among hands', () => {
    const reckoning = reckoned(chairs)
    expect(reckoning.terms.map(({ what }) => what)).toEqual([
      'handling',
      'trolley',
      'way with the load',
      'way back',
    ])
    // 17 chairs × 9 s; one load × 60 s, × 19 m at 10 m in 15 s, × 19 m at 1.6 m/s
    expect(reckoning.terms.map(({ personSeconds }) => Math.round(personSeconds * 10) / 10)).toEqual([
      153, 60, 28.5, 11.9,
    ])
    expect(reckoning.paceFactor!.value).toBe(1.5)
    expect(reckoning.allowanceShare!.value).toBe(0.15)
    expect(reckoning.modes.map(({ effectiveHands }) => effectiveHands!.value)).toEqual([1, 2, 2.85, 3.7])
  })

  test('are said in one sentence', () => {
    expect(reckoned(chairs).sentence).toBe(
      '17 × 9 s handling = 153 s, trolley 60 s, way with the load 29 s and way back 12 s make 253 person-seconds for a practised crew; at pace 1.5 with an allowance of 15 % that is 438, so 438 s for 1 person or 119 s for 4.',
    )
  })

  test('that are fixed say that they are', () => {
    expect(reckoned('walkthrough')).toMatchObject({
      sentence: 'A fixed time: 300 s for 1 person, whatever the pace of the crew.',
      paceFactor: null,
      workPersonSeconds: 300,
    })
  })
})

describe('a number in it', () => {
  const handling = (reckoning: Reckoning) =>
    numbersOf(reckoning).find(({ name }) => name === 'handling of one piece')!

  test('is a default with its source and its path until somebody changes it', () => {
    expect(handling(reckoned(chairs))).toMatchObject({
      value: 9,
      unit: 'person-seconds per piece',
      origin: 'default',
      ratePath: 'fromTrolley.stacking-chair.setPersonSeconds',
    })
    expect(handling(reckoned(chairs)).source).toMatch(/6 to 12/)
  })

  test('is learned or set where the rate set marks it so', () => {
    const path = 'fromTrolley.stacking-chair.setPersonSeconds'
    const rateMarks = { [path]: { origin: 'learned' as const, source: '12 turns in the spring' } }
    expect(handling(reckoned(chairs, { rateMarks }))).toMatchObject({
      origin: 'learned',
      source: '12 turns in the spring',
    })
  })

  test('is set where the furnishing has a figure of its own', () => {
    const slow = furnishings.map((one) => (one.id === chair.id ? { ...chair, setPersonSeconds: 11 } : one))
    expect(handling(reckoned(chairs, { furnishings: slow }))).toMatchObject({
      value: 11,
      origin: 'set',
      source: 'Entered for stacking chairs',
      ratePath: null,
    })
  })

  test('is given or computed where no rate is behind it', () => {
    const byName = new Map(numbersOf(reckoned(chairs)).map((number) => [number.name, number]))
    expect(byName.get('pieces')).toMatchObject({ value: 17, origin: 'given' })
    expect(byName.get('loads')).toMatchObject({
      origin: 'computed',
      source: '17 stacking chairs, at most 25 to a load',
    })
    expect(byName.get('beyond the short carry of 6 m, one way')).toMatchObject({
      value: 19,
      origin: 'given',
      source: 'The route from the North store, 25 m',
    })
  })

  test('is a rate where no route is on record', () => {
    const reckoning = reckoned(chairs, { storagePlaces: [{ ...northStore, routes: [] }] })
    expect(numbersOf(reckoning).find(({ ratePath }) => ratePath === 'routeUnknownMetres')).toMatchObject({
      value: 34,
      origin: 'default',
    })
  })

  test('for a trolley of tables counts both who push it', () => {
    const people = numbersOf(reckoned(`set/${roundTable.id}/zone-1/1`)).find(
      ({ name }) => name === 'people with each load',
    )
    expect(people).toMatchObject({ value: 2, unit: 'hands', origin: 'given' })
  })
})
