import { describe, expect, test } from 'vitest'
import { defaultPolicy } from '../../../src/api/policies/default-policy.ts'
import { PolicyId, SiteId } from '../../../src/domain/ids.ts'
import type { ReckonedNumber, Reckoning } from '../../../src/domain/reckoning.ts'
import { effectiveHands } from '../../../src/scheduler/network/effective-hands.ts'
import type { NetworkInput } from '../../../src/scheduler/network/index.ts'
import { DEFAULT_POLICY_NUMBERS, reckonedNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aLayout,
  aPolicy,
  aTurn,
  banquet,
  chair,
  furnishings,
  games,
  hall,
  northStore,
  pieces,
  postPair,
  stageDeck,
  worship,
} from './a-network-input.ts'

const guests = { kind: 'banquet' as const, foodServed: true, floorWet: false, headcount: 1 }
const deep = { ...northStore, depthOrder: [postPair.id, stageDeck.id, chair.id] }
const lift = {
  id: 'passage_lift' as NetworkInput['passages'][number]['id'],
  siteId: hall.siteId,
  name: 'Lift',
  kind: 'lift' as const,
  clearWidthMetres: null,
  trolleysAtOnce: 1,
  rideSeconds: 30,
  loadLimitKilograms: null,
}
const throughLift = {
  ...northStore,
  routes: [{ roomId: hall.id, distanceMetres: 31, passageIds: [lift.id], doorAt: null }],
}

/** With and without trolleys, through a lift, with something in front in the store, after one guest. */
const turns = (units: NetworkInput['units']): NetworkInput[] => [
  aTurn(games, banquet, { units, outgoing: guests }),
  aTurn(banquet, worship, { units, storagePlaces: [deep], outgoing: { ...guests, headcount: 110 } }),
  aTurn(worship, banquet, { units, storagePlaces: [throughLift], passages: [lift] }),
  aTurn(games, aLayout('meeting', { furnishings: [pieces(chair, 1)] }), { units }),
]
const reckoningsOf = (input: NetworkInput): [string, Reckoning][] => [
  ...reckonedNetwork(input).reckonings.entries(),
]
const allReckonings = (units: NetworkInput['units']) => turns(units).flatMap(reckoningsOf)

/** `2 × 19.69 ft ÷ 4.626 ft/s`: whatever stands there multiplied and divided from the left. */
function product(expression: string): number {
  const [first = '', ...rest] = expression.split(/ (?=[×÷])/)
  return rest.reduce((value, part) => {
    const number = Number.parseFloat(part.slice(2))
    return part.startsWith('×') ? value * number : value / number
  }, Number.parseFloat(first))
}

interface Said {
  readonly first: string
  readonly firstSeconds: number
  readonly seconds: readonly number[]
  readonly liftSeconds: number
  readonly practised: number
  readonly pace: number
  readonly allowancePercent: number
  readonly work: number
  readonly leanest: { readonly seconds: number; readonly hands: number }
}

const WORK =
  /^(?<terms>.+) makes? (?<practised>\d+) person-seconds for a practised crew; at pace (?<pace>[\d.]+) with an allowance of (?<allowance>[\d.]+) %(?: on all but the lift)? that is (?<work>\d+), so (?<seconds>\d+) s for (?<hands>\d+) /

function said(sentence: string): Said | null {
  const groups = WORK.exec(sentence)?.groups
  if (!groups) return null
  const terms = groups.terms!.split(/, | and /)
  const [first = '', firstSeconds = ''] = terms[0]!.split(' = ')
  const secondsOf = (term: string) => Number(/(\d+) s$/.exec(term)?.[1])
  const liftTerm = terms.find((term) => term.startsWith('lift '))
  return {
    first,
    firstSeconds: Number.parseFloat(firstSeconds),
    seconds: terms.map(secondsOf),
    liftSeconds: liftTerm ? secondsOf(liftTerm) : 0,
    practised: Number(groups.practised),
    pace: Number(groups.pace),
    allowancePercent: Number(groups.allowance),
    work: Number(groups.work),
    leanest: { seconds: Number(groups.seconds), hands: Number(groups.hands) },
  }
}

describe.each(['metric', 'us'] as const)('what a sentence says at a site that reads %s', (units) => {
  const reckonings = allReckonings(units)
  const ofWork = reckonings.flatMap(([key, { sentence }]) => {
    const parsed = said(sentence)
    return parsed ? [{ key, sentence, ...parsed }] : []
  })

  test('is there for every task of work, whatever it is', () => {
    const kinds = new Set(ofWork.map(({ key }) => key.split('/')[0]))
    expect([...kinds].sort()).toEqual(
      expect.arrayContaining([
        'bins',
        'bus',
        'clean',
        'linen-off',
        'linen-on',
        'mark-out',
        'restack',
        'set',
        'strike',
      ]),
    )
    const unread = reckonings.filter(([, { sentence }]) => !said(sentence)).map(([key]) => key.split('/')[0])
    expect(new Set(unread)).toEqual(new Set(['briefing', 'walkthrough', 'dry', 'sign-off']))
  })

  test('multiplies and divides to what it says', () => {
    for (const { sentence, first, firstSeconds } of ofWork) {
      const off = Math.abs(product(first) - firstSeconds)
      expect({ sentence, fits: off <= 0.5 + firstSeconds / 500 }).toEqual({ sentence, fits: true })
    }
  })

  test('adds up, at the pace and with the allowance it names', () => {
    for (const one of ofWork) {
      const sum = one.seconds.reduce((total, seconds) => total + seconds, 0)
      const factor = one.pace * (1 + one.allowancePercent / 100)
      const work = (one.practised - one.liftSeconds) * factor + one.liftSeconds
      const alone = one.work / effectiveHands(DEFAULT_POLICY_NUMBERS.effectiveHands, one.leanest.hands)
      const fits = {
        sum: Math.abs(sum - one.practised) <= 0.5 * (one.seconds.length + 1),
        work: Math.abs(work - one.work) <= factor + 1,
        alone: Math.abs(alone - one.leanest.seconds) < 1,
      }
      expect({ sentence: one.sentence, fits }).toEqual({
        sentence: one.sentence,
        fits: { sum: true, work: true, alone: true },
      })
    }
  })

  test('and every name and source of its numbers, is in the units of the site', () => {
    const foreign = units === 'us' ? /\d (m|m²|m\/s|s\/m²)(?![\w²/])/ : /\d (ft|ft²|ft\/s|s\/ft²)(?![\w²/])/
    const texts = reckonings.flatMap(([, reckoning]) => [
      reckoning.sentence,
      ...numbersOf(reckoning)
        .filter(({ origin }) => origin !== 'default')
        .flatMap(({ name, source }) => [name, source]),
    ])
    expect(texts.filter((text) => foreign.test(text))).toEqual([])
  })
})

