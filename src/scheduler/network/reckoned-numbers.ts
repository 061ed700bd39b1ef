/** Numbers of an explanation with where they come from, and the sentence that they add up to. */
import { METRES_PER_FOOT, SQUARE_METRES_PER_SQUARE_FOOT } from '../../domain/imperial-factors.ts'
import type { RatePath, Rates } from '../../domain/rate-set.ts'
import type { ReckonedNumber, ReckonedTerm, ReckonedUnit, Reckoning } from '../../domain/reckoning.ts'
import type { UnitSystem } from '../../domain/site.ts'
import type { Task } from '../../domain/task.ts'
import { counted } from '../wording/counted.ts'
import { listText } from '../wording/list-text.ts'
import { DEFAULT_POLICY_NUMBERS, DEFAULT_POLICY_SOURCE } from './default-policy-numbers.ts'
import { defaultRateSource } from './default-rates.ts'
import { effectiveHands } from './effective-hands.ts'
import type { NetworkInput } from './network-input.ts'

/** A number of the rates, as marked. */
export function ratedNumber(
  { rateMarks }: Pick<NetworkInput, 'rateMarks'>,
  name: string,
  value: number,
  unit: ReckonedUnit,
  path: RatePath,
): ReckonedNumber {
  const mark = rateMarks[path]
  return {
    name,
    value,
    unit,
    origin: mark?.origin ?? 'default',
    source: mark?.source ?? defaultRateSource(path) ?? 'The rates of the site',
    ratePath: path,
  }
}

/** A speed, or another single number of the rates. */
export const singleRate = (
  input: Pick<NetworkInput, 'rateMarks' | 'rates'>,
  name: string,
  unit: ReckonedUnit,
  path: { [Path in keyof Rates]: Rates[Path] extends number ? Path : never }[keyof Rates],
): ReckonedNumber => ratedNumber(input, name, input.rates[path], unit, path)

export const givenNumber = (
  name: string,
  value: number,
  unit: ReckonedUnit,
  source: string,
): ReckonedNumber => ({ name, value, unit, origin: 'given', source, ratePath: null })

export const computedNumber = (
  name: string,
  value: number,
  unit: ReckonedUnit,
  source: string,
): ReckonedNumber => ({ name, value, unit, origin: 'computed', source, ratePath: null })

const setNumber = (name: string, value: number, unit: ReckonedUnit, source: string): ReckonedNumber => ({
  name,
  value,
  unit,
  origin: 'set',
  source,
  ratePath: null,
})

/** What somebody entered for this furnishing or device alone. */
export const ownNumber = (name: string, value: number, unit: ReckonedUnit, whose: string): ReckonedNumber =>
  setNumber(name, value, unit, `Entered for ${whose}`)

/**
 * A number of the policy: a default as long as it is what every new site starts with, set when the site has another.
 * @param usual  what it is in the policy of a new site
 */
export const policyNumber = (
  name: string,
  value: number,
  unit: ReckonedUnit,
  usual: number,
  where = 'The policy of the site',
): ReckonedNumber =>
  value === usual
    ? { name, value, unit, origin: 'default', source: DEFAULT_POLICY_SOURCE, ratePath: null }
    : setNumber(name, value, unit, where)

export function term(
  what: string,
  times: ReckonedNumber[],
  dividedBy: ReckonedNumber[] = [],
  atPace = true,
): ReckonedTerm {
  const product = times.reduce((value, number) => value * number.value, 1)
  return {
    what,
    times,
    dividedBy,
    personSeconds: dividedBy.reduce((value, number) => value / number.value, product),
    atPace,
  }
}

type Made = Pick<Task, 'workPersonSeconds' | 'modes'>

/** Of work that hands share: terms, pace, allowance, hands. The sentence is in the units of the site. */
export function reckoningOfWork(
  { policy, units }: Pick<NetworkInput, 'policy' | 'units'>,
  terms: ReckonedTerm[],
  task: Made,
): Reckoning {
  const usual = DEFAULT_POLICY_NUMBERS
  const paced = sumOf(terms.filter(({ atPace }) => atPace))
  const unpaced = sumOf(terms.filter(({ atPace }) => !atPace))
  const sentence = [
    `${termsText(terms, units)} ${terms.length === 1 ? 'makes' : 'make'} ${whole(paced + unpaced)} person-seconds for a practised crew;`,
    `at pace ${valueText(policy.paceFactor)} with an allowance of ${valueText(policy.allowanceShare * 100)} %${unpaced > 0 ? ' on all but the lift' : ''}`,
    `that is ${task.workPersonSeconds}, so ${modesText(task.modes)}.`,
  ].join(' ')
  return {
    sentence,
    terms,
    paceFactor: policyNumber('pace of this crew', policy.paceFactor, 'factor', usual.paceFactor),
    allowanceShare: policyNumber('allowance', policy.allowanceShare, 'share', usual.allowanceShare),
    workPersonSeconds: task.workPersonSeconds,
    modes: task.modes.map(({ hands, seconds }) => ({
      hands,
      effectiveHands: policyNumber(
        `what ${counted(hands, 'hand is', 'hands are')} worth`,
        effectiveHands(policy.effectiveHands, hands),
        'hands',
        effectiveHands(usual.effectiveHands, hands),
        'The policy of the site, its table of effective hands',
      ),
      seconds,
    })),
  }
}

