/** Advice on how many people a layout may hold, how they get out, and the ways between rows and tables. */
import { type AdviceInput, checkAdviceInput, peopleExpected, tablesOf } from './advice-input.ts'
import { type AdviceItem, sourceOf, sourcesOf } from './advice-item.ts'
import { crowdManagerAdvice } from './crowd-manager-advice.ts'
import { exitsAdvice } from './exits-advice.ts'
import { type LayoutLoads, layoutLoads, loadsDiffer, loadText } from './layout-loads.ts'
import { areaText, numberText, peopleText } from './measure-text.ts'
import { peopleToServe, peopleToServeAdvice } from './people-to-serve.ts'
import { rowsAdvice } from './rows-advice.ts'
import { tablesAdvice } from './tables-advice.ts'

/**
 * Occupancy, exits and aisles of a layout, in that order; never empty. Show `ADVICE_CAUTION` with it. Advice is not a
 * verdict on a booking: it says `look` only where the plan shows something, and `unknown` where it cannot be told.
 * @throws RangeError naming the field that cannot be
 */
export function occupancyAdvice(input: AdviceInput): AdviceItem[] {
  checkAdviceInput(input)
  const loads = layoutLoads(input)
  const toServe = peopleToServe(input, loads)
  return [
    loadAdvice(input, loads),
    ...postedLimitAdvice(input, loads.toPromise.peopleToPromise),
    ...(toServe.people > 0 ? [peopleToServeAdvice(input, loads, toServe)] : []),
    ...exitsAdvice(input, toServe),
    ...crowdManagerAdvice(input, toServe),
    ...rowsAdvice(input),
    ...tablesAdvice(input),
  ]
}

function loadAdvice(input: AdviceInput, loads: LayoutLoads): AdviceItem {
  const { toPromise, toDesignFor } = loads
  const people = toPromise.peopleToPromise
  const expected = peopleExpected(input)
  const tooMany = expected !== null && expected > people
  const sum = toPromise.parts.length > 1 ? `${peopleText(people)}: ` : ''
  const differ = loadsDiffer(loads)
  const forExits = differ
    ? `; for exits the load is ${numberText(toDesignFor.peopleToDesignFor)} (${loadText(toDesignFor, input, 'peopleToDesignFor', false)})`
    : ''
  const ofStage =
    input.stageAreaSquareMetres === null ? '; the stage, whose size is not known, is counted as floor' : ''
  const ofGuests =
    expected === null
      ? ''
      : `; ${numberText(expected)} ${expected === 1 ? 'is' : 'are'} expected${tooMany ? ', which is too many' : ''}`
  return {
    topic: 'occupancy',
    code: 'occupant-load',
    text:
      `${areaText(input.netAreaSquareMetres, input.units)} of floor hold ${sum}${loadText(toPromise, input, 'peopleToPromise')}` +
      `${forExits}${ofStage}${ofGuests}.`,
    found: expected,
    required: people,
    unit: 'people',
    verdict: expected === null ? 'unknown' : tooMany ? 'look' : 'ok',
    ...sourcesOf(differ ? [...toPromise.parts, ...toDesignFor.parts] : toPromise.parts),
  }
}

function postedLimitAdvice(input: AdviceInput, peopleToPromise: number): AdviceItem[] {
  const posted = input.occupantLimitPosted
  const expected = peopleExpected(input)
  const rule = tablesOf(input).occupantLimit
  const item = { topic: 'occupancy', unit: 'people', ...sourceOf(rule) } as const
  if (posted === null) {
    return [
      {
        ...item,
        code: 'posted-limit',
        text: `No occupant limit has been entered: enter ${rule.setBy}; by its floor this layout holds ${peopleText(peopleToPromise)}.`,
        found: expected,
        required: null,
        verdict: 'unknown',
      },
    ]
  }
  const tooMany = expected !== null && expected > posted
  const items: AdviceItem[] = [
    {
      ...item,
      code: 'posted-limit',
      text:
        expected === null
          ? `The ${rule.name} is ${peopleText(posted)}.`
          : `The ${rule.name} is ${peopleText(posted)}; ${numberText(expected)} ${expected === 1 ? 'is' : 'are'} expected${tooMany ? ', which is too many' : ''}.`,
      found: expected,
      required: posted,
      verdict: expected === null ? 'unknown' : tooMany ? 'look' : 'ok',
    },
  ]
  if (posted > peopleToPromise) {
    items.push({
      ...item,
      code: 'posted-limit-above-load',
      text: `The ${rule.name} of ${peopleText(posted)} is more than the ${numberText(peopleToPromise)} this layout holds by its floor: ask which use the limit was set for.`,
      found: posted,
      required: peopleToPromise,
      verdict: 'look',
    })
  }
  return items
}