const numbersOf = ({ terms, paceFactor, allowanceShare, modes }: Reckoning): ReckonedNumber[] => [
  ...terms.flatMap((term) => [...term.times, ...term.dividedBy]),
  ...[paceFactor, allowanceShare, ...modes.map((mode) => mode.effectiveHands)].filter((one) => one !== null),
]

test('a way that is divided by a speed is said with it', () => {
  const restack = (units: NetworkInput['units']) =>
    allReckonings(units).find(([key]) => key.startsWith('restack/') && key.includes(postPair.id))![1].sentence
  // loads, 2 people, 6 m (19.69 ft) at 1.41 m/s (4.626 ft/s)
  expect(restack('metric')).toMatch(/^\d+ × 2 × 6 m ÷ 1\.41 m\/s with the load = \d+ s and way back/)
  expect(restack('us')).toMatch(/^\d+ × 2 × 19\.69 ft ÷ 4\.626 ft\/s with the load = \d+ s and way back/)
})

test('numbers in the data stay metric, with their unit', () => {
  const [metric, us] = [allReckonings('metric'), allReckonings('us')].map((reckonings) =>
    reckonings.map(([key, reckoning]) => [key, numbersOf(reckoning).map(({ value, unit }) => [value, unit])]),
  )
  expect(us).toEqual(metric)
})

test('one of anything is said in the singular', () => {
  const wrong = /(?<![\d.])1 (pieces|hands|people|loads|bins|guests|rows|chairs|marks|tables)\b/
  const texts = allReckonings('metric').flatMap(([, reckoning]) => [
    reckoning.sentence,
    ...numbersOf(reckoning).flatMap(({ name, source }) => [name, source]),
  ])
  expect(texts.filter((text) => wrong.test(text))).toEqual([])
  expect(texts).toContain('what 1 hand is worth')
  expect(texts).toContain('what 2 hands are worth')
  expect(texts).toContain('1 guest, 4 bins for each hundred by default, rounded up')
})

describe('a number of the policy', () => {
  const withPolicy = (policy: NetworkInput['policy']) =>
    new Map(reckoningsOf(aTurn(games, banquet, { policy, furnishings })))
  const untouched = defaultPolicy(PolicyId.parse('policy_new'), SiteId.parse('site_new'))
  const originsOf = (reckoning: Reckoning) => ({
    pace: reckoning.paceFactor!.origin,
    allowance: reckoning.allowanceShare!.origin,
    hands: reckoning.modes.map(({ effectiveHands: worth }) => worth!.origin),
  })

  test('is a default, a judgement without a source, until the site has another', () => {
    const reckonings = withPolicy(untouched)
    const clean = reckonings.get('clean/dust-mop/zone-1/1')!
    expect(originsOf(clean)).toEqual({ pace: 'default', allowance: 'default', hands: ['default', 'default'] })
    expect(clean.paceFactor!.source).toMatch(/^Common practice, no source/)
    const briefing = reckonings.get('briefing')!.terms[0]!.times.find(({ unit }) => unit === 'seconds')!
    expect(briefing).toMatchObject({ origin: 'default', value: 300 })
  })

  test('is set where the site has entered another, and only that one', () => {
    const reckonings = withPolicy(
      aPolicy({
        paceFactor: 1.2,
        briefingSeconds: 600,
        effectiveHands: [{ hands: 2, effective: 1.8 }],
        binsPerHundredGuests: 5,
      }),
    )
    const clean = reckonings.get('clean/dust-mop/zone-1/1')!
    expect(originsOf(clean)).toEqual({ pace: 'set', allowance: 'default', hands: ['default', 'set'] })
    expect(clean.paceFactor!.source).toBe('The policy of the site')
    const briefing = reckonings.get('briefing')!.terms[0]!.times.find(({ unit }) => unit === 'seconds')!
    expect(briefing).toMatchObject({ origin: 'set', value: 600, source: 'The policy of the site' })
  })

  test('of a new site is the one the program calls its default', () => {
    const { id: _, siteId: __, ...numbers } = untouched
    expect(numbers).toEqual(DEFAULT_POLICY_NUMBERS)
    untouched.cleaning.games.push('sweep')
    expect(DEFAULT_POLICY_NUMBERS.cleaning.games).toEqual(['dust-mop'])
  })
})