/**
 * Of a time that is what it is, whoever does it: the way with the fewest hands counts as its work.
 * @param seconds  of that way, with where it comes from
 */
export function reckoningOfFixedTime(
  what: string,
  seconds: ReckonedNumber,
  hands: ReckonedNumber,
  task: Made,
): Reckoning {
  const people = counted(hands.value, 'person', 'people')
  return {
    sentence:
      hands.value === 0
        ? `${valueText(seconds.value)} s by itself; nobody has to stay.`
        : `A fixed time: ${valueText(seconds.value)} s for ${people}, whatever the pace of the crew.`,
    terms: [term(what, [hands, seconds], [], false)],
    paceFactor: null,
    allowanceShare: null,
    workPersonSeconds: task.workPersonSeconds,
    modes: task.modes.map((mode) => ({ hands: mode.hands, effectiveHands: null, seconds: mode.seconds })),
  }
}

const sumOf = (terms: readonly ReckonedTerm[]): number =>
  terms.reduce((sum, { personSeconds }) => sum + personSeconds, 0)

/**
 * `17 × 9 s handling = 153 s, trolley 41 s and way back 8 s`: the first in full, as most of the work is in it, with
 * what it is divided by.
 */
function termsText(terms: readonly ReckonedTerm[], units: UnitSystem): string {
  return listText(
    terms.map(({ what, times, dividedBy, personSeconds }, index) => {
      if (index > 0) return `${what} ${whole(personSeconds)} s`
      const factors = times.map((number) => amountText(number, units)).join(' × ')
      const divisors = dividedBy.map((number) => ` ÷ ${amountText(number, units)}`).join('')
      return `${factors}${divisors} ${what} = ${whole(personSeconds)} s`
    }),
  )
}

/** Of what has a unit worth saying: the sign, and what the number is multiplied with where the site reads feet. */
const SIGNS: Readonly<Partial<Record<ReckonedUnit, { metric: string; us: string; usFactor: number }>>> = {
  seconds: { metric: ' s', us: ' s', usFactor: 1 },
  'person-seconds per piece': { metric: ' s', us: ' s', usFactor: 1 },
  'person-seconds per square metre': {
    metric: ' s/m²',
    us: ' s/ft²',
    usFactor: SQUARE_METRES_PER_SQUARE_FOOT,
  },
  'square metres': { metric: ' m²', us: ' ft²', usFactor: 1 / SQUARE_METRES_PER_SQUARE_FOOT },
  metres: { metric: ' m', us: ' ft', usFactor: 1 / METRES_PER_FOOT },
  'metres per second': { metric: ' m/s', us: ' ft/s', usFactor: 1 / METRES_PER_FOOT },
}

/** `17`, `9 s`, `19 m`, `62.34 ft`: in the units of the site; the data beside it stay metric. */
function amountText({ value, unit }: ReckonedNumber, units: UnitSystem): string {
  const sign = SIGNS[unit]
  if (!sign) return valueText(value)
  return `${valueText(units === 'us' ? value * sign.usFactor : value)}${sign[units]}`
}

/** `382 s for 1 person or 104 s for 4`. */
function modesText(modes: Made['modes']): string {
  const [leanest, fastest] = [modes[0]!, modes.at(-1)!]
  const first = `${leanest.seconds} s for ${counted(leanest.hands, 'person', 'people')}`
  return fastest === leanest ? first : `${first} or ${fastest.seconds} s for ${fastest.hands}`
}

const whole = (value: number): string => `${Math.round(value)}`

/** Four figures, so that whoever multiplies gets what is said; none that say nothing. */
const valueText = (value: number): string =>
  `${Math.abs(value) >= 1000 ? Math.round(value) : Number(value.toPrecision(4))}`

/** Seconds and hands of the way with the fewest hands. */
export function firstModeNumbers(
  input: Pick<NetworkInput, 'rateMarks' | 'rates'>,
  path: 'walkthroughModes' | 'signOffModes',
): { seconds: ReckonedNumber; hands: ReckonedNumber } {
  const { hands, seconds } = input.rates[path][0]!
  return {
    seconds: ratedNumber(input, 'time', seconds, 'seconds', `${path}.0.seconds`),
    hands: ratedNumber(input, 'people', hands, 'hands', `${path}.0.hands`),
  }
}
