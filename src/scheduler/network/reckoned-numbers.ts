/** Numbers of an explanation with where they come from, and the sentence that they add up to. */
import type { RatePath, Rates } from '../../domain/rate-set.ts'
import type { ReckonedNumber, ReckonedTerm, ReckonedUnit, Reckoning } from '../../domain/reckoning.ts'
import type { Task } from '../../domain/task.ts'
import { defaultRateSource } from './default-rates.ts'
import { effectiveHands } from './effective-hands.ts'
import type { NetworkInput } from './network-input.ts'
import { listText } from './task-catalogue/words.ts'

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

/** Of work that hands share: terms, pace, allowance, hands. */
export function reckoningOfWork({ policy }: NetworkInput, terms: ReckonedTerm[], task: Made): Reckoning {
  const policySource = 'The policy of the site'
  const paced = sumOf(terms.filter(({ atPace }) => atPace))
  const unpaced = sumOf(terms.filter(({ atPace }) => !atPace))
  const sentence = [
    `${termsText(terms)} make ${whole(paced + unpaced)} person-seconds for a practised crew;`,
    `at pace ${text(policy.paceFactor)} with an allowance of ${text(policy.allowanceShare * 100)} %${unpaced > 0 ? ' on all but the lift' : ''}`,
    `that is ${task.workPersonSeconds}, so ${modesText(task.modes)}.`,
  ].join(' ')
  return {
    sentence,
    terms,
    paceFactor: setNumber('pace of this crew', policy.paceFactor, 'factor', policySource),
    allowanceShare: setNumber('allowance', policy.allowanceShare, 'share', policySource),
    workPersonSeconds: task.workPersonSeconds,
    modes: task.modes.map(({ hands, seconds }) => ({
      hands,
      effectiveHands: setNumber(
        `what ${hands} hands are worth`,
        effectiveHands(policy.effectiveHands, hands),
        'hands',
        `${policySource}, its table of effective hands`,
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
  const people = hands.value === 1 ? '1 person' : `${hands.value} people`
  return {
    sentence:
      hands.value === 0
        ? `${text(seconds.value)} s by itself; nobody has to stay.`
        : `A fixed time: ${text(seconds.value)} s for ${people}, whatever the pace of the crew.`,
    terms: [term(what, [hands, seconds], [], false)],
    paceFactor: null,
    allowanceShare: null,
    workPersonSeconds: task.workPersonSeconds,
    modes: task.modes.map((mode) => ({ hands: mode.hands, effectiveHands: null, seconds: mode.seconds })),
  }
}

const sumOf = (terms: readonly ReckonedTerm[]): number =>
  terms.reduce((sum, { personSeconds }) => sum + personSeconds, 0)

/** `17 × 9 s handling = 153 s, trolley 41 s and way back 8 s`: the first in full, as most of the work is in it. */
function termsText(terms: readonly ReckonedTerm[]): string {
  return listText(
    terms.map(({ what, times, personSeconds }, index) => {
      const factors = times.map(({ value }) => text(value)).join(' × ')
      return index === 0
        ? `${factors} s ${what} = ${whole(personSeconds)} s`
        : `${what} ${whole(personSeconds)} s`
    }),
  )
}

/** `382 s for 1 person or 104 s for 4`. */
function modesText(modes: Made['modes']): string {
  const [leanest, fastest] = [modes[0]!, modes.at(-1)!]
  const first = `${leanest.seconds} s for ${leanest.hands === 1 ? '1 person' : `${leanest.hands} people`}`
  return fastest === leanest ? first : `${first} or ${fastest.seconds} s for ${fastest.hands}`
}

const whole = (value: number): string => `${Math.round(value)}`

/** At most two decimals, none that say nothing. */
const text = (value: number): string => `${Math.round(value * 100) / 100}`

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
